import type { SetResult } from '../session/result.ts'
import type { Brief, Summary } from '../summary/model.ts'

/** A set as it was done. */
export type SetDone = Omit<SetResult, 'note' | 'pain'>

/** A session of the logbook as far as many sessions are asked about it. Each part may be read when it is asked
 * for, so it is asked for once. */
export interface DoneSession {
  id: string
  /** Local, YYYY-MM-DD. */
  date: string
  /** Whether an exercise was lifted, by its `exerciseKey`; sooner known than anything else. */
  hasLifted(key: string): boolean
  readonly brief: Brief
  /** An exercise with its sets; null where it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): { figures: Summary['lifting']['exercises'][number]; sets: SetDone[] } | null
  readonly running: {
    figures: Summary['running']
    /** Of each of the figures' items: whether it is repeats, and the word of its target. */
    kinds: { repeats: boolean; word: string | null; gaps: number[] }[]
  }
}

/** What is looked at, both days in it; local, YYYY-MM-DD. */
export interface Span {
  from: string
  to: string
}

export function isIn(span: Span, date: string): boolean {
  return date >= span.from && date <= span.to
}
