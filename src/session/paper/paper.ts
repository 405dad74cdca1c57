import type { Diagnostic } from '../../prescription/diagnostic.ts'
import { expand } from '../../prescription/expand.ts'
import type { Prescription } from '../../prescription/model.ts'
import type { ExpandedPart } from '../../prescription/step.ts'
import { dayAfter } from '../../units/calendarDate.ts'
import type { SessionEvent } from '../model.ts'
import { recordedEvent, skippedRemarks } from '../press.ts'
import { startOf } from '../state.ts'
import {
  type ClockTime,
  diagnosticAt,
  type PaperAnswer,
  type PaperLine,
  type PlacedEntry,
  readPaperLines,
  unlessInsisted,
} from './lines.ts'
import { type PaperRemarks, remarksOf } from './remarks.ts'
import { answersOf } from './results.ts'

type SessionStarted = Extract<SessionEvent, { type: 'sessionStarted' }>

/** What the results file itself does not say. */
export interface PaperOptions {
  /** Used if neither the results nor the prescription have a date; null if none was given. */
  date: string | null
  /** What is known beforehand about that day: body mass, and maxima for % loads. */
  known: (date: string) => Pick<SessionStarted, 'bodyMassKg' | 'maxima' | 'lastLoads'>
  /** A local date and `HH:MM:SS` as an instant with its offset. */
  instantOf: (date: string, time: string) => string
}

export type PaperReading =
  | { outcome: 'session'; start: SessionStarted; events: SessionEvent[] }
  /** Nothing can be stored. */
  | { outcome: 'problems'; problems: Diagnostic[] }
  /** Neither file has a date, and none was given. */
  | { outcome: 'noDate' }
  /** The file is empty. */
  | { outcome: 'nothing' }

/** Turns a session kept on paper into the events that a live one would have left: `events` follow `start`.
 * All or nothing. Never throws, unless a callback does.
 * @param results the text of the results file */
export function readPaper(results: string, prescription: Prescription, options: PaperOptions): PaperReading {
  const { lines, problems: unreadable, whole } = readPaperLines(results, prescription)
  if (lines.length === 0 && unreadable.length === 0) return { outcome: 'nothing' }
  const parts = expand(prescription, () => [])
  const state = startOf(prescription, parts)
  const remarks = remarksOf(lines, state)
  const date = remarks.date ?? prescription.date ?? options.date
  const known = date === null ? { bodyMassKg: null, maxima: [] } : options.known(date)
  const entries = lines.filter(isEntry)
  const { answers, problems } = whole
    ? answersOf(entries, { ...state, ...known })
    : { answers: [], problems: [] }
  const times = timesOf(remarks.start, entries)
  const all = [...unreadable, ...remarks.problems, ...problems, ...times.problems]
  if (all.length > 0)
    return { outcome: 'problems', problems: all.sort((one, other) => one.line - other.line) }
  if (date === null) return { outcome: 'noDate' }
  const instantOf = (seconds: number | null) =>
    seconds === null ? null : options.instantOf(dayAfter(date, Math.floor(seconds / day)), timeText(seconds))
  const start: SessionStarted = {
    type: 'sessionStarted',
    at: instantOf(remarks.start),
    up: null,
    date,
    ...known,
    fromPaper: true,
  }
  return {
    outcome: 'session',
    start,
    events: eventsOf(answers, remarks, times.seconds.map(instantOf), parts),
  }
}

function isEntry(line: PaperLine): line is PlacedEntry {
  return line.kind === 'entry'
}

const unknown = { at: null, up: null }

/** The events after the start of a session that was kept on paper, in the order of a live one: for each part
 * what was recorded, then how the part was. A step without an answer counts as not done.
 * @param times of each answer; null if unknown */
function eventsOf(
  answers: readonly PaperAnswer[],
  remarks: PaperRemarks,
  times: readonly (string | null)[],
  parts: readonly ExpandedPart[],
): SessionEvent[] {
  const timed = answers.map((answer, index) => ({ ...answer, when: { at: times[index] ?? null, up: null } }))
  const eaten = (before: boolean): SessionEvent[] =>
    remarks.fuel
      .filter(({ when }) => (when === 'before') === before)
      .map(({ when, step, result }) =>
        step === null
          ? { type: 'mealRecorded', ...unknown, meal: when, result }
          : { type: 'fuelRecorded', ...unknown, step: step.id, result },
      )
  const done = parts.flatMap((part, index): SessionEvent[] => {
    if (part.kind === 'fuel') return []
    const text = remarks.conditions.get(index)?.text
    const { effort, minutes } = remarks.closings.get(index) ?? { effort: null, minutes: null }
    return [
      ...(text === undefined ? [] : [{ type: 'conditionsNoted' as const, ...unknown, part: index, text }]),
      ...timed
        .filter(({ step }) => step.part === index)
        .flatMap(({ step, answer, when }) => [
          recordedEvent(step.id, answer, when),
          ...skippedRemarks(answer, step.id, when),
        ]),
      { type: 'partClosed', ...unknown, part: index, effort, minutes },
    ]
  })
  const notes = remarks.notes.map(
    (note): SessionEvent => ({ type: 'noteAdded', ...unknown, about: null, ...note }),
  )
  const finished: SessionEvent = { type: 'sessionFinished', at: times.at(-1) ?? null, up: null }
  return [...eaten(true), ...done, ...eaten(false), ...notes, finished]
}

/* When the results of a paper session were done. */

const day = 24 * 3600
/** A clock that goes back by more than this has passed midnight; a smaller step back is a mistake. */
const backAtMidnight = 12 * 3600

/** The time of each entry in seconds since the midnight before the session; null if not written.
 * @param start the written start; null without one */
function timesOf(
  start: ClockTime | null,
  entries: readonly PlacedEntry[],
): { seconds: (number | null)[]; problems: Diagnostic[] } {
  const problems: Diagnostic[] = []
  const seconds: (number | null)[] = []
  let latest = start ?? 0
  for (const { clock, insists, place } of entries) {
    if (clock === null) {
      seconds.push(null)
      continue
    }
    let since = clock + Math.floor(latest / day) * day
    if (since < latest - backAtMidnight) since += day
    if (since < latest && !insists) {
      problems.push(
        diagnosticAt(
          place,
          unlessInsisted(`${timeText(clock)} is earlier than ${timeText(latest)} before it`),
        ),
      )
    }
    latest = Math.max(latest, since)
    seconds.push(since)
  }
  return { seconds, problems }
}

/** The time of day, `HH:MM:SS`. */
function timeText(seconds: number): string {
  return new Date(seconds * 1000).toISOString().slice(11, 19)
}
