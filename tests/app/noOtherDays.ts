import type { EarlierDays } from '../../src/app/earlierDays.ts'

/** What is known of other days in a logbook without any. */
export const noOtherDays: EarlierDays = {
  lastTime: () => null,
  bestBefore: () => null,
  maxima: [],
  lastLoads: () => [],
  exercises: () => [],
  pains: () => [],
}
