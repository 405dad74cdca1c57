import { format } from 'date-fns/format'
import { parseISO } from 'date-fns/parseISO'
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
  /** The pain for which the line stays as it is. */
  pain?: DatedPain
}

/** A pain, and the other session it was noted in; without one, it belongs to the session that is asked about. */
export interface DatedPain extends Pain {
  on?: { date: string; begun: number }
}

/** A decision before its place is known; `decision` null: no rule applies to the line. */
export type Made = { name: string } & (
  | { decision: Decision['decision']; reason: string; pain?: DatedPain }
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

function painText(pain: DatedPain): string {
  const { place, level, on } = pain
  if (pain === warningSign) return `${place} was noted`
  const text = level === null ? `pain: ${place}` : `${place}: pain ${level}`
  return on === undefined ? text : `${text} on ${format(parseISO(on.date), 'EEE d MMM')}`
}

/** Why a line affected by a pain stays as it is.
 * @param what the lines, if it says it for several of them: `running and leg lifts` */
export function painReason(pain: DatedPain, what = ''): string {
  return `${painText(pain)} -> ${what === '' ? '' : `${what} `}unchanged${needsADoctor(pain) ? ', see a doctor first' : ''}`
}

/** How long it is since the last time, after what hurts: a pain is no reason to take up the old load after weeks away.
 * This program's own rule. */
export function sinceText(days: number, pain: DatedPain | undefined): string {
  return `${pain ? `${painText(pain)}, ` : ''}${Math.floor(days / 7)} weeks since the last time`
}

/** Whole days from one local date to a later one. */
export function daysBetween(from: string, to: string): number {
  return Math.max(0, Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000))
}

/** The pains that count, one for each place: the last one typed, unless a level of 0 ended it.
 * @param before those of the sessions before it; @param after those of the sessions after it; oldest first
 * @param isOver whether it was ended elsewhere, on a morning */
export function painsOf(
  state: SessionState,
  before: readonly DatedPain[] = [],
  after: readonly DatedPain[] = [],
  isOver: (pain: DatedPain) => boolean = () => false,
): DatedPain[] {
  const all: DatedPain[] = [...before, ...painsNoted(state), ...after]
  const byPlace = [...new Map(all.map((pain) => [placeKey(pain), pain])).values()]
  const pains = byPlace.filter((pain) => pain.level !== 0 && !isOver(pain))
  return isWarningNoted(state) && !pains.some(needsADoctor) ? [warningSign, ...pains] : pains
}

const armWords = /shoulder|arm\b|arms\b|elbow|wrist|hand|finger|thumb|biceps|triceps/i
const heldInTheHands =
  /deadlift|clean|snatch|carry|carries|farmer|suitcase|swing|dumbbell|kettlebell|goblet|\bdb\b|\bkb\b|row|hang|pull-? ?up|chin-? ?up/i
const seatedOrLying = /bench|floor press|chest press|seated|lying|incline|decline|pulldown|pullover|skull/i

/** Whether a pain is a reason not to change a lift. Shoulder, arm and wrist affect every lift of the upper body and
 * every lift held in the hands; any other place, known or not, affects every lift but seated or lying ones of the
 * upper body; a warning sign affects everything. This program's own rule. */
function isCoveredByPain(pain: Pain, exercise: string): boolean {
  if (needsADoctor(pain)) return true
  const isLegs = isLegLift(exercise)
  if (armWords.test(pain.place)) return !isLegs || heldInTheHands.test(exercise)
  return isLegs || !seatedOrLying.test(exercise)
}

/** The pain for which a lift stays as it is: of several, a sign that needs a doctor, else for a lift of the upper body
 * that of shoulder, arm or wrist. This program's own rule. */
export function painCovering(pains: readonly DatedPain[], exercise: string): DatedPain | undefined {
  const covering = pains.filter((each) => isCoveredByPain(each, exercise))
  const ofTheArm = isLegLift(exercise) ? undefined : covering.find(({ place }) => armWords.test(place))
  return covering.find(needsADoctor) ?? ofTheArm ?? covering[0]
}

/** Whether a pain is a reason not to run faster: any but of shoulder, arm or wrist. This program's own rule. */
export function isRunCoveredByPain(pain: Pain): boolean {
  return !armWords.test(pain.place) || needsADoctor(pain)
}
