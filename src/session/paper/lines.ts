import { type Diagnostic, errorAt, mostDiagnostics } from '../../prescription/diagnostic.ts'
import { lineOf, shownOf } from '../../prescription/lines.ts'
import type { FuelItem, Prescription } from '../../prescription/model.ts'
import type { Step } from '../../prescription/step.ts'
import { isCalendarDate } from '../../units/calendarDate.ts'
import { unsafeAt } from '../../validate/unsafe.ts'
import { readEntry } from '../entry/entry.ts'
import type { Answer, Prompt } from '../prompt.ts'
import { calledOf, type PartNames, partNamesOf, partNamesText, readClosing } from './parts.ts'

/* Parses a results file, before it is compared with the prescription. */

/** A time of day as written, in seconds since midnight. */
export type ClockTime = number

/** One result: an entry as it would have been typed. */
interface PaperEntry {
  kind: 'entry'
  text: string
  /** The line ends with `!!`: the implausible value is intended. */
  insists: boolean
  /** When it was done; null if the line does not say. */
  clock: ClockTime | null
}

/** A line that is not a result. It may be anywhere in the file. */
type PaperRemark =
  | { kind: 'date'; date: string }
  | { kind: 'start'; clock: ClockTime }
  /** How a part was: `parts` are the indexes of the parts with that name, in order. */
  | { kind: 'closing'; parts: readonly number[]; effort: number | null; minutes: number | null }
  | { kind: 'with'; parts: readonly number[]; text: string }
  | { kind: 'fuel'; when: FuelItem['when']; text: string; insists: boolean }
  | { kind: 'note'; text: string; pain: boolean }

/** A place: the line from 1, its column and length in characters, the line as shown. */
export interface PaperPlace {
  line: number
  column: number
  length: number
  shown: string
}

export type PaperLine = (PaperEntry | PaperRemark) & { place: PaperPlace }

export type PlacedEntry = PaperEntry & { place: PaperPlace }

/** An entry with its prompt and its answer. */
export interface PaperAnswer {
  step: Step
  prompt: Prompt
  answer: Answer
  entry: PlacedEntry
}

/* One line of a results file that is neither blank nor a comment. */

