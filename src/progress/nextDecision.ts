import type { Pain } from './painCover.ts'

/** One decision about one line. `up` and `down` change the load or the range, `more` and `fewer` the repetitions or
 * repeats. */
export interface Decision {
  part: number
  item: number
  /** What the athlete calls it: the exercise, or the run as it is written without its target. */
  name: string
  decision: 'same' | 'up' | 'down' | 'fewer' | 'more'
  /** What was seen and what follows: `complete at 8, 8.5 on 70 kg twice -> 72.5 kg`. */
  reason: string
}

/** A decision before it has its place; `decision` null: no rule names the line. */
export type Made = { name: string } & (
  | { decision: Decision['decision']; reason: string }
  | { decision: null; reason?: undefined }
)

export const longGapDays = 21
export const longerGapDays = 56
/** How many earlier sessions are read for a line that was not done lately. */
export const mostReadSessions = 60

export function painText({ place, level }: Pain): string {
  return level === null ? `pain: ${place}` : `${place}: pain ${level}`
}

/** Whole days from one local date to a later one. */
export function daysBetween(from: string, to: string): number {
  return Math.max(0, Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000))
}
