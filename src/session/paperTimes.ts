import type { Problem } from '../prescription/problem.ts'
import { problemAt, unlessInsisted } from './paperLines.ts'
import type { ClockTime, PlacedEntry } from './paperModel.ts'

/* When the results of a paper session were done. */

/** A local date and a time of day `HH:MM:SS` as an instant with its offset. */
export type PaperTime = (date: string, time: string) => string

const day = 24 * 3600
/** A clock that goes back by more than this has passed midnight; by less, it was written wrongly. */
const backAtMidnight = 12 * 3600

export interface PaperTimes {
  problems: Problem[]
  /** The instants of the start and of each entry, null where none was written. */
  instants: (date: string, instantOf: PaperTime) => { start: string | null; entries: (string | null)[] }
}

/** @param start the start that was written; null when none was */
export function timesOf(start: ClockTime | null, entries: readonly PlacedEntry[]): PaperTimes {
  const problems: Problem[] = []
  const seconds: (number | null)[] = []
  let latest = start
  for (const { clock, insists, place } of entries) {
    if (clock === null) {
      seconds.push(null)
      continue
    }
    let since = clock + Math.floor((latest ?? 0) / day) * day
    if (latest !== null && since < latest - backAtMidnight) since += day
    if (latest !== null && since < latest && !insists) {
      problems.push(
        problemAt(
          place,
          unlessInsisted(`${timeText(clock)} is earlier than ${timeText(latest % day)} before it`),
        ),
      )
    }
    latest = Math.max(latest ?? 0, since)
    seconds.push(since)
  }
  return {
    problems,
    instants(date, instantOf) {
      const at = (since: number | null) =>
        since === null ? null : instantOf(dateAfter(date, Math.floor(since / day)), timeText(since % day))
      return { start: at(start), entries: seconds.map(at) }
    },
  }
}

function timeText(seconds: number): string {
  const two = (value: number) => String(value).padStart(2, '0')
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}

function dateAfter(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * day * 1000).toISOString().slice(0, 10)
}
