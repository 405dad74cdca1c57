import { morningOn, morningTyped } from '../app/morning.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { addMornings } from '../logbook/mornings.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode, fitted, show } from './command.ts'
import { contextOf } from './context.ts'

/** Shows a morning, or records what is typed: sleep, resting heart rate, body mass, soreness by place, a note.
 * @throws CommandError `bad_morning` for impossible values; nothing is stored then */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, logbookDir, flags } = input
  const at = localTimeOf(io.now())
  const { today, units } = contextOf(input)
  const isUndo = flags.has('undo') || input.words.join() === 'undo'
  const words = input.words.filter((word) => word !== 'undo' || !isUndo)
  const reading = morningTyped(asText(words), today, units.mass)
  if ('problem' in reading) throw new CommandError('bad_morning', reading.problem)
  const date = reading.date ?? today
  const isNamed = Object.keys(reading.values).length > 0
  if (isUndo) {
    if (isNamed) throw commandLineError('--undo takes back what was typed last. Leave the rest out.')
    const before = morningOn(logbookDir, date)
    input.sources.push(before)
    if (before.morning === undefined)
      throw new CommandError(
        'nothing_to_undo',
        `Nothing was typed for ${date}. Write morning 6:40 h, 48 bpm.`,
      )
    addMornings(logbookDir, [{ type: 'undone', at, date }])
  } else if (isNamed) addMornings(logbookDir, [{ type: 'typed', at, date, values: reading.values }])
  const after = morningOn(logbookDir, date, input.units.mass)
  input.sources.push(after)
  show(input, { date, morning: after.morning ?? null }, fitted(after.text(), io))
  return 0
}

/** Joins the words. A shell removes the quotes of a note, so several words that are not a list get quotes
 * again. */
function asText(words: readonly string[]): string {
  return words
    .map((word) => {
      const [, text = '', comma = ''] = /^(.*?)(,?)$/s.exec(word) ?? []
      const isNote = /\s/.test(text) && !/[",\d]/.test(text)
      return isNote ? `"${text}"${comma}` : word
    })
    .join(' ')
}
