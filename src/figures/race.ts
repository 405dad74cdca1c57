import { sum } from 'd3-array'
import { formatClock } from '../units/duration.ts'
import { explanation, figure, noise, num, perKm } from './figure.ts'
import { type Range, secondsPerKm } from './splits.ts'

/** Oxygen demand of running at a speed on the level, in ml/kg/min. Speed in m/s.
 * Source: Daniels and Gilbert 1979. */
export function oxygenDemand(metersPerSecond: number): number {
  const v = metersPerSecond * 60
  return -4.6 + 0.182258 * v + 0.000104 * v * v
}

/** The share of the maximum that can be held for a time, in seconds; above 1 below about 11 minutes.
 * Source: Daniels and Gilbert 1979. */
export function sustainableShare(seconds: number): number {
  const t = seconds / 60
  return 0.8 + 0.1894393 * Math.exp(-0.012778 * t) + 0.2989558 * Math.exp(-0.1932605 * t)
}

/** Equivalent VO2max of a race, in ml/kg/min: the demand of its speed over the share that its time allows.
 * Metres and seconds; holds for about 3.5 min to 4 h.
 * @returns not above 0 below about 0.42 m/s
 * Source: Daniels and Gilbert 1979. */
export function equivalentMaximum(meters: number, seconds: number): number {
  return oxygenDemand(meters / seconds) / sustainableShare(seconds)
}

/** The time of an equal performance over another distance, in seconds: the one with the same equivalent VO2max.
 * VO2max falls as the time grows, so bisection finds it.
 * @throws RangeError for a value that is not above 0, or above 200
 * Source: Daniels and Gilbert 1979. */
export function equalPerformanceSeconds(meters: number, equivalent: number): number {
  if (!(equivalent > 0 && equivalent <= 200))
    throw new RangeError(`the equivalent VO2max must be above 0 and at most 200, got ${equivalent}`)
  let [low, high] = [meters / 50, meters / 0.4]
  for (;;) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high) return middle
    if (equivalentMaximum(meters, middle) > equivalent) low = middle
    else high = middle
  }
}

/** The time over another distance by Riegel's rule: T2 = T1 (D2 / D1)^1.06. Seconds and metres; holds for
 * 3.5 to 230 min.
 * Source: Riegel 1977; Riegel 1981. */
export function riegelSeconds(meters: number, seconds: number, otherMeters: number): number {
  return seconds * (otherMeters / meters) ** 1.06
}

export type RaceMethod = 'danielsGilbert' | 'riegel'

/** The times for which an equation holds, in seconds. Source: Daniels and Gilbert 1979; Riegel 1981. */
const shortest = 3.5 * 60
const longest: Record<RaceMethod, number> = { danielsGilbert: 240 * 60, riegel: 230 * 60 }

export type EqualTime = ReturnType<typeof equalTime>

/** The time of an equal performance over another distance, and whether the equation holds for both. Metres and seconds.
 * @throws RangeError as the equation does
 * Source: Daniels and Gilbert 1979; Riegel 1977; Riegel 1981. */
export function equalTime(method: RaceMethod, meters: number, seconds: number, otherMeters: number) {
  const equal =
    method === 'riegel'
      ? riegelSeconds(meters, seconds, otherMeters)
      : equalPerformanceSeconds(otherMeters, equivalentMaximum(meters, seconds))
  return {
    seconds: equal,
    holds: [seconds, equal].every((time) => time >= shortest && time <= longest[method]),
  }
}

/** The splits of a race at an even pace, or with a second half that is this many per cent faster than the first, each
 * half at its own even pace. The last split is whatever is left.
 * @param negativePercent from -10 (a slower second half) to 10; 0 is even
 * @returns not rounded; `meters` and `runningSeconds` at the end of a split, from the start
 * Source: This program's own rule. */
export function cardSplits(meters: number, seconds: number, splitMeters: number, negativePercent: number) {
  const [first, second] = halfPaces(meters, seconds, negativePercent)
  const half = meters / 2
  const at = (place: number) => (place <= half ? place * first : half * first + (place - half) * second)
  const count = Math.ceil(meters / splitMeters - noise)
  return Array.from({ length: count }, (_, index) => {
    const [from, to] = [index * splitMeters, Math.min(meters, (index + 1) * splitMeters)]
    return { meters: to, seconds: at(to) - at(from), runningSeconds: at(to) }
  })
}

/** The paces of the two halves, in seconds for each unit of the distance.
 * Source: This program's own rule. */
