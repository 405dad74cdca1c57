import { figure, num } from './figure.ts'
import { type Interval, interval95, leastSquares } from './leastSquares.ts'
import { mean, sampleDeviation, straightLine } from './statistics.ts'

/* Figures that need many sessions: what running costs the lifting, critical speed, the athlete's own endurance exponent. */

/** One session's estimated maximum of a lift. */
export interface LiftDay {
  /** Days since any fixed day. */
  day: number
  kg: number
  cluster: boolean
  /** Kilometres of hard running before it in the same session; null for a fresh one. */
  hardKmBefore: number | null
}

export interface RunCost {
  /** Of the estimated maximum after running against fresh: below 0 is lighter. With its interval of 95 %. */
  percent: number
  lowPercent: number
  highPercent: number
  /** Days after running. */
  days: number
  /** Per kilometre of hard running before it, from the second model; null where it has no figure. */
  perHardKm: { percent: number; lowPercent: number; highPercent: number } | null
  /** The line at the newest day, straight sets: fresh, and after running. Kilograms. */
  freshKg: number
  afterRunKg: number
}

const fewestOfEach = 5

/** How running before a lift in the same session changes it: ordinary least squares of the logarithm of the
 * estimated maximum on time, cluster and after-run. Null below five days of each kind, and where the days after
 * running cannot be told apart from the others.
 * Source: Least squares with several predictors; This program's own rule. */
export function runCost(days: readonly LiftDay[]): RunCost | null {
  const after = days.filter(({ hardKmBefore }) => hardKmBefore !== null)
  if (after.length < fewestOfEach || days.length - after.length < fewestOfEach) return null
  const model = fitted(days, ({ hardKmBefore }) => (hardKmBefore === null ? 0 : 1))
  if (model === null) return null
  const perKm = fitted(days, ({ hardKmBefore }) => hardKmBefore ?? 0)
  return {
    ...model.percents,
    days: after.length,
    perHardKm: perKm?.percents ?? null,
    freshKg: model.freshKg,
    afterRunKg: model.freshKg * (1 + model.percents.percent / 100),
  }
}

function fitted(days: readonly LiftDay[], runOf: (day: LiftDay) => number) {
  const newest = Math.max(...days.map(({ day }) => day))
  const columns = [
    days.map(() => 1),
    days.map(({ day }) => (day - newest) / 7),
    days.map(({ cluster }) => (cluster ? 1 : 0)),
  ].filter((column, index) => index === 0 || !isConstant(column))
  const run = days.map(runOf)
  if (isConstant(run)) return null
  const rows = days.map((_, row) => [...columns.map((column) => column[row] ?? 0), run[row] ?? 0])
  const fit = leastSquares(
    rows,
    days.map(({ kg }) => Math.log(kg)),
  )
  const last = fit?.coefficients.at(-1)
  const [first] = fit?.coefficients ?? []
  if (!fit || !last || !first) return null
  const { low, high } = interval95(last, fit.degreesOfFreedom)
  const [percent, lowPercent, highPercent] = [last.value, low, high].map((value) => 100 * Math.expm1(value))
  return {
    percents: { percent: percent ?? 0, lowPercent: lowPercent ?? 0, highPercent: highPercent ?? 0 },
    freshKg: Math.exp(first.value),
  }
}

function isConstant(column: readonly number[]): boolean {
  return column.every((value) => value === column[0])
}

/** Whether running makes a difference at all: the interval does not span 0.
 * Source: This program's own rule. */
export function isClearCost({ lowPercent, highPercent }: RunCost): boolean {
  return lowPercent > 0 || highPercent < 0
}

/** `front squat after running: 6 % below fresh (4 to 8), 16 days`; without a difference where the interval
 * spans 0. Source: This program's own rule. */
