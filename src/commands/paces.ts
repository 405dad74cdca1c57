import { lanes, lapMetersOfLane, lapSeconds } from '../figures/goal.ts'
import { isWithinRaceSpeeds, speedsOnFoot } from '../figures/load.ts'
import { type EqualTime, equalTime } from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { planIn } from '../logbook/ownTexts.ts'
import { jsonOf } from '../summary/json.ts'
import { formatClock, formatClockShort, formatPace, paceIn, readDuration } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode } from './command.ts'
import { raceCardOf } from './raceCard.ts'

const usualDistances: readonly Length[] = [
  { value: 1500, unit: 'm' },
  { value: 1, unit: 'mi' },
  { value: 3, unit: 'km' },
  { value: 5, unit: 'km' },
  { value: 10, unit: 'km' },
  { value: 1, unit: 'half marathon' },
  { value: 1, unit: 'marathon' },
]

interface EqualPerformance {
  distance: string
  meters: number
  danielsGilbert: EqualTime
  riegel: EqualTime
}

interface Paces {
  race: { distance: string; meters: number; seconds: number; secondsPerKm: number; secondsPerMile: number }
  laps: { lane: number; meters: number; seconds: number }[]
  equalPerformances: EqualPerformance[]
}

/** Race pace, one lap (with --lanes in eight lanes), equal performances of a race; with --card its splits, of the
 * plan's race if none is given.
 * @throws CommandError for a distance or a time that cannot be read or is implausible */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [distance, seconds] = parseRace(input)
  if (input.flags.has('card')) {
    if (input.flags.has('lanes'))
      throw commandLineError('--lanes is not for the race card. Leave out --lanes or --card.')
    input.io.out(raceCardOf(input, distance, seconds))
    return 0
  }
  const onlyOnCard = [
    ...['negative', 'lap'].filter((name) => input.values[name] !== undefined),
    ...(input.flags.has('narrow') ? ['narrow'] : []),
  ]
  if (onlyOnCard.length > 0) throw commandLineError(`--${onlyOnCard[0]} is for the race card. Add --card.`)
  const paces = pacesOf(distance, seconds)
  input.io.out(input.json ? jsonOf(paces) : pacesText(paces, input.flags.has('lanes')))
  return 0
}

function parseRace({ values, flags, logbookDir }: CommandInput): [Length, number] {
  const { race, time } = values
  const isOfPlan = race === undefined && time === undefined && flags.has('card')
  const planned = isOfPlan ? planIn(logbookDir)?.race : null
  if (planned) return [planned.distance, planned.seconds]
  if (race === undefined || time === undefined) {
    const example = 'Write --race "10 km" --time 40:00'
    const message = isOfPlan
      ? `plan.txt names no race. ${example}, or write the race there: race: 10 km in 39:30 on 2027-04-18.`
      : `paces needs a race and its time. ${example}.`
    throw new CommandError('no_race', message, { exit: 2 })
  }
  const distance = readLength(race)
  if (distance === null) {
    const example = 'Example: "10 km", "1 mi" or "half marathon".'
    throw new CommandError('bad_distance', `Invalid distance "${race}". ${example}`, { exit: 2 })
  }
  const seconds = readDuration(time)
  if (seconds === null) {
    const example = 'Example: 40:00 or 1:28:30.'
    throw new CommandError('bad_time', `Invalid time "${time}". ${example}`, { exit: 2 })
  }
  refuseImplausible(distance, seconds)
  return [distance, seconds]
}

/** A half marathon in 1:28 means 1:28:00. */
function refuseImplausible(distance: Length, seconds: number): void {
  const speedOf = (time: number) => metersOf(distance) / time
  const isPlausible = (time: number) => isWithinRaceSpeeds(speedOf(time))
  if (isPlausible(seconds)) return
  const said = `${printLength(distance)} in ${formatClock(seconds)} is ${
    speedOf(seconds) > speedsOnFoot.fast ? 'faster than any human' : 'slower than a walk'
  }.`
  const meant = [seconds * 60, seconds / 60].find(isPlausible)
  const advice =
    meant === undefined ? 'Check the distance and the time.' : `Did you mean ${formatClock(meant)}?`
  throw new CommandError('implausible', `${said} ${advice}`)
}

