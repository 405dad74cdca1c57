import { layOut } from '../prescription/layOut.ts'
import type { Prescription } from '../prescription/model.ts'
import type { Problem } from '../prescription/problem.ts'
import type { SessionEvent } from './model.ts'
import { eventsOf } from './paperEvents.ts'
import { readPaperLines } from './paperLines.ts'
import type { PaperLine, PlacedEntry } from './paperModel.ts'
import { remarksOf } from './paperRemarks.ts'
import { answersOf } from './paperResults.ts'
import { type PaperTime, timesOf } from './paperTimes.ts'
import { startOf } from './state.ts'

export type SessionStarted = Extract<SessionEvent, { type: 'sessionStarted' }>

/** What the results file itself does not say. */
export interface PaperOptions {
  /** Used where neither the results nor the prescription have a date; null where none was given. */
  date: string | null
  /** What is known beforehand of that day: body mass, and maxima for % loads. */
  known: (date: string) => Pick<SessionStarted, 'bodyMassKg' | 'maxima'>
  /** A local date and `HH:MM:SS` as an instant with its offset. */
  instantOf: PaperTime
}

export type PaperReading =
  | { outcome: 'session'; start: SessionStarted; events: SessionEvent[] }
  /** Nothing of it can be stored. */
  | { outcome: 'problems'; problems: Problem[] }
  /** Neither file has a date, and none was given. */
  | { outcome: 'noDate' }
  /** The file says nothing. */
  | { outcome: 'nothing' }

/** A session that was kept on paper, as the events that a live one would have left: `events` follow `start`.
 * All or nothing. Never throws, unless what was passed in does.
 * @param results the text of the results file */
export function readPaper(results: string, prescription: Prescription, options: PaperOptions): PaperReading {
  const { lines, problems: unreadable, whole } = readPaperLines(results, prescription)
  if (lines.length === 0 && unreadable.length === 0) return { outcome: 'nothing' }
  const parts = layOut(prescription, () => [])
  const state = startOf(prescription, parts)
  const remarks = remarksOf(lines, state)
  const date = remarks.date ?? prescription.date ?? options.date
  const known = date === null ? { bodyMassKg: null, maxima: [] } : options.known(date)
  const entries = lines.filter(isEntry)
  const { answers, problems } = whole
    ? answersOf(entries, { ...state, ...known, fromPaper: true })
    : { answers: [], problems: [] }
  const times = timesOf(remarks.start, entries)
  const all = [...unreadable, ...remarks.problems, ...problems, ...times.problems]
  if (all.length > 0)
    return { outcome: 'problems', problems: all.sort((one, other) => one.line - other.line) }
  if (date === null) return { outcome: 'noDate' }
  const at = times.instants(date, options.instantOf)
  const start: SessionStarted = {
    type: 'sessionStarted',
    at: at.start,
    up: null,
    date,
    ...known,
    fromPaper: true,
  }
  return { outcome: 'session', start, events: eventsOf(answers, remarks, at.entries, parts) }
}

function isEntry(line: PaperLine): line is PlacedEntry {
  return line.kind === 'entry'
}
