import { isWarning, isWarningNoted, type Pain, painsNoted, placeKey } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'

/** One decision about one line. `up` and `down` change the load or the range, `more` and `fewer` the repetitions or
 * repeats. */
export interface Decision {
  part: number
  item: number
  /** The athlete's name for it: the exercise, or the run as written without its target. */
  name: string
  decision: 'same' | 'up' | 'down' | 'fewer' | 'more'
  /** Observation and conclusion: `complete at 8, 8.5 on 70 kg twice -> 72.5 kg`. */
  reason: string
}

/** A decision before its place is known; `decision` null: no rule applies to the line. */
export type Made = { name: string } & (
  | { decision: Decision['decision']; reason: string }
  | { decision: null; reason?: undefined }
)

/** How many earlier sessions are read for a line that was not done recently. */
export const mostReadSessions = 60

/** A note that names a sign that needs a doctor. */
const warningSign: Pain = { place: 'a warning sign', level: null }

/** Whether a pain is a sign that needs a doctor: nothing at all is advised then. */
export function needsADoctor(pain: Pain): boolean {
  return pain === warningSign || isWarning(pain.place, true)
}

function painText(pain: Pain): string {
  const { place, level } = pain
  if (pain === warningSign) return `${place} was noted`
  return level === null ? `pain: ${place}` : `${place}: pain ${level}`
}

/** Why a line that a pain covers stays as it is. */
export function painReason(pain: Pain): string {
  return `${painText(pain)} -> unchanged${needsADoctor(pain) ? ', see a doctor first' : ''}`
}

/** How long it is since the last time, after what hurts: a pain is no reason to take up the old load after weeks away.
 * This program's own rule. */
export function sinceText(days: number, pain: Pain | undefined): string {
  return `${pain ? `${painText(pain)}, ` : ''}${Math.floor(days / 7)} weeks since the last time`
}

/** Whole days from one local date to a later one. */
export function daysBetween(from: string, to: string): number {
  return Math.max(0, Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000))
}

/** The pains that count, one for each place: the last one typed, unless a level of 0 ended it.
 * @param before those of the sessions before it; @param after those of the sessions after it; oldest first */
export function painsOf(
  state: SessionState,
  before: readonly Pain[] = [],
  after: readonly Pain[] = [],
): Pain[] {
  const all: Pain[] = [...before, ...painsNoted(state), ...after]
  const byPlace = [...new Map(all.map((pain) => [placeKey(pain), pain])).values()]
  const pains = byPlace.filter(({ level }) => level !== 0)
  return isWarningNoted(state) && !pains.some(needsADoctor) ? [warningSign, ...pains] : pains
}

const armWords = /shoulder|arm\b|arms\b|elbow|wrist|hand|finger|thumb|biceps|triceps/i
const heldInTheHands =
  /deadlift|clean|snatch|carry|carries|farmer|suitcase|swing|dumbbell|kettlebell|goblet|\bdb\b|\bkb\b|row|hang|pull-? ?up|chin-? ?up/i
const seatedOrLying = /bench|floor press|chest press|seated|lying|incline|decline|pulldown|pullover|skull/i

/** Whether a pain is a reason not to change a lift. Shoulder, arm and wrist affect every lift of the upper body and
 * every
 * lift held in the hands; any other place, known or not, affects every lift but seated or lying ones of the upper body;
 * a
 * warning sign affects everything.
 * This program's own rule. */
export function isCoveredByPain(pain: Pain, exercise: string): boolean {
  if (needsADoctor(pain)) return true
  const isLegs = isLegLift(exercise)
  if (armWords.test(pain.place)) return !isLegs || heldInTheHands.test(exercise)
  return isLegs || !seatedOrLying.test(exercise)
}

/** Whether a pain is a reason not to run faster: any but of shoulder, arm or wrist. This program's own rule. */
export function isRunCoveredByPain(pain: Pain): boolean {
  return !armWords.test(pain.place) || needsADoctor(pain)
}
