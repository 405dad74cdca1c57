import type { SummaryContext } from '../../src/summary/model.ts'

/** Nothing is known besides the session. */
export const bareContext: SummaryContext = {
  equation: 'median',
  bodyMassKg: null,
  hrMax: null,
  race: null,
  sleepSeconds: null,
  soreness: '',
  next: [],
  nextHard: null,
}
