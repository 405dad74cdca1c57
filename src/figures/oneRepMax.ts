import { type EquationName, equations, spreadOf } from './equations.ts'
import { between, finite, notNegative, wholeFrom } from './given.ts'

/** More repetitions than this and no equation is used (Reynolds 2006). */
export const mostRepetitions = 10
/** Beyond this the upper end of a range is left open. Invented. */
const mostRepetitionsOfUpperEnd = 12
/** Below this RPE no estimate is made: far from failure lifters misjudge what is in reserve by more
 * (Halperin 2022). The limit itself is common practice. */
export const lowestEffort = 7
const effortOfNothingInReserve = 9.5

/** How much was left: RPE = 10 - repetitions in reserve.
 * `reserve` is 0 for RPE 9.5 and 10, for a failed repetition, for a set of as many as go without an effort,
 * and for any other set without one, which then makes `atLeast` true. Null below RPE 7: no estimate.
 * @throws RangeError for an RPE outside 1 to 10
 * Source: Zourdos 2016; Halperin 2022; Common practice. */
export function reserveOf(set: {
  rpe: number | null
  failed: boolean
  openEnded: boolean
}): { reserve: number; atLeast: boolean; judged: boolean } | null {
  const rpe = set.rpe === null ? null : between(set.rpe, 1, 10, 'an RPE')
  if (set.failed) return { reserve: 0, atLeast: false, judged: false }
  if (rpe === null) return { reserve: 0, atLeast: !set.openEnded, judged: false }
  if (rpe < lowestEffort) return null
  if (rpe >= effortOfNothingInReserve) return { reserve: 0, atLeast: false, judged: false }
  return { reserve: 10 - rpe, atLeast: false, judged: true }
}

export interface Estimate {
  /** The figure, and the ends of its range; `highKg` null where it is open. Kilograms; with a bodyweight
   * exercise the added load. */
  kg: number
  lowKg: number
  highKg: number | null
  /** No effort was recorded: the maximum is this or more. */
  atLeast: boolean
  /** Null: the load was lifted once, a lift and not an estimate. */
  formula: EquationName | null
}

interface Effort {
  /** The load in kilograms: what hangs on the bar, both of a pair; with `bodyKg` what was added to the
   * body, negative for assistance. */
  kg: number
  rpe: number | null
  /** The next repetition was tried and failed. */
  failed: boolean
  /** As many as go, or so many and more: nothing is in reserve unless an effort says so. */
  openEnded: boolean
  equation: EquationName
  /** Only for a bodyweight exercise: body mass in kilograms, null where it is not known. */
  bodyKg?: number | null
}

export interface StraightSet extends Effort {
  reps: number
}

export interface ClusterSet extends Effort {
  /** Repetitions of each group, in order; zeros at the end are groups not done. */
  groups: readonly number[]
}

/** The estimate from repetitions done without a pause: the chosen equation at repetitions + reserve.
 * Its range: the lowest of the seven at one repetition less (never below those done) to the highest at one
 * more, where an effort of 7 to 9 was typed; else both at the same n. Null below RPE 7, above 10
 * repetitions, for none, and where the body mass is not known.
 * @throws RangeError for a load that is no number, or repetitions that are not whole
 * Source: Zourdos 2016; Reynolds 2006; LeSuer 1997; Halperin 2022; Common practice. */
export function estimateStraightSet(set: StraightSet): Estimate | null {
  const reps = wholeFrom(set.reps, 0, 'the repetitions')
  const effort = reserveOf(set)
  if (effort === null || reps === 0) return null
  const n = reps + effort.reserve
  const wide = effort.judged ? 1 : 0
  return estimateAt(set, { n, low: Math.max(reps, n - wide), high: n + wide }, effort.atLeast)
}

/** The estimate from a cluster set: a range from "only the longest unbroken group counted" to "as if there
 * had been no pause". n low = the larger of the largest group and the last group + reserve; n high = all
 * repetitions + reserve. The figure is the chosen equation at n low, the range the lowest of the seven at
 * n low to the highest at n high; open above 12. Null as for a straight set.
 * @throws RangeError for a load that is no number, or groups that are not whole
 * Source: Iglesias-Soler 2014; Zourdos 2016; Common practice; Invented. */
export function estimateClusterSet(set: ClusterSet): Estimate | null {
  const done = set.groups.map((reps) => wholeFrom(reps, 0, 'the repetitions of a group'))
  while (done.at(-1) === 0) done.pop()
  const effort = reserveOf(set)
  const last = done.at(-1)
  if (effort === null || last === undefined) return null
  const n = Math.max(...done, last + effort.reserve)
  const high = done.reduce((sum, reps) => sum + reps, effort.reserve)
  return estimateAt(set, { n, low: n, high }, effort.atLeast)
}

function estimateAt(
  set: Effort,
  at: { n: number; low: number; high: number },
  atLeast: boolean,
): Estimate | null {
  const bodyKg = set.bodyKg === undefined ? 0 : set.bodyKg
  if (bodyKg === null || at.n > mostRepetitions) return null
  const moved = finite(set.kg, 'the load') + notNegative(bodyKg, 'the body mass')
  if (moved <= 0) return null
  const lift = at.n === 1
  const single = lift && at.high === 1
  const upper = at.high > mostRepetitionsOfUpperEnd ? null : at.high
  const { low, high } = spreadOf(moved, at.low, upper)
  return {
    kg: lift ? set.kg : equations[set.equation](moved, at.n) - bodyKg,
    lowKg: lift ? set.kg : low - bodyKg,
    highKg: single ? set.kg : high === null ? null : high - bodyKg,
    atLeast,
    formula: lift ? null : set.equation,
  }
}

/** The best of several estimates: the largest figure, the earliest on a tie, and its index. Null without any.
 * Source: Invented. */
export function bestEstimate<E extends { kg: number }>(
  estimates: readonly (E | null)[],
): { estimate: E; index: number } | null {
  let best: { estimate: E; index: number } | null = null
  for (const [index, estimate] of estimates.entries()) {
    if (estimate !== null && (best === null || estimate.kg > best.estimate.kg)) best = { estimate, index }
  }
  return best
}
