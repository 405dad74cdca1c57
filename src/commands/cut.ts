import { warmUpFor } from '../app/earlierDays.ts'
import { fractionForRace } from '../figures/fuel.ts'
import { type Cut, cutForRace, printCut } from '../prescription/cut.ts'
import { cutToTime, type Only, onlyChoices } from '../prescription/cutToTime.ts'
import { expand } from '../prescription/expand.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { Prescription } from '../prescription/model.ts'
import { usesPercent } from '../prescription/planned.ts'
import { goalIn, lapMetersOf, stepsOf } from '../prescription/step.ts'
import { metersOf, readLength } from '../units/length.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode, invalid, show } from './command.ts'
import { contextOf, parsePrescription } from './context.ts'

/** Prints a shortened prescription as notation, with each change as a comment. Nothing is stored. If the minutes
 * are too short for both, prints the day with only the run and the day with only the lift, and ends with 1.
 * @throws CommandError for a prescription that cannot be read, an invalid share, distance or number of minutes,
 * `no_goal` if a race is given and the day has no goal, `nothing_to_cut` for a share of a day of meals alone, and
 * `too_short` if the day cannot be cut that far */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { values } = input
  const how = parseHow(values)
  // The command line has no other choices.
  const only = (values.only ?? null) as Only | null
  if (how.by === 'race' && only !== null)
    throw commandLineError('--for cuts the running alone, so --only has no effect. Leave one of them out.')
  const context = contextOf(input)
  const [path = ''] = input.words
  const { prescription } = parsePrescription(context, path)
  const warmUpOf = warmUpFor(context.settings, usesPercent(prescription) ? context.maxima : [])
  // Minutes, warm-up sets included; not rounded.
  const expected = (day: Prescription) => expectedSecondsOf(stepsOf(expand(day, warmUpOf)), day) / 60
  const before = expected(prescription)
  const printed = (cut: Cut): ExitCode => {
    const text = printCut(cut)
    show(input, { text, expectedMinutes: { before, after: expected(cut.prescription) }, choices: [] }, text)
    return 0
  }
  if (how.by === 'race') return printed(raceCut(prescription, how, expected))
  const minutes = how.by === 'minutes' ? how.value : how.value * before
  if (minutes === 0) {
    const message =
      'Nothing in this day takes time, so no share of it can be cut. Give a day with prep, running or lifting.'
    throw new CommandError('nothing_to_cut', message)
  }
  const cut = cutToTime(prescription, minutes, expected, only)
  if (cut.fits) return printed(cut)
  const given = `${Math.round(minutes)} min`
  const choices = onlyChoices(prescription, minutes, expected)
  if (choices.length > 0) return tooShort(input, given, before, choices)
  const message = `${given} is too short for this day: cut as far as possible, it takes ${Math.ceil(cut.minutes)} min. Give more minutes, or leave parts out by hand.`
  throw new CommandError('too_short', message)
}

/** The days to choose from. */
function tooShort(
  input: CommandInput,
  given: string,
  before: number,
  choices: ReturnType<typeof onlyChoices>,
): ExitCode {
  const named = choices.map(
    ({ only, cut: { minutes: taken } }) => `the ${only} only (${Math.round(taken)} min)`,
  )
  const options = choices.map(({ only }) => `--only ${only}`)
  const texts = choices.map((choice) => ({
    only: choice.only,
    text: printCut(choice.cut),
    expectedMinutes: choice.cut.minutes,
  }))
  const message = `${given} is too short for both: ${named.join(' or ')}. Choose with ${options.join(' or ')}.`
  const error = { code: 'too_short', message, problems: [] }
  show(
    input,
    { error, text: null, expectedMinutes: { before, after: null }, choices: texts },
    texts.map(({ only, text }) => `# the ${only} only\n${text}`).join('\n'),
  )
  input.io.err(`pausebook: ${message}\n`)
  return 1
}

type How =
  /** `value` is the share of the expected minutes that stays. */
  | { by: 'share'; value: number }
  | { by: 'minutes'; value: number }
  | { by: 'race'; meters: (lapMeters: number) => number }

const ways = '--by 30% (30 % less), --to 70% (70 % stays), --for DISTANCE and --minutes N'

function parseHow(values: CommandInput['values']): How {
  const given = (['by', 'to', 'for', 'minutes'] as const).filter((name) => values[name] !== undefined)
  const [name] = given
  if (name === undefined || given.length > 1) {
    const what = name === undefined ? 'Nothing says how much to cut' : 'Several options say how much to cut'
    throw commandLineError(`${what}. Give one of ${ways}.`)
  }
  const text = (values[name] ?? '').trim()
  if (name === 'by') return { by: 'share', value: 1 - shareOf(text, 'by') }
  if (name === 'to') return { by: 'share', value: shareOf(text, 'to') }
  if (name === 'minutes') return { by: 'minutes', value: minutesOf(text) }
  const length = readLength(text)
  if (length === null) throw invalid('distance', text, 'Example: --for 5km or --for "half marathon".')
  return { by: 'race', meters: (lapMeters) => metersOf(length, lapMeters) }
}

/** Between 0 and 1, from `30%`, `30` or `0.3`. */
function shareOf(text: string, option: 'by' | 'to'): number {
  const [, number = '', percent] = /^(\d{1,3}(?:\.\d+)?|\.\d+)( ?%)?$/.exec(text) ?? []
  const value = Number(number) / (percent === undefined && Number(number) <= 1 ? 1 : 100)
  if (value > 0 && value < 1) return value
  throw invalid('share', text, `Example: --${option} 30%; it is above 0 and below 100%.`)
}

function minutesOf(text: string): number {
  const value = /^\d{1,4}(\.\d{1,3})?( ?min)?$/.test(text) ? Number.parseFloat(text) : 0
  if (value > 0) return value
  throw invalid('number of minutes', text, 'Example: --minutes 45.')
}

function raceCut(
  prescription: Prescription,
  how: Extract<How, { by: 'race' }>,
  expected: (prescription: Prescription) => number,
): Cut {
  const goal = goalIn(prescription)
  if (goal === null)
    throw new CommandError(
      'no_goal',
      'The day has no goal, so its race is unknown. Add a line such as "goal: 10 km in 39:30", or cut it with --by.',
    )
  const race = how.meters(lapMetersOf(prescription))
  return cutForRace(prescription, fractionForRace(race, goal.meters), expected)
}
