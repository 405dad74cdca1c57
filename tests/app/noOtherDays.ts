import type { EarlierDays } from '../../src/app/earlierDays.ts'

/** What a logbook without other days tells about them. */
export const noOtherDays: EarlierDays = {
  lastTime: () => null,
  bestBefore: () => null,
  exercises: () => [],
  runCost: () => null,
  pains: () => [],
  earlierToday: () => ({ pains: [], hasFailed: false, isUnwell: false }),
}
