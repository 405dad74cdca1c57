import { CommanderError } from 'commander'
import leven from 'leven'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput } from './port.ts'

/** What went wrong, from what commander throws: 'printed' for help and version, which are no error. */
export function readCommandLineError(error: unknown): unknown {
  if (!(error instanceof CommanderError)) return error
  if (error.exitCode === 0) return 'printed'
  const said = printableOf(error.message.replace(/\n/g, ' '))
  const choice = choiceErrorOf(said)
  if (choice !== null) return choice
  const close = nearOnes(said).join(' or ')
  const what = said
    .replace(/^error: /, '')
    .replace(/ *\(Did you mean .*\)$/, '')
    .replace(/\.$/, '')
  const advice = close !== '' ? `Did you mean ${close}?` : 'See "pausebook --help".'
  return new CommandError('command_line', `${sentenceOf(what)}. ${advice}`, { exit: 2 })
}

/** A word that stands where only a few can. */
function choiceErrorOf(said: string): CommandError | null {
  const pattern =
    /^error: command-argument value '(.*)' is invalid for argument '(SHELL|SUBJECT)'\. Allowed choices are (.*)\.$/
  const [, word = '', argument = '', list = ''] = pattern.exec(said) ?? []
  if (argument === '') return null
  const choices = list.replace(/, (?=[^,]*$)/, ' and ')
  const message =
    argument === 'SHELL'
      ? `There are completions for ${choices}, not for "${word}". Write one of these.`
      : `There is progress of ${choices}, not of "${word}". Write one of these, or nothing to see them all.`
  return new CommandError('command_line', message, { exit: 2 })
}

/** Of the names that commander finds similar those that a slip of the hand makes of what was written. */
function nearOnes(said: string): string[] {
  const [, written = ''] = /'(.*?)'/.exec(said) ?? []
  const [, names = ''] = /\(Did you mean (?:one of )?(.+?)\?\)/.exec(said) ?? []
  return names.split(', ').filter((name) => name !== '' && isSlip(bareOf(written), bareOf(name)))
}

function bareOf(name: string): string {
  return name.replace(/^-+/, '').toLowerCase()
}

/** At most two letters, and less than half of them, are others; two that changed places count as one. */
function isSlip(written: string, meant: string): boolean {
  const letters = isSwap(written, meant) ? 1 : leven(written, meant)
  return letters <= 2 && letters < written.length / 2
}

function isSwap(written: string, meant: string): boolean {
  const places = [...written].flatMap((letter, place) => (letter === meant[place] ? [] : [place]))
  const [first = 0, second = 0] = places
  const isPair = written.length === meant.length && places.length === 2 && second === first + 1
  return isPair && written[first] === meant[second] && written[second] === meant[first]
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
