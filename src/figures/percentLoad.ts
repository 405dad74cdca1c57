import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { positive } from './given.ts'

const step = { kg: 2.5, lb: 5 } as const
const noise = 1e-9
/** How many days back an estimate may lie to be what a percentage is of. Invented. */
const days = 42

/** A load rounded to the nearest 2.5 kg or 5 lb, ties down, and never to nothing. In `unit`.
 * @throws RangeError for a load that is not above 0
 * Source: Common practice. */
export function roundedLoad(load: number, unit: MassUnit): number {
  const steps = Math.ceil(positive(load, 'the load') / step[unit] - 0.5 - noise)
  return Math.max(1, steps) * step[unit]
}

/** The load that so many percent of a one-repetition maximum make, rounded, in `unit`.
 * @throws RangeError for a percentage or a maximum that is not above 0
 * Source: Common practice. */
export function roundedPercentLoad(maximumKg: number, percent: number, unit: MassUnit): number {
  const kg = (positive(percent, 'the percentage') / 100) * positive(maximumKg, 'the maximum')
  return roundedLoad(kg / kilogramsOf({ value: 1, unit }), unit)
}

/** What a percentage is of where no maximum is written: the highest estimate of the last 42 days that is
 * not "at least", the earliest in the list on a tie; null without one.
 * Source: Invented. */
export function percentBasis<E extends { kg: number; atLeast: boolean; daysAgo: number }>(
  estimates: readonly E[],
): E | null {
  let best: E | null = null
  for (const estimate of estimates) {
    if (estimate.atLeast || estimate.daysAgo < 0 || estimate.daysAgo > days) continue
    if (best === null || estimate.kg > best.kg) best = estimate
  }
  return best
}