export function halfPaces(
  distance: number,
  seconds: number,
  negativePercent: number,
): [first: number, second: number] {
  const share = negativePercent / 100
  const first = seconds / distance / (1 - share / 2)
  return [first, first * (1 - share)]
}

/** Carbohydrate while racing, in grams an hour: null up to an hour, 30 to 60 up to 2.5 hours, beyond it 30 to 90.
 * Source: Thomas 2016; Jeukendrup 2014. */
export function carbsWhileRacing(seconds: number): Range | null {
  const hours = seconds / 3600
  if (hours <= 1) return null
  return { from: 30, to: hours > 2.5 ? 90 : 60 }
}

/** Paces this close to the goal's count as goal pace. This program's own rule. */
const nearShare = 0.02

/** Whether a pace is within 2 % of the goal's, both ends included.
 * Source: This program's own rule. */
export function isAtGoalPace(pace: number, goal: number): boolean {
  return Math.abs(pace - goal) <= goal * nearShare + noise
}

/** The share of running, by distance, within 2 % of goal pace: 0 to 1; null without running.
 * Source: This program's own rule. */
export function shareAtGoalPace(
  intervals: readonly { meters: number; secondsPerKm: number }[],
  goal: number,
): number | null {
  const meters = sum(intervals, (interval) => interval.meters)
  const near = intervals.filter(({ secondsPerKm }) => isAtGoalPace(secondsPerKm, goal))
  return meters === 0 ? null : sum(near, (interval) => interval.meters) / meters
}

/** The layout of the standard track, in metres. Source: World Athletics track. */
const straight = 84.39
const kerbRadius = 36.5
const laneWidth = 1.22
/** The measuring line of a lane is this far outside its inner line. */
const fromLine = 0.2

export const lanes = [1, 2, 3, 4, 5, 6, 7, 8] as const

/** One lap of the standard 400 m track in a lane from 1 to 8, in metres. Lane 1 is 400 m by definition (measured 0.30 m
 * outside the kerb); the others are measured 0.20 m outside their inner line.
 * Source: World Athletics track. */
export function lapMetersOfLane(lane: number): number {
  if (lane === 1) return 400
  return 2 * straight + 2 * Math.PI * (kerbRadius + laneWidth * (lane - 1) + fromLine)
}

/** The time of one lap in a lane at a pace in seconds per kilometre.
 * Source: World Athletics track. */
export function lapSeconds(secondsPerKm: number, lane: number): number {
  return (secondsPerKm * lapMetersOfLane(lane)) / 1000
}

interface Race {
  meters: number
  seconds: number
}

const notFromTraining =
  'for anything but a race or a time trial: no time is predicted from training. Nor for times outside its range.'

