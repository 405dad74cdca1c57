import type { EarlierDays } from '../../src/app/earlierDays.ts'

/** What a logbook without other days tells about them. */
export const noOtherDays: EarlierDays = {
  entries: () => [],
  lastTime: () => null,
  bestBefore: () => null,
  maxima: [],
  defaults: { units: { distance: 'km', mass: 'kg' }, maxima: [] },
  warmUpOf: () => [],
  lastLoads: () => [],
  exercises: () => [],
  runCost: () => null,
  pains: () => [],
  earlierToday: () => ({ pains: [], hasFailed: false, isUnwell: false }),
}
