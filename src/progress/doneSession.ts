import type { SetResult } from '../session/result.ts'
import type { Brief, Summary } from '../summary/model.ts'

/** A performed set. */
export type SetDone = Omit<SetResult, 'note' | 'pain'>

/** The input from a session for figures over many sessions. A property may be read from disk at each access: access it
 * once. */
export interface DoneSession {
  id: string
  /** Local, YYYY-MM-DD. */
  date: string
  /** Whether an exercise was lifted, by its `exerciseKey`; cheaper than reading the lift. */
  hasLifted(key: string): boolean
  readonly brief: Brief
  /** Sets that were heavy for the legs. */
  readonly heavyLegSets: number
  /** An exercise with its sets; null if it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): { figures: Summary['lifting']['exercises'][number]; sets: SetDone[] } | null
  readonly running: {
    figures: Summary['running']
    /** For each of the figures' items: whether it is repeats, the word of its target, the effort of its part. */
    kinds: { repeats: boolean; word: string | null; gaps: number[]; effort: number | null }[]
  }
}

/** The days shown, both ends included; local, YYYY-MM-DD. */
export interface Span {
  from: string
  to: string
}

export function isIn(span: Span, date: string): boolean {
  return date >= span.from && date <= span.to
}
