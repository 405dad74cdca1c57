import { type Pain, painsNoted, placeKey } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'

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

/** The pains of a session, one a place: the last that was typed counts, and a level of 0 ends it. */
export function painsOf(state: SessionState): Pain[] {
  const byPlace = new Map(painsNoted(state).map((pain) => [placeKey(pain), pain]))
  return [...byPlace.values()].filter(({ level }) => level !== 0)
}

const armWords = /shoulder|arm\b|arms\b|elbow|wrist|hand|finger|thumb|biceps|triceps/i
const heldInTheHands =
  /deadlift|clean|snatch|carry|carries|farmer|suitcase|swing|dumbbell|kettlebell|goblet|\bdb\b|\bkb\b|row|hang|pull-? ?up|chin-? ?up/i
const seatedOrLying = /bench|floor press|chest press|seated|lying|incline|decline|pulldown|pullover|skull/i

/** Whether a pain speaks against changing a lift. Shoulder, arm and wrist cover every lift of the upper body and every
 * lift held in the hands; any other place, known or not, covers every lift but seated or lying ones of the upper body.
 * This program's own rule. */
export function isCoveredByPain({ place }: Pain, exercise: string): boolean {
  const isLegs = isLegLift(exercise)
  if (armWords.test(place)) return !isLegs || heldInTheHands.test(exercise)
  return isLegs || !seatedOrLying.test(exercise)
}

/** Whether a pain speaks against faster running: any but of shoulder, arm or wrist. This program's own rule. */
export function isRunCoveredByPain({ place }: Pain): boolean {
  return !armWords.test(place)
}
