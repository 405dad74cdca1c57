import { between, notNegative } from './given.ts'
import { mean, sampleDeviation } from './statistics.ts'

/** The words of the effort scale of a part; the numbers between have none.
 * Source: Foster 2001. */
export const effortWords: Readonly<Record<number, string>> = {
  0: 'rest',
  1: 'very, very easy',
  2: 'easy',
  3: 'moderate',
  4: 'somewhat hard',
  5: 'hard',
  7: 'very hard',
  10: 'maximal',
}

/** Effort-minutes of a part: its effort from 0 to 10 times its minutes.
 * @throws RangeError for an effort outside 0 to 10 or minutes below 0
 * Source: Foster 1998; Foster 2001. */
export function effortMinutes(effort: number, minutes: number): number {
  return between(effort, 0, 10, 'an effort') * notNegative(minutes, 'the minutes')
}

/** Effort-minutes of a session: the sum of its parts that are known; null when none is.
 * @param parts null for a part without an effort or without minutes
 * Source: Foster 2001. */
export function sessionLoad(parts: readonly (number | null)[]): number | null {
  const known = parts.filter((part) => part !== null)
  return known.length === 0 ? null : known.reduce((sum, part) => sum + notNegative(part, 'a load'), 0)
}

export interface DayLoad {
  /** Of the sessions that are known. */
  effortMinutes: number
  /** False when a session of the day has no effort. */
  known: boolean
}

/** Effort-minutes of a day: 0 without a session, unknown when one of its sessions is.
 * Source: Foster 1998. */
export function dayLoad(sessions: readonly (number | null)[]): DayLoad {
  return { effortMinutes: sessionLoad(sessions) ?? 0, known: !sessions.includes(null) }
}

export interface WeekLoad {
  effortMinutes: number
  /** A day is unknown: the sum is this or more, and there is no monotony. */
  atLeast: boolean
  /** Mean of the days / their sample standard deviation; null where that is 0 or a day is unknown. */
  monotony: number | null
  /** Effort-minutes x monotony. */
  strain: number | null
}

/** A week of seven days. The publication does not say which standard deviation it means; this is the
 * sample's (n - 1).
 * @throws RangeError unless there are seven days
 * Source: Foster 1998; Foster 2001. */
export function weekLoad(days: readonly DayLoad[]): WeekLoad {
  if (days.length !== 7) throw new RangeError(`a week has 7 days, and ${days.length} arrived`)
  const loads = days.map((day) => notNegative(day.effortMinutes, 'a load'))
  const sum = loads.reduce((total, load) => total + load, 0)
  const atLeast = days.some((day) => !day.known)
  const [middle, spread] = [mean(loads), sampleDeviation(loads)]
  const monotony = atLeast || !middle || !spread ? null : middle / spread
  return { effortMinutes: sum, atLeast, monotony, strain: monotony === null ? null : sum * monotony }
}
