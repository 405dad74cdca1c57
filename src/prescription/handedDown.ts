import type { Span, Work } from './model.ts'

/** The clauses that a group hands down to every work in it that has none of its own. */
export interface Inherited {
  split: Work['split']
  negative: boolean
  lane: number | null
  grade: number | null
  heartRate: Span | null
  notes: string[]
}

/** Of a work with no clauses, also where nothing can be handed down to it. */
export const nothingInherited: Inherited = {
  split: null,
  negative: false,
  lane: null,
  grade: null,
  heartRate: null,
  notes: [],
}

/** What holds inside a work: its own clauses, else those from outside. */
export function inherited(work: Work, outer: Inherited): Inherited {
  return {
    split: work.split ?? outer.split,
    negative: work.negative || outer.negative,
    lane: work.lane ?? outer.lane,
    grade: work.grade ?? outer.grade,
    heartRate: work.heartRate ?? outer.heartRate,
    notes: work.notes.length ? work.notes : outer.notes,
  }
}
