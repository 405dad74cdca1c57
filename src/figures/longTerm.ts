import { signed } from '../units/decimal.ts'
import { explanation, num } from './figure.ts'
import { interval95, leastSquares } from './statistics.ts'

/* Figures that need many sessions: how much running lowers lifts; hard days and pain. */

/** One session's estimated maximum of a lift. */
export interface LiftDay {
  /** Days since any fixed day. */
  day: number
  kg: number
  cluster: boolean
  /** Kilometres of hard running before it on its day; null for a fresh one. */
  hardKmBefore: number | null
}

export type RunCost = NonNullable<ReturnType<typeof runCost>>

/** The fewest days of each kind for a comparison. Source: This program's own rule. */
export const fewestOfEach = 5

/** How running before a lift on the same day changes it: ordinary least squares of the logarithm of the
 * estimated maximum on time, cluster and after-run. Null with fewer than five days of each kind, and if the days after
 * running cannot be separated from the others.
 * @returns `percent`: after running relative to fresh, below 0 is lighter, with its 95 % interval; `perHardKm`: the
 * same per kilometre of hard running before it, from the second model, null if it has no result; `days` after running;
 * `freshKg`, `afterRunKg`: the line at the newest day for straight sets, kilograms
 * Source: Least squares with several predictors; This program's own rule. */
export function runCost(days: readonly LiftDay[]) {
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
  ].filter((column, index) => index === 0 || column.some((value) => value !== column[0]))
  const rows = days.map((day, row) => [...columns.map((column) => column[row]!), runOf(day)])
  const fit = leastSquares(
    rows,
    days.map(({ kg }) => Math.log(kg)),
  )
  const last = fit?.coefficients.at(-1)
  const [first] = fit?.coefficients ?? []
  if (!fit || !last || !first) return null
  const { low, high } = interval95(last, fit.degreesOfFreedom)
  const percentOf = (logarithm: number) => 100 * Math.expm1(logarithm)
  return {
    percents: { percent: percentOf(last.value), lowPercent: percentOf(low), highPercent: percentOf(high) },
    freshKg: Math.exp(first.value),
  }
}

/** Whether running makes a clear difference: the interval excludes 0.
 * Source: This program's own rule. */
export function isClearCost({ lowPercent, highPercent }: RunCost): boolean {
  return lowPercent > 0 || highPercent < 0
}

/** `front squat after running: 6 % below fresh (4 to 8), 16 days`; without the difference if the interval
 * includes 0. Source: This program's own rule. */
export function runCostText(name: string, cost: RunCost): string {
  const { percent, lowPercent, highPercent, days } = cost
  const whole = (value: number) => Math.abs(Math.round(value))
  if (!isClearCost(cost))
    return `${name} after running: no difference seen (${signed(lowPercent, 0)} to ${signed(highPercent, 0)} %), ${days} days`
  const [near, far] = percent < 0 ? [highPercent, lowPercent] : [lowPercent, highPercent]
  return `${name} after running: ${whole(percent)} % ${percent < 0 ? 'below' : 'above'} fresh (${whole(near)} to ${whole(far)}), ${days} days`
}

const exampleDays: LiftDay[] = [100, 101, 102, 101, 103, 102, 94, 95, 97, 96, 98, 97].map((kg, index) => ({
  day: (index % 6) * 7 + (index >= 6 ? 3 : 0),
  kg,
  cluster: false,
  hardKmBefore: index >= 6 ? 5 : null,
}))

export const longTermFigures = {
  'run-cost': explanation({
    title: 'What running beforehand costs a lift',
    aliases: ['interference', 'after-run', 'cost'],
    equation: [
      'ln(estimated maximum) = a + b x weeks + c x cluster + d x after-run; least squares',
      'percent = 100 (e^d - 1), with the 95 % interval from the t distribution',
      'second model: kilometres of hard running in place of after-run',
    ],
    symbols: [
      ['cluster', '1 for an estimate from cluster sets, else 0', '-'],
      [
        'after-run',
        '1 for a lift after a run in the same session, or after hard running in an earlier session of that day, else 0',
        '-',
      ],
    ],
    sources: ['Least squares with several predictors', "This program's own rule"],
    holds: 'from 5 fresh days and 5 after running in 26 weeks on; "at least" estimates are left out.',
    holdsNot:
      'as a cause: the days differ in more than the run. Where cluster sets always follow a run there is no figure.',
    example: () => {
      const cost = runCost(exampleDays)!
      return [
        `${exampleDays.length} days, ${cost.days} after running`,
        `${num(cost.percent, 1)} % (${num(cost.lowPercent, 1)} to ${num(cost.highPercent, 1)})`,
        `at the newest day about ${num(cost.afterRunKg, 1)} kg after running, ${num(cost.freshKg, 1)} kg fresh`,
      ]
    },
  }),
  hard: explanation({
    title: 'Hard running, heavy sets, easy days',
    aliases: ['hard-running', 'easy', 'hr-max', 'heavy', 'heavy-legs', 'meant'],
    equation: [
      'running is hard by the first of these that is known: heart rate at 88 % of hr-max or more; effort 7 or more; pace up to 15 % slower than that of the goal (of more than 10 km: of an equal performance over 10 km; not beyond a marathon); its word',
      'a set is heavy: 80 % of the maximum or more, or 6 repetitions or fewer to an effort of 8, or failed within 12',
      'a part is meant to be easy where the title, its name or every word in it says so',
    ],
    symbols: [['hr-max', 'the setting: your highest heart rate', 'beats a minute']],
    sources: ["This program's own rule"],
    holds:
      'for what was done. In a part of effort 7 or more the intervals that are hard by pace or word count as hard; if there are none, all of them do.',
    holdsNot: 'as a limit of what is wise: it only sorts days. Without hr-max the heart rate is ignored.',
    example: () => ['easy 10 km at heart rate 178, hr-max 190: 178 / 190 = 93.7 %, so hard'],
  }),
  pain: explanation({
    title: 'Pain',
    aliases: ['hurt', 'pain-history'],
    equation: ['place, and a number from 0 to 10 as typed: no figure is computed from it'],
    symbols: [['0 to 10', '0 no pain, 10 the worst there is', '-']],
    sources: ['Thomee 1997', 'Silbernagel 2007', "This program's own rule"],
    holds:
      'as a record: dates, numbers, what was done. After a pain note nothing more is advised upward that day, and next leaves the lines it covers unchanged; after a sign that needs a doctor nothing is advised for 14 days. Both end with a 0 on a later day. A number in a morning counts as pain where it names one side, a joint or a tendon, where the word pain is typed with it, where the place hurt in the 14 days before, and from 5 in the back or both shoulders; else it is soreness.',
    holdsNot:
      'as a rule for how much pain is allowed: the pain-monitoring model was tested for two injuries under the eye of a clinician. No threshold, no forecast.',
    example: () => ['pain left calf 4: place "left calf", level 4'],
  }),
}
