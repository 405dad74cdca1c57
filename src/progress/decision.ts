import { longGapDays } from '../figures/advice.ts'
import type { Equipment } from '../figures/bar.ts'
import type { ItemComment } from '../prescription/print.ts'
import { needsADoctor } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { daysBetween } from '../units/calendarDate.ts'
import type { MassUnit } from '../units/model.ts'
import type { LiftLine } from './liftDays.ts'
import { type DatedPain, painReason } from './pain.ts'
import type { DoneSession } from './weeks.ts'

/* What the rules of runs and of lifts share: what is decided about a line, from what, and what goes before them. */

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
  /** The pain that leaves the line unchanged. */
  pain?: DatedPain
}

/** `bench press: complete at 8, 8.5 on 70 kg twice -> 72.5 kg` */
export function decisionText({ name, reason }: Decision): string {
  return `${name}: ${reason}`
}

/** A comment on each line that changes. */
export function commentsOn(decisions: readonly Decision[]): ItemComment[] {
  const changes = decisions.filter(({ decision }) => decision !== 'same')
  return changes.map((change) => ({ part: change.part, item: change.item, text: decisionText(change) }))
}

/** A decision before its line is known. */
export type Verdict = Omit<Decision, 'part' | 'item' | 'name'>

export function verdict(decision: Decision['decision'], reason: string): Verdict {
  return { decision, reason }
}

/** What a decision about a line uses besides the session itself. */
export interface DecisionContext {
  /** The last sessions before it, newest first. */
  earlier: readonly SessionState[]
  /** What the logbook's index has of all sessions up to today, newest first. */
  sessions: readonly Pick<DoneSession, 'date' | 'day' | 'running' | 'lifted'>[]
  /** Those that count today, as `standingPains` orders them. */
  pains: readonly DatedPain[]
  /** Those that counted on the date of a session; none without a date. */
  painsOn: (date: string | null) => readonly DatedPain[]
  today: string
  equipmentOf: (unit: MassUnit, exercise: string) => Equipment
  /** The week before the race that it is or will be, in words; null for any other week. */
  taper: string | null
  /** The first leg lift of this session that was too hard because of the running before it. */
  tiredLift: LiftLine | undefined
}

/** Days since the newest session like this; 0 without one. */
export function daysSince(
  { sessions, today }: DecisionContext,
  isLike: (session: DecisionContext['sessions'][number]) => boolean,
): number {
  const last = sessions.find(isLike)
  return last === undefined ? 0 : daysBetween(last.date, today)
}

/** Whether two days are so far apart that doing well on both is no reason to do more: the count starts again after a
 * long gap. */
export function isLongBetween(one: { date: string | null }, later: { date: string | null }): boolean {
  return one.date !== null && later.date !== null && daysBetween(one.date, later.date) > longGapDays
}

/** What goes before the rules of runs and of lifts: a sign that needs a doctor, weeks away, any other pain.
 * @param pain the one that covers the line @param away days since it was done last */
export function beforeOtherRules(
  pain: DatedPain | undefined,
  away: number,
  afterAGap: () => Verdict | null,
): Verdict | null {
  const unchanged = pain ? { ...verdict('same', painReason(pain)), pain } : null
  if (pain && needsADoctor(pain)) return unchanged
  return (away > longGapDays ? afterAGap() : null) ?? unchanged
}
