import { CommanderError } from 'commander'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput } from './port.ts'

/** What went wrong, from what commander throws: 'printed' for help and version, which are no error. */
export function readCommandLineError(error: unknown): unknown {
  if (!(error instanceof CommanderError)) return error
  if (error.exitCode === 0) return 'printed'
  const said = printableOf(error.message.replace(/\n/g, ' '))
  const close = /\(Did you mean (.+?)\?\)/.exec(said)?.[1]
  const what = said
    .replace(/^error: /, '')
    .replace(/ *\(Did you mean .*\)$/, '')
    .replace(/\.$/, '')
  const advice = close ? `Did you mean ${close}?` : 'See "pausebook --help".'
  return new CommandError('command_line', `${sentenceOf(what)}. ${advice}`, { exit: 2 })
}

function sentenceOf(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** `--units`: km or mi, kg or lb, or one of each, in either order, with a space or a comma between them. */
export function readUnits(given: string | undefined): CommandInput['units'] {
  const units: CommandInput['units'] = { distance: null, mass: null }
  if (given === undefined) return units
  const words = given
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '')
  for (const word of words) {
    if ((word === 'km' || word === 'mi') && units.distance === null) units.distance = word
    else if ((word === 'kg' || word === 'lb') && units.mass === null) units.mass = word
    else throw unitsError(given)
  }
  if (words.length === 0) throw unitsError(given)
  return units
}

function unitsError(given: string): CommandError {
  const message = `"${printableOf(given)}" are no units. Write km or mi, kg or lb, or one of each as in --units "mi lb".`
  return new CommandError('command_line', message, { exit: 2 })
}
