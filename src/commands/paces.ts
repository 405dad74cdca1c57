import { lanes, lapMetersOfLane, lapSeconds } from '../figures/lanes.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  isWithinValidity,
  riegelSeconds,
} from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { type TrainingPace, trainingPaces } from '../figures/trainingPaces.ts'
import { formatClock, readDuration } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { metersInPaceUnit } from '../units/pace.ts'
import { printableOf } from './io.ts'
import { pacesText } from './pacesText.ts'
import { CommandError, type CommandInput, type ExitCode } from './port.ts'

/** Faster and slower than this nobody runs a race, in m/s. */
const fastest = 12.5
const slowest = 0.5

const usualDistances: readonly Length[] = [
  { value: 1500, unit: 'm' },
  { value: 1, unit: 'mi' },
  { value: 3, unit: 'km' },
  { value: 5, unit: 'km' },
  { value: 10, unit: 'km' },
  { value: 1, unit: 'half marathon' },
  { value: 1, unit: 'marathon' },
]

export interface EqualPerformance {
  distance: string
  meters: number
  /** `holds`: both the race and this time lie where the equation was made for. */
  danielsGilbert: { seconds: number; holds: boolean }
  riegel: { seconds: number; holds: boolean }
}

export interface Paces {
  race: { distance: string; meters: number; seconds: number; secondsPerKm: number; secondsPerMile: number }
  laps: { lane: number; meters: number; seconds: number }[]
  equivalentVo2max: number
  equalPerformances: EqualPerformance[]
  trainingPaces: TrainingPace[]
}

/** Race pace, laps in eight lanes, equal performances and training paces of a race.
 * @throws CommandError for a distance or a time that cannot be read or is implausible */
export async function run(input: CommandInput): Promise<ExitCode> {
  const paces = pacesOf(...raceGiven(input))
  input.io.out(input.json ? `${JSON.stringify(paces, null, 2)}\n` : pacesText(paces))
  return 0
}

function raceGiven({ values }: CommandInput): [Length, number] {
  const { race, time } = values
  if (race === undefined || time === undefined) {
    throw new CommandError('no_race', 'paces needs a race and its time. Write --race "10 km" --time 40:00.', {
      exit: 2,
    })
  }
  const distance = readLength(race)
  if (distance === null) {
    const example = 'Write one as in "10 km", "1 mi" or "half marathon".'
    throw new CommandError('bad_distance', `"${printableOf(race)}" is no distance. ${example}`, { exit: 2 })
  }
  const seconds = readDuration(time)
  if (seconds === null) {
    const example = 'Write one as in 40:00 or 1:28:30.'
    throw new CommandError('bad_time', `"${printableOf(time)}" is no time. ${example}`, { exit: 2 })
  }
  refuseImplausible(distance, seconds)
  return [distance, seconds]
}

/** A half marathon in 1:28 was meant as 1:28:00. */
function refuseImplausible(distance: Length, seconds: number): void {
  const speedOf = (time: number) => metersOf(distance) / time
  const isPlausible = (time: number) => speedOf(time) <= fastest && speedOf(time) >= slowest
  if (isPlausible(seconds)) return
  const said = `${printLength(distance)} in ${formatClock(seconds)} is ${
    speedOf(seconds) > fastest ? 'faster than any human' : 'slower than a walk'
  }.`
  const meant = [seconds * 60, seconds / 60].find(isPlausible)
  const advice =
    meant === undefined ? 'Check the distance and the time.' : `Did you mean ${formatClock(meant)}?`
  throw new CommandError('implausible', `${said} ${advice}`)
}

/** All that a race says. */
export function pacesOf(distance: Length, seconds: number): Paces {
  const meters = metersOf(distance)
  const pace = secondsPerKm(meters, seconds)
  const equivalent = equivalentMaximum(meters, seconds)
  const holds = (method: 'danielsGilbert' | 'riegel', other: number) =>
    isWithinValidity(method, seconds) && isWithinValidity(method, other)
  return {
    race: {
      distance: printLength(distance),
      meters,
      seconds,
      secondsPerKm: pace,
      secondsPerMile: (pace / 1000) * metersInPaceUnit.mi,
    },
    laps: lanes.map((lane) => ({ lane, meters: lapMetersOfLane(lane), seconds: lapSeconds(pace, lane) })),
    equivalentVo2max: equivalent,
    equalPerformances: usualDistances.map((length) => {
      const other = metersOf(length)
      const [byOxygen, byPower] = [
        equalPerformanceSeconds(other, equivalent),
        riegelSeconds(meters, seconds, other),
      ]
      return {
        distance: printLength(length),
        meters: other,
        danielsGilbert: { seconds: byOxygen, holds: holds('danielsGilbert', byOxygen) },
        riegel: { seconds: byPower, holds: holds('riegel', byPower) },
      }
    }),
    trainingPaces: trainingPaces(equivalent),
  }
}
