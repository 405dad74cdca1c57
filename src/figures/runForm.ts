import { rollup, sum } from 'd3-array'
import { explanation, num } from './figure.ts'
import { fewestOfEach } from './longTerm.ts'
import { ofFirstHalf } from './splits.ts'
import { type Interval, interval95, mean, sampleDeviation, straightLine } from './statistics.ts'

/* Whether the running is working: pace at the same heart rate, its drift, the cost of heavy legs, critical speed, the
 * athlete's own exponent. Facts about the past, not predictions. */

/** A split of a continuous run. */
export interface HeartSplit {
  meters: number
  seconds: number
  /** Beats a minute. */
  heartRate: number
}

/** Metres per heartbeat in the second half of the distance against the first, in per cent: below 0 means fewer. A split
 * astride the middle counts for both, shared by distance. Null with fewer than two splits.
 * Source: This program's own rule. */
export function heartRateDrift(splits: readonly HeartSplit[]): number | null {
  if (splits.length < 2) return null
  const beatsOf = ({ heartRate, seconds }: HeartSplit) => (heartRate * seconds) / 60
  const first = ofFirstHalf(splits, beatsOf)
  return 100 * (first / (sum(splits, beatsOf) - first) - 1)
}

/** Distance = CS x time + D', the least-squares line through all-out efforts of 2 to 15 min: `meters` is D', the errors
 * are standard errors. Null with fewer than three different times, and if either comes out below 0. It predicts no race
 * time.
 * Source: Monod and Scherrer 1965; Hughson 1984; Jones and Vanhatalo 2017; Least squares. */
export function criticalSpeed(intervals: readonly { meters: number; seconds: number }[]) {
  const within = intervals.filter(({ seconds }) => seconds >= 120 && seconds <= 900)
  if (new Set(within.map(({ seconds }) => seconds)).size < 3) return null
  const line = straightLine(within.map(({ meters, seconds }) => ({ x: seconds, y: meters })))
  if (line === null || line.slopeError === null || line.interceptError === null) return null
  if (line.slope <= 0 || line.intercept <= 0) return null
  return {
    metersPerSecond: line.slope,
    meters: line.intercept,
    speedError: line.slopeError,
    metersError: line.interceptError,
    count: within.length,
  }
}

/** The exponent k of time = a x distance^k through races of different lengths, the fastest of each; null unless the
 * longest is at least a tenth longer than the shortest.
 * Source: Riegel 1981. */
export function ownExponent(races: readonly { meters: number; seconds: number }[]): number | null {
  const fastest = rollup(
    races,
    (alike) => Math.min(...alike.map(({ seconds }) => seconds)),
    ({ meters }) => Math.round(meters),
  )
  const lengths = [...fastest.keys()]
  if (10 * Math.max(...lengths) < 11 * Math.min(...lengths)) return null
  const points = [...fastest].map(([meters, seconds]) => ({ x: Math.log(meters), y: Math.log(seconds) }))
  // Two different lengths always have a line.
  return straightLine(points)!.slope
}

/** The mean of values and its 95 % interval; null with fewer than two. Source: Sample statistics; t distribution. */
export function meanWithInterval(values: readonly number[]): ({ mean: number } & Interval) | null {
  const [middle, spread] = [mean(values), sampleDeviation(values)]
  if (middle === null || spread === null) return null
  const error = spread / Math.sqrt(values.length)
  return { mean: middle, ...interval95({ value: middle, error }, values.length - 1) }
}

/** The mean of some values minus that of others, with its 95 % interval, which is clear if it excludes 0; their spreads
 * may differ. Null with fewer than two of either, and if neither group varies.
 * Source: Welch 1947; Sample statistics; t distribution. */
export function differenceOfMeans(values: readonly number[], others: readonly number[]) {
  const [one, other] = [values, others].map((group) => {
    const [middle, spread] = [mean(group), sampleDeviation(group)]
    const free = group.length - 1
    return middle === null || spread === null ? null : { middle, square: spread ** 2 / group.length, free }
  })
  if (!one || !other) return null
  const square = one.square + other.square
  if (square === 0) return null
  const degreesOfFreedom = square ** 2 / (one.square ** 2 / one.free + other.square ** 2 / other.free)
  const difference = one.middle - other.middle
  const interval = interval95({ value: difference, error: Math.sqrt(square) }, degreesOfFreedom)
  return { difference, degreesOfFreedom, ...interval, isClear: interval.low > 0 || interval.high < 0 }
}

/** The effect of heavy leg work the day before: the mean pace of the days after it, that of other days, and their
 * difference with its 95 % interval, above 0 if slower after heavy legs; seconds a kilometre. Null with fewer than five
 * of each. @param after, others one pace a day, seconds a kilometre
 * Source: Welch 1947; Doma and Deakin 2013; This program's own rule. */
export function legCost(after: readonly number[], others: readonly number[]) {
  if (after.length < fewestOfEach || others.length < fewestOfEach) return null
  const found = differenceOfMeans(after, others)
  if (found === null) return null
  const { difference, ...interval } = found
  return {
    afterSecondsPerKm: mean(after) ?? 0,
    afterDays: after.length,
    otherSecondsPerKm: mean(others) ?? 0,
    otherDays: others.length,
    secondsPerKm: difference,
    ...interval,
  }
}