/** All figures of a race. */
function pacesOf(distance: Length, seconds: number): Paces {
  const meters = metersOf(distance)
  const pace = secondsPerKm(meters, seconds)
  return {
    race: {
      distance: printLength(distance),
      meters,
      seconds,
      secondsPerKm: pace,
      secondsPerMile: paceIn(pace, 'mi'),
    },
    laps: lanes.map((lane) => ({ lane, meters: lapMetersOfLane(lane), seconds: lapSeconds(pace, lane) })),
    equalPerformances: usualDistances.map((length) => {
      const other = metersOf(length)
      return {
        distance: printLength(length),
        meters: other,
        danielsGilbert: equalTime('danielsGilbert', meters, seconds, other),
        riegel: equalTime('riegel', meters, seconds, other),
      }
    }),
  }
}

/** The figures of a race as text of at most 80 columns; one lap in lane 1, or with `inLanes` in all eight. */
function pacesText(paces: Paces, inLanes: boolean): string {
  const sections = inLanes
    ? [heading(paces), laps(paces), equals(paces)]
    : [[...heading(paces), ...lapOfLane1(paces)], equals(paces)]
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`
}

function heading({ race }: Paces): string[] {
  const pace = (unit: 'km' | 'mi') => formatPace(race.secondsPerKm, unit, 1)
  return [`${race.distance} in ${formatClockShort(race.seconds)} is ${pace('km')}, ${pace('mi')}`]
}

function lapOfLane1({ laps: [first] }: Paces): string[] {
  return first === undefined ? [] : [`One lap of a 400 m track: ${formatClock(first.seconds, 1)}`]
}

function laps({ laps }: Paces): string[] {
  const row = (name: string, cellOf: (lap: Paces['laps'][number]) => string) =>
    `  ${name.padEnd(6)}${laps.map((lap) => cellOf(lap).padStart(8)).join('')}`
  return [
    'One lap of a 400 m track at that pace',
    row('lane', ({ lane }) => String(lane)),
    row('metres', ({ meters }) => meters.toFixed(2)),
    row('time', ({ seconds }) => formatClock(seconds, 1)),
  ]
}

function equals({ equalPerformances }: Paces): string[] {
  const row = (distance: string, first: string, second: string) =>
    `  ${distance.padEnd(14)}${first.padStart(22)} ${second.padStart(15)}`
  const rows = equalPerformances.map(({ distance, danielsGilbert, riegel }) => {
    const [first, second] = [formatClock(danielsGilbert.seconds), formatClock(riegel.seconds)]
    return `${row(distance, first, second)}${danielsGilbert.holds && riegel.holds ? '' : ` ${which(danielsGilbert, riegel)}`}`
  })
  const isUnsure = equalPerformances.some((each) => !each.danielsGilbert.holds || !each.riegel.holds)
  return [
    'Equal performances',
    row('distance', 'Daniels & Gilbert 1979', 'Riegel 1981'),
    ...rows,
    ...(isUnsure ? ['  * neither holds there, (*) Riegel does not: 3.5 min to 4 h, Riegel to 230 min'] : []),
    '  Only from a race or a time trial, and no promise: half of all marathon runners',
    '  are ten minutes slower or more than Riegel says (Vickers & Vertosick 2016).',
    '  From a goal time: goals for a race, not training paces.',
  ]
}

/** Which of the two is outside its range: Daniels and Gilbert applies wherever Riegel does. */
function which(danielsGilbert: { holds: boolean }, riegel: { holds: boolean }): string {
  return danielsGilbert.holds && !riegel.holds ? '(*)' : '*'
}
