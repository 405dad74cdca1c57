import { finite, wholeFrom } from './given.ts'

/** What was lifted in one set, in kilograms. */
export interface LiftedSet {
  /** Null for a timed or carried set. */
  reps: number | null
  /** One of a pair; with `bodyweight` what was added, negative for assistance. Null without a load. */
  kg: number | null
  /** Two of this mass, one in each hand. */
  pair: boolean
  bodyweight: boolean
  /** The repetitions were done on each side. */
  eachSide: boolean
}

/** The load outside the body, in kilograms: both of a pair, what was added to the body, never less than 0.
 * @throws RangeError for a load that is no number
 * Source: Common practice. */
export function externalKg(set: Pick<LiftedSet, 'kg' | 'pair' | 'bodyweight'>): number {
  if (set.kg === null) return 0
  const kg = finite(set.kg, 'the load') * (set.pair ? 2 : 1)
  return Math.max(0, kg)
}

/** Repetitions that count: those of both sides where they were done on each. 0 for a timed or carried set.
 * @throws RangeError for repetitions that are not whole
 * Source: Common practice. */
export function countedReps(set: Pick<LiftedSet, 'reps' | 'eachSide'>): number {
  if (set.reps === null) return 0
  return wholeFrom(set.reps, 0, 'the repetitions') * (set.eachSide ? 2 : 1)
}

/** Tonnage of a set in kilograms: repetitions x external load. The body itself never counts, assistance is
 * 0, timed and carried sets add none.
 * Source: Common practice. */
export function tonnageKg(set: LiftedSet): number {
  return countedReps(set) * externalKg(set)
}

/** Index of the top set: the heaviest, then the most repetitions, then the earliest; a set without a load
 * is lighter than any other. Null without sets.
 * Source: Common practice. */
export function topSetIndex(sets: readonly { kg: number | null; reps: number | null }[]): number | null {
  const loadOf = (set: { kg: number | null }) => set.kg ?? Number.NEGATIVE_INFINITY
  let top: { index: number; kg: number; reps: number } | null = null
  for (const [index, set] of sets.entries()) {
    const [kg, reps] = [loadOf(set), set.reps ?? 0]
    if (top === null || kg > top.kg || (kg === top.kg && reps > top.reps)) top = { index, kg, reps }
  }
  return top === null ? null : top.index
}