/** Parses a line that is not a result; what was expected instead where it cannot be read; null for an entry. */
function remarkIn(
  written: string,
  names: PartNames,
  prescription: Prescription,
): PaperRemark | string | null {
  if (!/^\p{L}/u.test(written)) return null
  const colons = [...written.matchAll(/:/g)].map((match) => match.index)
  for (const colon of colons) {
    const remark = remarkOf(calledOf(written.slice(0, colon)), written.slice(colon + 1).trim(), names)
    if (remark !== null) return remark
  }
  const called = /^([\p{L} '’-]+):/u.exec(written)?.[1]
  if (called === undefined || isEntryWord(called)) return null
  return `"${called}:" is not known on this day; known are ${partNamesText(prescription)}, "date:", "start:", "fuel before:" or "note:"`
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

function remarkOf(called: string, text: string, names: PartNames): PaperRemark | string | null {
  if (called === 'date') {
    if (!isCalendarDate(text) || text < '1970') return `Invalid date "${text}". Example: 2026-11-26`
    return { kind: 'date', date: text }
  }
  if (called === 'start') {
    const clock = clockOf(text)
    return clock === null ? `Invalid start "${text}". Example: 06:40` : { kind: 'start', clock }
  }
  if (called === 'note') return noteOf(text)
  const fuel = /^fuel (before|between|after)(?: [\d:. a-z]+)?$/.exec(called)
  if (fuel !== null) return { kind: 'fuel', when: fuel[1] as 'before', ...insistence(text) }
  const parts = names.get(called)
  if (parts !== undefined) {
    const reading = readClosing(text)
    if (reading.outcome === 'error') return reading.message
    return { kind: 'closing', parts, effort: reading.effort, minutes: reading.minutes }
  }
  const withParts = called.endsWith(' with') ? names.get(called.slice(0, -5)) : undefined
  if (withParts === undefined) return null
  if (text === '') return 'write after "with:" what it was done with: flats, track, windy'
  return { kind: 'with', parts: withParts, text }
}

function noteOf(text: string): PaperRemark | string {
  const words = text.replace(/^["“”]([^"“”]*)["“”]$/, '$1').trim()
  const pain = /^pain:?\s+(\S.*)$/i.exec(words)
  if (words === '') return 'write the note after "note:", such as note: slept 5 h'
  return { kind: 'note', text: (pain?.[1] ?? words).replace(/^"([^"]*)"$/, '$1'), pain: pain !== null }
}

/** The entry on a line, and what comes before it: nothing, or the time of day. What was expected instead where it
 * cannot be read. */
function entryIn(written: string): { entry: PaperEntry; before: string } | string {
  if (!written.startsWith('['))
    return { entry: { kind: 'entry', clock: null, ...insistence(written) }, before: '' }
  const [before, time = ''] = /^\[([^\]]*)\]\s*/.exec(written) ?? []
  if (before === undefined) return 'a time of day is written [7:04] or [7:04:10]'
  const clock = clockOf(time)
  if (clock === null) return `Invalid time of day "${before.trim()}". Examples: [7:04] or [7:04:10]`
  const text = written.slice(before.length)
  if (text === '') return 'write the entry after a time of day; = is as prescribed, - is skipped'
  return { entry: { kind: 'entry', clock, ...insistence(text) }, before }
}

function insistence(text: string): { text: string; insists: boolean } {
  return text.endsWith('!!') ? { text: text.slice(0, -2).trim(), insists: true } : { text, insists: false }
}

function clockOf(text: string): ClockTime | null {
  const clock = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(text.trim())
  if (clock === null) return null
  const [hours = 0, minutes = 0, seconds = 0] = clock.slice(1).map((field) => Number(field ?? 0))
  return hours > 23 || minutes > 59 || seconds > 59 ? null : hours * 3600 + minutes * 60 + seconds
}

/* Reads a results file line by line: one entry a line, and the lines that are not results. */

const longestLine = 500
const mostLines = 25_000

export interface PaperLines {
  lines: PaperLine[]
  problems: Diagnostic[]
  /** Every line that may be an entry was recognised. */
  whole: boolean
}

/** The lines of a results file, without blank lines and comments. Never throws.
 * @param text with any line ends, with or without a byte-order mark */
export function readPaperLines(text: string, prescription: Prescription): PaperLines {
  const names = partNamesOf(prescription)
  const lines: PaperLine[] = []
  const problems: Diagnostic[] = []
  let whole = true
  const written = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/)
  for (const [index, raw] of written.entries()) {
    const line = lineIn(raw, index + 1, names, prescription)
    if (line === null) continue
    const isOneTooMany = lines.length === mostLines
    const read = isOneTooMany
      ? refused(beginningOf(raw, index + 1), `a results file has at most ${mostLines} entries`)
      : line
    if ('kind' in read) lines.push(read)
    else {
      problems.push(read.problem)
      whole &&= !read.isResult
      if (problems.length > mostDiagnostics || isOneTooMany) break
    }
  }
  return { lines, problems, whole }
}

/** A problem of a results file at a place in it. */
export function diagnosticAt(place: PaperPlace, message: string): Diagnostic {
  const { line, column, length, shown } = place
  return { ...errorAt(line, column, message, shown), length }
}

/** The message for a questioned value, and how to insist on it. */
export function unlessInsisted(message: string): string {
  return message.endsWith('?')
    ? `${message} Where it is right, end the line with !!`
    : `${message}; where it is right, end the line with !!`
}

/** A line that cannot be read. `isResult`: it may have been an entry, so that the lines below would answer the wrong
 * results. */
interface RefusedLine {
  problem: Diagnostic
  isResult: boolean
}

function refused(place: PaperPlace, message: string, isResult = true): RefusedLine {
  return { problem: diagnosticAt(place, message), isResult }
}

function beginningOf(raw: string, number: number): PaperPlace {
  return { line: number, column: 1, length: 1, shown: shownOf(raw) }
}

/** One line of a results file; null for a blank line or a comment. */
function lineIn(
  raw: string,
  number: number,
  names: PartNames,
  prescription: Prescription,
): PaperLine | RefusedLine | null {
  if (raw.trim() === '') return null
  const start = beginningOf(raw, number)
  if (raw.length > longestLine) return refused(start, `a line has at most ${longestLine} characters`)
  const unsafe = unsafeAt(raw)
  if (unsafe >= 0) {
    const column = [...raw.slice(0, unsafe)].length + 1
    return refused({ ...start, column }, 'a results file cannot hold this character; delete it')
  }
  const { written } = lineOf(raw, number)
  if (written === '') return null
  const column = [...raw.slice(0, raw.length - raw.trimStart().length)].length + 1
  const place = { ...start, column, length: [...written].length }
  const remark = remarkIn(written, names, prescription)
  if (typeof remark === 'string') return refused(place, remark, false)
  if (remark !== null) return { ...remark, place }
  const read = entryIn(written)
  if (typeof read === 'string') return refused(place, read)
  const skipped = [...read.before].length
  return { ...read.entry, place: { ...place, column: column + skipped, length: place.length - skipped } }
}

/** The answer on a line, or why it is refused. */
export function takenFrom(
  { text, insists }: { text: string; insists: boolean },
  prompt: Prompt,
): Answer | string {
  const reading = readEntry(text, prompt)
  if (reading.outcome === 'answer') return reading.answer
  if (reading.outcome === 'error' || reading.insisted === null) return reading.message
  return insists ? reading.insisted : unlessInsisted(reading.message)
}