export function runCostText(name: string, cost: RunCost): string {
  const { percent, lowPercent, highPercent, days } = cost
  const whole = (value: number) => Math.abs(Math.round(value))
  const signed = (value: number) => `${value < 0 ? '-' : '+'}${whole(value)}`
  if (!isClearCost(cost))
    return `${name} after running: no difference seen (${signed(lowPercent)} to ${signed(highPercent)} %), ${days} days`
  const [near, far] = [lowPercent, highPercent].map(Math.abs).sort((a, b) => a - b)
  return `${name} after running: ${whole(percent)} % ${percent < 0 ? 'below' : 'above'} fresh (${whole(near ?? 0)} to ${whole(far ?? 0)}), ${days} days`
}

export interface CriticalSpeed {
  metersPerSecond: number
  /** D prime. */
  meters: number
  /** Standard errors. */
  speedError: number
  metersError: number
  count: number
}

/** Distance = CS x time + D', the least-squares line through all-out pieces of 2 to 15 min. Null below three of
 * different times, and where either comes out below 0. No race time follows from it.
 * Source: Monod and Scherrer 1965; Hughson 1984; Jones and Vanhatalo 2017; Least squares. */
export function criticalSpeed(pieces: readonly { meters: number; seconds: number }[]): CriticalSpeed | null {
  const within = pieces.filter(({ seconds }) => seconds >= 120 && seconds <= 900)
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

/** The exponent k of time = a x distance^k through races of different lengths, the fastest of each; null where the
 * longest is not at least a tenth longer than the shortest.
 * Source: Riegel 1981. */
export function ownExponent(races: readonly { meters: number; seconds: number }[]): number | null {
  const fastest = new Map<number, number>()
  for (const { meters, seconds } of races)
    fastest.set(Math.round(meters), Math.min(seconds, fastest.get(Math.round(meters)) ?? seconds))
  const lengths = [...fastest.keys()]
  if (lengths.length < 2 || Math.max(...lengths) < 1.1 * Math.min(...lengths)) return null
  const line = straightLine(
    [...fastest].map(([meters, seconds]) => ({ x: Math.log(meters), y: Math.log(seconds) })),
  )
  return line?.slope ?? null
}

/** The mean of values and its interval of 95 %; null below two. Source: Sample statistics; t distribution. */
export function meanWithInterval(values: readonly number[]): ({ mean: number } & Interval) | null {
  const [middle, spread] = [mean(values), sampleDeviation(values)]
  if (middle === null || spread === null) return null
  const error = spread / Math.sqrt(values.length)
  return { mean: middle, ...interval95({ value: middle, error }, values.length - 1) }
}

/** One group's mean less another's, with its interval of 95 %; the groups may spread differently. */
export interface Difference extends Interval {
  difference: number
  degreesOfFreedom: number
  /** The interval does not span 0. */
  isClear: boolean
}

/** The mean of some values less that of others. Null below two of either, and where neither group spreads.
 * Source: Welch 1947; Sample statistics; t distribution. */
export function differenceOfMeans(values: readonly number[], others: readonly number[]): Difference | null {
  const groups = [values, others].map((group) => ({
    middle: mean(group),
    spread: sampleDeviation(group),
    size: group.length,
  }))
  const [one, other] = groups.map(({ middle, spread, size }) =>
    middle === null || spread === null ? null : { middle, square: spread ** 2 / size, free: size - 1 },
  )
  if (!one || !other) return null
  const square = one.square + other.square
  if (square === 0) return null
  const degreesOfFreedom = square ** 2 / (one.square ** 2 / one.free + other.square ** 2 / other.free)
  const difference = one.middle - other.middle
  const interval = interval95({ value: difference, error: Math.sqrt(square) }, degreesOfFreedom)
  return { difference, degreesOfFreedom, ...interval, isClear: interval.low > 0 || interval.high < 0 }
}

export interface LegCost extends Omit<Difference, 'difference'> {
  /** Mean paces, seconds a kilometre, and of how many days each. */
  afterSecondsPerKm: number
  afterDays: number
  otherSecondsPerKm: number
  otherDays: number
  /** Seconds a kilometre; above 0 is slower after heavy legs. Its interval of 95 % is `low` to `high`. */
  secondsPerKm: number
}

/** What heavy leg work the day before goes with: the mean pace of the days after it less that of other days. Null below
 * five of each. @param after, others a pace a day, seconds a kilometre
 * Source: Welch 1947; Doma and Deakin 2013; This program's own rule. */
export function legCost(after: readonly number[], others: readonly number[]): LegCost | null {
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

const exampleDays: LiftDay[] = [100, 101, 102, 101, 103, 102, 94, 95, 97, 96, 98, 97].map((kg, index) => ({
  day: (index % 6) * 7 + (index >= 6 ? 3 : 0),
  kg,
  cluster: false,
  hardKmBefore: index >= 6 ? 5 : null,
}))

/** Source: see the entries. */
export const longTermFigures = {
  'run-cost': figure<{ days: readonly LiftDay[] }>({
    name: 'run-cost',
    title: 'What running before it costs a lift',
    aliases: ['interference', 'after-run', 'cost'],
    equation: [
      'ln(estimated maximum) = a + b x weeks + c x cluster + d x after-run; least squares',
      'percent = 100 (e^d - 1), with the interval of 95 % from the t distribution',
      'second model: kilometres of hard running in place of after-run',
    ],
    symbols: [
      { symbol: 'cluster', meaning: '1 for an estimate from cluster sets, else 0', unit: '-' },
      { symbol: 'after-run', meaning: '1 for a lift after a run in the same session, else 0', unit: '-' },
    ],
    sources: ['Least squares with several predictors', "This program's own rule"],
    holds: 'from 5 fresh days and 5 after running in 26 weeks on; "at least" estimates are left out.',
    holdsNot:
      'as a cause: the days differ in more than the run. Where cluster sets always follow a run there is no figure.',
    example: { days: exampleDays },
    work: ({ days }) => {
      const cost = runCost(days)
      if (cost === null) return ['too few days of one kind, or none that can be told apart: no figure']
      return [
        `${days.length} days, ${cost.days} after running`,
        `${num(cost.percent, 1)} % (${num(cost.lowPercent, 1)} to ${num(cost.highPercent, 1)})`,
        `at the newest day about ${num(cost.afterRunKg, 1)} kg after running, ${num(cost.freshKg, 1)} kg fresh`,
      ]
    },
  }),
  'leg-cost': figure<{ after: readonly number[]; others: readonly number[] }>({
    name: 'leg-cost',
    title: 'What heavy legs the day before cost an easy run',
    aliases: ['after-heavy-legs', 'day-after'],
    equation: [
      'difference = mean pace on the day after heavy legs - mean pace on other days',
      'error^2 = s1^2 / n1 + s2^2 / n2; interval of 95 % from the t distribution',
      'degrees of freedom = error^4 / ((s1^2 / n1)^2 / (n1 - 1) + (s2^2 / n2)^2 / (n2 - 1))',
    ],
    symbols: [
      { symbol: 's', meaning: 'sample standard deviation of the paces of one kind of day', unit: 's/km' },
      { symbol: 'n', meaning: 'days of one kind', unit: '-' },
    ],
    sources: ['Welch 1947', 'Doma and Deakin 2013', "This program's own rule"],
    holds:
      'for easy running of 26 weeks in the most usual ten beats of heart rate, else at the most usual effort; from 5 days of each kind on. Heavy legs: see hard.',
    holdsNot:
      'as a cause: the days differ in more than the legs. Where the interval spans 0, no difference is seen.',
    example: {
      after: [345, 352, 349, 341, 350, 347],
      others: [340, 338, 343, 336, 341, 339, 344],
    },
    work: ({ after, others }) => {
      const cost = legCost(after, others)
      if (cost === null) return ['too few days of one kind: no figure']
      return [
        `mean of ${cost.afterDays} days after heavy legs ${num(cost.afterSecondsPerKm, 1)} s/km, of ${cost.otherDays} others ${num(cost.otherSecondsPerKm, 1)} s/km`,
        `degrees of freedom ${num(cost.degreesOfFreedom, 1)}`,
        `difference ${num(cost.secondsPerKm, 1)} s/km (${num(cost.low, 1)} to ${num(cost.high, 1)})`,
      ]
    },
  }),
  'critical-speed': figure<{ pieces: readonly { meters: number; seconds: number }[] }>({
    name: 'critical-speed',
    title: 'Critical speed',
    aliases: ['cs', 'd-prime'],
    equation: ["distance = CS x time + D'"],
    symbols: [
      { symbol: 'CS', meaning: 'slope of the least-squares line', unit: 'm/s' },
      { symbol: "D'", meaning: 'distance that can be run above it', unit: 'm' },
    ],
    sources: ['Monod and Scherrer 1965', 'Hughson 1984', 'Jones and Vanhatalo 2017', 'Least squares'],
    holds: 'for three or more all-out pieces, races or trials of 2 to 15 min within 60 days.',
    holdsNot: 'for a race time: none is made of it. Pieces that were not all out make it too low.',
    example: {
      pieces: [
        { meters: 800, seconds: 140 },
        { meters: 1500, seconds: 285 },
        { meters: 3000, seconds: 610 },
      ],
    },
    work: ({ pieces }) => {
      const found = criticalSpeed(pieces)
      if (found === null) return ['fewer than three pieces of 2 to 15 min: no figure']
      return [
        pieces.map(({ meters, seconds }) => `${num(meters)} m in ${num(seconds)} s`).join(', '),
        `CS ${num(found.metersPerSecond, 3)} +- ${num(found.speedError, 3)} m/s, D' ${num(found.meters, 0)} +- ${num(found.metersError, 0)} m`,
      ]
    },
  }),
  hard: figure<Record<string, never>>({
    name: 'hard',
    title: 'Hard running, heavy sets, easy days',
    aliases: ['hard-running', 'easy', 'hr-max', 'heavy', 'heavy-legs', 'meant'],
    equation: [
      'running is hard by the first of these that is known: heart rate at 88 % of hr-max or more; effort 7 or more; pace up to 15 % slower than the goal; its word',
      'a set is heavy: 80 % of the maximum or more, or 6 repetitions or fewer to an effort of 8, or failed',
      'easy is what the title, the name of the part or every word of it calls easy',
    ],
    symbols: [{ symbol: 'hr-max', meaning: 'the setting: your highest heart rate', unit: 'beats a minute' }],
    sources: ["This program's own rule"],
    holds:
      'for what was done. In a part of effort 7 or more the pieces that pace or word call hard are hard; where none is, all are.',
    holdsNot:
      'as a limit for what is wise: it sorts days, no more. Without hr-max the heart rate is not looked at.',
    example: {},
    work: () => ['easy 10 km at heart rate 178, hr-max 190: 178 / 190 = 93.7 %, so hard'],
  }),
  pain: figure<Record<string, never>>({
    name: 'pain',
    title: 'Pain',
    aliases: ['hurt', 'pain-history'],
    equation: ['place, and a number from 0 to 10 as typed: no figure is computed from it'],
    symbols: [{ symbol: '0 to 10', meaning: '0 no pain, 10 the worst there is', unit: '-' }],
    sources: ['Thomee 1997', 'Silbernagel 2007', "This program's own rule"],
    holds:
      'as a record: dates, numbers, what was done. From a pain on, nothing more is advised upward that day, and next leaves covered lines unchanged.',
    holdsNot:
      'as a rule for how much pain is allowed: the pain-monitoring model was tested for two injuries under the eye of a clinician. No threshold, no forecast.',
    example: {},
    work: () => ['pain left calf 4: place "left calf", level 4'],
  }),
}