export const raceFigures = {
  'goal-pace': figure<Race & { intervals: readonly { name: string; pace: number }[] }>({
    title: 'Goal pace, and how far a pace is off it',
    aliases: ['goal', 'off-goal', 'off-goal-pace'],
    equation: [
      "goal pace = the goal's seconds / its metres x 1000",
      'off = pace of the interval - goal pace; negative is faster',
    ],
    symbols: [['pace', 'time for a kilometre', 's/km']],
    sources: ['Common practice', 'World Athletics distances'],
    holds: 'for the goal in the file, and intervals with a pace or a time as target and no grade over 1 %.',
    holdsNot: 'as a forecast; for easy running, hills, and intervals without a target.',
    example: { meters: 10_000, seconds: 2370, intervals: [{ name: '3 km', pace: 240 }] },
    work: ({ meters, seconds, intervals }) => {
      const goal = secondsPerKm(meters, seconds)
      return [
        `${num(meters, 1)} m in ${formatClock(seconds)}: ${perKm(goal)}`,
        ...intervals.map(
          ({ name, pace }) => `${name}: ${num(pace)} - ${num(goal)} = ${num(pace - goal)} s/km`,
        ),
      ]
    },
  }),
  'goal-share': explanation({
    title: 'Share of running at goal pace',
    aliases: ['share-at-goal-pace'],
    equation: ['share = metres within 2 % of goal pace / all metres x 100'],
    sources: ["This program's own rule"],
    holds: 'for running with a time and a distance, on the level.',
    holdsNot: 'as a measure of readiness for the race: it is a fact about training, not a forecast.',
    example: () => {
      const intervals = [
        { meters: 3000, secondsPerKm: 236 },
        { meters: 5000, secondsPerKm: 300 },
      ]
      return [
        `at goal pace: ${perKm(237 * (1 - nearShare))} to ${perKm(237 * (1 + nearShare))}`,
        ...intervals.map((interval) => `${interval.meters} m at ${perKm(interval.secondsPerKm)}`),
        `share ${num(shareAtGoalPace(intervals, 237)! * 100, 1)} %`,
      ]
    },
  }),
  lane: explanation({
    title: 'Lap of a lane',
    aliases: ['lanes', 'lap', 'laps', 'track'],
    equation: ['lap = 2 x 84.39 + 2 pi (36.50 + 1.22 (lane - 1) + 0.20), lane 1: 400 m'],
    symbols: [['lane', 'from 1 to 8, counted from the inside', '-']],
    sources: ['World Athletics track'],
    holds: 'for the standard 400 m track with a kerb.',
    holdsNot: 'for other tracks. 0.30 m in every lane (407.67 m in lane 2) is a common mistake.',
    example: () => [
      `lane 2: 168.78 + 6.283185 x ${num(kerbRadius + laneWidth + fromLine)} = ${num(lapMetersOfLane(2))} m`,
      `at 3:57.0/km: ${formatClock(lapSeconds(237, 2), 1)} a lap`,
    ],
  }),
  'equal-performance': explanation({
    title: 'Equal performance at another distance (Daniels & Gilbert)',
    aliases: ['equal-performances', 'equivalent-performance', 'vo2max', 'daniels-gilbert'],
    equation: [
      'VO2(v) = -4.60 + 0.182258 v + 0.000104 v^2',
      'F(t) = 0.8 + 0.1894393 e^(-0.012778 t) + 0.2989558 e^(-0.1932605 t)',
      'the t whose VO2(distance / t) / F(t) is that of the race',
    ],
    symbols: [
      ['v', 'speed of the race', 'm/min'],
      ['t', 'time of the race', 'min'],
      ['VO2', 'oxygen demand of the speed', 'ml/kg/min'],
    ],
    sources: ['Daniels and Gilbert 1979'],
    holds: 'from about 3.5 minutes to 4 hours, for someone trained for the other distance as well.',
    holdsNot: notFromTraining,
    example: () => {
      const other = equalPerformanceSeconds(21_097.5, equivalentMaximum(10_000, 2400))
      const quotient = (of: number, time: number) =>
        `VO2 ${num(oxygenDemand(of / time), 4)} / F ${num(sustainableShare(time), 6)}`
      return [
        `10000 m in 40:00: ${quotient(10_000, 2400)}`,
        `the same quotient over 21097.5 m: ${quotient(21_097.5, other)}, in ${formatClock(other, 1)}`,
      ]
    },
  }),
  riegel: explanation({
    title: 'Equal performance at another distance (Riegel)',
    aliases: ['riegel-1981'],
    equation: ['T2 = T1 (D2 / D1)^1.06'],
    symbols: [
      ['T', 'time', 's'],
      ['D', 'distance', 'm'],
    ],
    sources: ['Riegel 1977', 'Riegel 1981', 'Vickers 2016'],
    holds: 'from 3.5 to 230 minutes.',
    holdsNot: `${notFromTraining} Half of all marathon runners are ten minutes slower or more (Vickers 2016).`,
    example: () => {
      const other = riegelSeconds(10_000, 2400, 21_097.5)
      return [`2400 s x (21097.5 / 10000)^1.06 = ${num(other)} s = ${formatClock(other)}`]
    },
  }),
  'race-card': explanation({
    title: 'Splits of a race',
    aliases: ['card', 'negative-split-plan', 'carbs-racing'],
    equation: ['p1 = T / D / (1 - n / 2)', 'p2 = p1 x (1 - n)'],
    symbols: [
      ['T, D', 'time and distance of the race', 's, km'],
      ['n', 'by how much the second half is faster, as a share', '-'],
      ['p1, p2', 'pace of the first and the second half', 's/km'],
    ],
    sources: ['Thomas 2016', 'Jeukendrup 2014', "This program's own rule"],
    holds:
      "A flat course. The two halves are this program's own rule. Carbohydrate: 30 to 60 g an hour in races of 1 to 2.5 h, up to 90 (of several kinds of sugar) beyond.",
    holdsNot:
      'It is arithmetic with a goal time: it neither forecasts that time nor gives paces for training.',
    example: () => {
      const [first, second] = halfPaces(10, 2370, 1)
      return [
        `p1 = 2370 / 10 / (1 - 0.01 / 2) = ${num(first)} s/km = ${perKm(first)}`,
        `p2 = ${num(first)} x (1 - 0.01) = ${num(second)} s/km = ${perKm(second)}`,
      ]
    },
  }),
}
