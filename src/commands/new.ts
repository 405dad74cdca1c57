import { localTimeOf } from '../logbook/machine.ts'
import { maximaOn } from '../logbook/maximaOn.ts'
import { addPrescription, prescriptionName } from '../logbook/newPrescription.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { readPrescription } from '../prescription/read.ts'
import { jsonOf } from '../summary/json.ts'
import { editUntilRead, keyAnswers } from './editing.ts'
import { edit, editorOf } from './editor.ts'
import { printableOf } from './io.ts'
import { likeGiven } from './likeGiven.ts'
import { likeText, templateOf } from './newDayText.ts'
import { CommandError, type CommandInput, type ExitCode } from './port.ts'
import { digestOf } from './progressLine.ts'
import { settingsAsSet } from './settingsAsSet.ts'

const usualTitle = 'New day'

/** Writes a day into the logbook's prescriptions, from a template or like another day, and prints its path. On a
 * terminal the editor is opened on it, and again for as long as it has problems and Enter is pressed.
 * @throws CommandError for a title that is none, a pattern that cannot be read, an editor that fails */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values, words } = input
  const settings = settingsAsSet(input)
  const editor = io.terminal.in && io.terminal.out && !input.json ? editorOf(io.env, process.platform) : null
  const logbook = openLogbook(input.logbookDir)
  const today = localTimeOf(io.now()).slice(0, 10)
  const defaults = { units: unitsOf(input, settings), maxima: maximaOn(digestOf(io, logbook), today) }
  const text =
    values.like === undefined
      ? templateOf(words[0] ?? usualTitle, today, defaults.units)
      : likeText(
          likeGiven(input, values.like, logbook, settings, defaults.maxima),
          words[0] ?? null,
          today,
          defaults,
        )
  const { title, date } = dayIn(text, words[0] ?? '', defaults)
  const path = addPrescription(input.logbookDir, prescriptionName(title, date), text)
  io.out(input.json ? jsonOf({ path, title, date }) : `${path}\n`)
  if (editor === null) return 0
  const isRead = await editUntilRead(path, {
    edit: (file) => edit(editor, file, io.env),
    goesBack: () => keyAnswers(process.stdin),
    err: io.err,
    defaults,
  })
  if (isRead) io.err('The day can be read. "pausebook check" lays it out, and "pausebook" offers it.\n')
  else io.err(`pausebook: The day was left with problems. "pausebook check" shows them.\n`)
  return isRead ? 0 : 1
}

function unitsOf({ units }: CommandInput, settings: Settings) {
  return { distance: units.distance ?? settings.units.distance, mass: units.mass ?? settings.units.mass }
}

/** The template can be read, and so can the pattern: what stands in the way is the title. */
function dayIn(text: string, title: string, defaults: ReadingDefaults): { title: string; date: string } {
  const reading = readPrescription(text, defaults)
  if ('prescription' in reading && (title === '' || reading.prescription.title === title.trim()))
    return { title: reading.prescription.title, date: reading.prescription.date ?? '' }
  const message = `"${printableOf(title)}" cannot be the title of a day. Write one line of words that begins no part and no header.`
  throw new CommandError('bad_title', message, { exit: 2 })
}
