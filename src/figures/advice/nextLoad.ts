import { between, positive } from '../given.ts'

/** Advice as data, and the words that are said, in pieces to be joined by a space; a number among the words
 * is a load in the unit that was given. */
export interface LoadAdvice {
  kind: 'lighter' | 'heavier' | 'failed'
  /** The load for the next set, rounded down to what can be made; null where nothing can. */
  load: number | null
  /** Share by which the load changes before it is rounded: -0.05 is 5 % less. */
  change: number
  words: (string | number)[]
}

export interface LastSet {
  /** The load on the bar, in any unit. */
  load: number
  /** As typed. */
  rpe: number | null
  failed: boolean
  /** The effort written for the set. */
  target: { from: number; to: number } | null
  cluster: boolean
  /** An earlier set of this exercise today had a failed repetition, or a pain note was made: nothing more
   * upward. */
  noHeavier: boolean
  /** The largest load that can be made at or below another; null where there is none. */
  atOrBelow: (load: number) => number | null
}

const usualTarget = 8
const quietPoints = 1
const shareAPoint = 0.04
const mostUp = 0.05
const mostDown = -0.1
const afterFailure = -0.05
const noise = 1e-9

/** What the last set's effort suggests for the next load: 4 % for each point between the effort typed and the
 * one written (8 where none is; for a cluster set only a written one), nothing within 1 point, at most 5 %
 * more or 10 % less, rounded down to the plates. After a failed repetition 5 % less, or fewer repetitions.
 * Null when there is nothing to say.
 * @throws RangeError for a load that is not above 0 or an RPE outside 1 to 10
 * Source: Helms 2018; Common practice. */
export function nextLoad(set: LastSet): LoadAdvice | null {
  const load = positive(set.load, 'the load')
  if (set.failed) {
    const lighter = set.atOrBelow(load * (1 + afterFailure) + noise)
    const words = [
      'usual advice: 5 % less',
      ...(lighter === null ? [] : ['(', lighter, ')']),
      'or fewer repetitions',
    ]
    return { kind: 'failed', load: lighter, change: afterFailure, words }
  }
  const points = pointsLeft(set)
  if (points === null || Math.abs(points) <= quietPoints + noise) return null
  const change = Math.min(mostUp, Math.max(mostDown, points * shareAPoint))
  if (change > 0 && set.noHeavier) return null
  const next = set.atOrBelow(load * (1 + change) + noise)
  if (next === null || (change > 0 && next <= load + noise)) return null
  return {
    kind: change > 0 ? 'heavier' : 'lighter',
    load: next,
    change,
    words: ['usual advice:', next, 'for the next set'],
  }
}

/** Points of effort between what was written and what was typed: positive when it was easier. */
function pointsLeft(set: LastSet): number | null {
  if (set.rpe === null) return null
  const rpe = between(set.rpe, 1, 10, 'an RPE')
  if (set.target === null && set.cluster) return null
  const target = set.target ?? { from: usualTarget, to: usualTarget }
  if (rpe < target.from) return target.from - rpe
  return rpe > target.to ? target.to - rpe : 0
}

/** Whether a load may be offered for the next set as it stands: never the failed one with full repetitions.
 * Source: Common practice. */
export function mayOffer(load: number, failedLoad: number | null): boolean {
  return failedLoad === null || load < failedLoad - noise
}
