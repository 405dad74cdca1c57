import type { Logbook } from '../logbook/model.ts'
import type { EarlierDays } from './recorderContext.ts'

/** What the logbook knows of other days. */
export function earlierDays(_logbook: Logbook): EarlierDays {
  return { lastTime: () => null, bestBefore: () => null, maxima: [] }
}
