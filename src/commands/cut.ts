import { warmUpFor } from '../app/equipment.ts'
import { fractionForRace } from '../figures/load.ts'
import { type Cut, cutForRace, printCut } from '../prescription/cut.ts'
import { cutToTime, type Only, onlyChoices, tooShortText } from '../prescription/cutToTime.ts'
import { expand } from '../prescription/expand.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { Prescription } from '../prescription/model.ts'
import { usesPercent } from '../prescription/planned.ts'
import { goalIn, lapMetersOf, stepsOf } from '../prescription/step.ts'
import { metersOf, readLength } from '../units/length.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode, invalid, show } from './command.ts'
import { contextOf, parsePrescription } from './context.ts'

/** Prints a shortened prescription as notation, with each change as a comment. Nothing is stored.
 * @throws CommandError for a prescription that cannot be read, an invalid share, distance or number of minutes,
 * `no_goal` if a race is given and the day has no goal, `nothing_to_cut` for a share of a day of meals alone, and
 * `too_short` if the day cannot be cut that far */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { values } = input
  const way = wayOf(values)
  // The command line has no other choices.
  const only = (values.only ?? null) as Only | null
  const context = contextOf(input)
  const [path = ''] = input.words
  const { prescription } = parsePrescription(context, path)
  const warmUpOf = warmUpFor(context.settings, usesPercent(prescription) ? context.maxima : [])
  // Minutes, warm-up sets included; not rounded.
  const expected = (day: Prescription) => expectedSecondsOf(stepsOf(expand(day, warmUpOf)), day) / 60
  const before = expected(prescription)
  const amount = (values[way] ?? '').trim()
  const cut =
    way === 'for'
      ? raceCut(prescription, amount, only, expected)
      : timeCut(prescription, minutesOf(way, amount, before), only, expected, input)
  const text = printCut(cut)
  show(input, { text, expectedMinutes: { before, after: expected(cut.prescription) } }, text)
  return 0
}

const ways = ['by', 'to', 'for', 'minutes'] as const
type Way = (typeof ways)[number]

function wayOf(values: CommandInput['values']): Way {
  const [way, ...others] = ways.filter((name) => values[name] !== undefined)
  if (way !== undefined && others.length === 0) return way
  const what = way === undefined ? 'Nothing says how much to cut' : 'Several options say how much to cut'
  throw commandLineError(
    `${what}. Give one of --by 30% (30 % less), --to 70% (70 % stays), --for DISTANCE and --minutes N.`,
  )
}

/** The minutes of the cut day. @param before the expected minutes of the whole day */
function minutesOf(way: Exclude<Way, 'for'>, text: string, before: number): number {
  if (way === 'minutes') {
    const value = /^\d{1,4}(\.\d{1,3})?( ?min)?$/.test(text) ? Number.parseFloat(text) : 0
    if (value > 0) return value
    throw invalid('number of minutes', text, 'Example: --minutes 45.')
  }
  const share = shareOf(text, way)
  if (before > 0) return before * (way === 'by' ? 1 - share : share)
  throw new CommandError(
    'nothing_to_cut',
    'Nothing in this day takes time, so no share of it can be cut. Give a day with prep, running or lifting.',
  )
}

/** Between 0 and 1, from `30%`, `30` or `0.3`. */
function shareOf(text: string, option: 'by' | 'to'): number {
  const [, number = '', percent] = /^(\d{1,3}(?:\.\d+)?|\.\d+)( ?%)?$/.exec(text) ?? []
  const value = Number(number) / (percent === undefined && Number(number) <= 1 ? 1 : 100)
  if (value > 0 && value < 1) return value
  throw invalid('share', text, `Example: --${option} 30%; it is above 0 and below 100%.`)
}

/** If the minutes are too short for both, prints the day with only the run and the day with only the lift. */
function timeCut(
  prescription: Prescription,
  minutes: number,
  only: Only | null,
  expected: (prescription: Prescription) => number,
  { io, json }: Pick<CommandInput, 'io' | 'json'>,
): Cut {
  const cut = cutToTime(prescription, minutes, expected, only)
  if (cut.minutes <= minutes) return cut
  const cutTo = (part: Only) => cutToTime(prescription, minutes, expected, part)
  const choices = only === null ? onlyChoices(prescription.parts, minutes, cutTo) : []
  if (!json) io.out(choices.map((each) => `# the ${each.only} only\n${printCut(each.cut)}`).join('\n'))
  const short = tooShortText(Math.round(minutes), cut.minutes, choices, (part) => `the ${part} only`)
  const options = choices.map((each) => `--only ${each.only}`).join(' or ')
  const advice = options === '' ? 'Give more minutes, or leave parts out by hand' : `Choose with ${options}`
  throw new CommandError('too_short', `${short}. ${advice}.`)
}

function raceCut(
  prescription: Prescription,
  text: string,
  only: Only | null,
  expected: (prescription: Prescription) => number,
): Cut {
  if (only !== null)
    throw commandLineError('--for cuts the running alone, so --only has no effect. Leave one of them out.')
  const length = readLength(text)
  if (length === null) throw invalid('distance', text, 'Example: --for 5km or --for "half marathon".')
  const goal = goalIn(prescription)
  if (goal === null)
    throw new CommandError(
      'no_goal',
      'The day has no goal, so its race is unknown. Add a line such as "goal: 10 km in 39:30", or cut it with --by.',
    )
  const race = metersOf(length, lapMetersOf(prescription))
  return cutForRace(prescription, fractionForRace(race, goal.meters), expected)
}