export const runFormFigures = {
  'pace-at-heart-rate': explanation({
    title: 'Easy pace at the same heart rate',
    aliases: ['easy-pace', 'pace-at-the-same-heart-rate', 'aerobic-pace'],
    equation: [
      'mean pace of the easy running of a month within the most usual ten beats of heart rate',
      '95 % interval = mean +- t x standard deviation / square root of n',
    ],
    symbols: [['n', 'days of the month', '-']],
    sources: ['Sample statistics', 't distribution', "This program's own rule"],
    holds:
      'for runs of at least 20 min marked easy, relaxed or steady, on the level, with a heart rate; own rules: ten beats, 20 min, one pace a day.',
    holdsNot:
      'where heat, hills, sleep or a different watch changed the heart rate: it knows nothing of them.',
    example: () => {
      const paces = [345, 341, 350, 338]
      const { mean, low, high } = meanWithInterval(paces)!
      return [`${paces.join(', ')} s/km`, `mean ${num(mean, 1)} s/km (${num(low, 1)} to ${num(high, 1)})`]
    },
  }),
  'heart-rate-drift': explanation({
    title: 'Heart-rate drift of a long run',
    aliases: ['drift', 'decoupling'],
    equation: ['drift = metres a beat of the second half / metres a beat of the first - 1, in per cent'],
    symbols: [['metres a beat', 'metres / (heart rate x minutes)', 'm']],
    sources: ["This program's own rule"],
    holds:
      'for continuous runs of 40 min and more on the level, with a heart rate for every split; one astride the middle is shared by distance.',
    holdsNot: 'as a measure of fitness alone: heat and thirst do the same.',
    example: () => {
      const splits = [140, 147].map((heartRate) => ({ meters: 4000, seconds: 1200, heartRate }))
      return [
        ...splits.map(
          ({ heartRate }) => `4000 m in ${20 * heartRate} beats: ${num(200 / heartRate, 3)} m a beat`,
        ),
        `${num(heartRateDrift(splits)!, 1)} %`,
      ]
    },
  }),
  'leg-cost': explanation({
    title: 'What heavy legs the day before cost an easy run',
    aliases: ['after-heavy-legs', 'day-after'],
    equation: [
      'difference = mean pace on the day after heavy legs - mean pace on other days',
      'error^2 = s1^2 / n1 + s2^2 / n2; 95 % interval from the t distribution',
      'degrees of freedom = error^4 / ((s1^2 / n1)^2 / (n1 - 1) + (s2^2 / n2)^2 / (n2 - 1))',
    ],
    symbols: [
      ['s', 'sample standard deviation of the paces of one kind of day', 's/km'],
      ['n', 'days of one kind', '-'],
    ],
    sources: ['Welch 1947', 'Doma and Deakin 2013', "This program's own rule"],
    holds:
      'for easy running of 26 weeks in the most usual ten beats of heart rate, else at the most usual effort; from 5 days of each kind on. Heavy legs: see hard.',
    holdsNot:
      'as a cause: the days differ in more than the legs. Where the interval spans 0, no difference is seen.',
    example: () => {
      const after = [345, 352, 349, 341, 350, 347]
      const cost = legCost(after, [340, 338, 343, 336, 341, 339, 344])!
      return [
        `mean of ${cost.afterDays} days after heavy legs ${num(cost.afterSecondsPerKm, 1)} s/km, of ${cost.otherDays} others ${num(cost.otherSecondsPerKm, 1)} s/km`,
        `degrees of freedom ${num(cost.degreesOfFreedom, 1)}`,
        `difference ${num(cost.secondsPerKm, 1)} s/km (${num(cost.low, 1)} to ${num(cost.high, 1)})`,
      ]
    },
  }),
  'critical-speed': explanation({
    title: 'Critical speed',
    aliases: ['cs', 'd-prime'],
    equation: ["distance = CS x time + D'"],
    symbols: [
      ['CS', 'slope of the least-squares line', 'm/s'],
      ["D'", 'distance that can be run above it', 'm'],
    ],
    sources: ['Monod and Scherrer 1965', 'Hughson 1984', 'Jones and Vanhatalo 2017', 'Least squares'],
    holds: 'for three or more all-out efforts, races or trials of 2 to 15 min within 60 days.',
    holdsNot: 'for a race time: none is derived from it. Efforts that were not all out make it too low.',
    example: () => {
      const intervals = [
        { meters: 800, seconds: 140 },
        { meters: 1500, seconds: 285 },
        { meters: 3000, seconds: 610 },
      ]
      const found = criticalSpeed(intervals)!
      return [
        intervals.map(({ meters, seconds }) => `${meters} m in ${seconds} s`).join(', '),
        `CS ${num(found.metersPerSecond, 3)} +- ${num(found.speedError, 3)} m/s, D' ${num(found.meters, 0)} +- ${num(found.metersError, 0)} m`,
      ]
    },
  }),
  'own-exponent': explanation({
    title: 'Own exponent of time over distance',
    aliases: ['exponent', 'endurance-exponent'],
    equation: ['time = a x distance^k; k is the slope of ln time over ln distance, least squares'],
    symbols: [['k', "the athlete's own exponent; Riegel's is 1.06", '-']],
    sources: ['Riegel 1981', 'Least squares'],
    holds:
      'for two races or trials of 120 days that differ by a tenth in length or more, on the level. Of equal lengths the fastest counts.',
    holdsNot: 'for races on different kinds of course or day; from only two races it has no standard error.',
    example: () => {
      const races = [
        { meters: 5000, seconds: 1200 },
        { meters: 10_000, seconds: 2520 },
      ]
      return ['5000 m in 1200 s, 10000 m in 2520 s', `k = ${num(ownExponent(races)!, 3)}`]
    },
  }),
}
