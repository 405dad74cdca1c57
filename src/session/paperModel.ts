import type { FuelItem } from '../prescription/model.ts'
import type { Step } from '../prescription/step.ts'
import type { Answer, Asked } from './asked.ts'

/* What a results file says, before anything of it is held against the prescription. */

/** A time of day as it was written, in seconds since midnight. */
export type ClockTime = number

/** One result: an entry as it would have been typed. */
export interface PaperEntry {
  kind: 'entry'
  text: string
  /** `!!` stands at the end: what would be questioned is meant so. */
  insists: boolean
  /** When it was done; null when nothing is said. */
  clock: ClockTime | null
}

/** What stands apart, anywhere in the file. */
export type PaperRemark =
  | { kind: 'date'; date: string }
  | { kind: 'start'; clock: ClockTime }
  /** How a part was: `parts` are the indexes of those that are called so, in order. */
  | { kind: 'closing'; parts: readonly number[]; effort: number | null; minutes: number | null }
  | { kind: 'with'; parts: readonly number[]; text: string }
  | { kind: 'fuel'; when: FuelItem['when']; text: string; insists: boolean }
  | { kind: 'note'; text: string; pain: boolean }

/** Where something stands: the line from 1, its column and length in characters, the line as it is shown. */
export interface PaperPlace {
  line: number
  column: number
  length: number
  shown: string
}

export type PaperLine = (PaperEntry | PaperRemark) & { place: PaperPlace }

export type PlacedEntry = PaperEntry & { place: PaperPlace }

/** An entry with what was asked, and what it answers. */
export interface PaperAnswer {
  step: Step
  asked: Asked
  answer: Answer
  entry: PlacedEntry
}
