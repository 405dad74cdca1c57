import { type Diagnostic, errorAt, mostDiagnostics } from '../../prescription/diagnostic.ts'
import { lineOf, shownOf } from '../../prescription/lines.ts'
import type { FuelItem, Prescription } from '../../prescription/model.ts'
import type { FuelStep, Step } from '../../prescription/step.ts'
import { isCalendarDate } from '../../units/calendarDate.ts'
import { unsafeAt } from '../../validate/unsafe.ts'
import { readEntry } from '../entry/entry.ts'
import { type Answer, type FuelPrompt, type Prompt, promptOf } from '../prompt.ts'
import type { FuelResult } from '../result.ts'
import type { SessionState } from '../state.ts'
import { calledOf, type PartNames, partNamesOf, partNamesText, readClosing } from './parts.ts'

/* Parses a results file, before it is compared with the prescription. */

/** A time of day as written, in seconds since midnight. */
export type ClockTime = number

/** One result: an entry as it would have been typed. */
export interface PaperEntry {
  kind: 'entry'
  text: string
  /** The line ends with `!!`: the implausible value is intended. */
  insists: boolean
  /** When it was done; null if the line does not say. */
  clock: ClockTime | null
}

/** A line that is not a result. It may be anywhere in the file. */
export type PaperRemark =
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

/** Thrown when a line cannot be read; the message says what was expected. `isResult`: it may have been an entry,
 * so that the lines below would answer the wrong results. */
export class UnreadableLine extends Error {
  readonly isResult: boolean

  constructor(message: string, isResult = false) {
    super(message)
    this.isResult = isResult
  }
}

/** Parses a line that is not a result; null for an entry.
 * @throws UnreadableLine */
export function remarkIn(written: string, names: PartNames, prescription: Prescription): PaperRemark | null {
  if (!/^\p{L}/u.test(written)) return null
  const colons = [...written.matchAll(/:/g)].map((match) => match.index)
  for (const colon of colons) {
    const remark = remarkOf(calledOf(written.slice(0, colon)), written.slice(colon + 1).trim(), names)
    if (remark !== null) return remark
  }
  const called = /^([\p{L} '’-]+):/u.exec(written)?.[1]
  if (called === undefined || isEntryWord(called)) return null
  throw new UnreadableLine(
    `"${called}:" is not known on this day; known are ${partNamesText(prescription)}, "date:", "start:", "fuel before:" or "note:"`,
  )
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

function remarkOf(called: string, text: string, names: PartNames): PaperRemark | null {
  if (called === 'date') {
    if (!isCalendarDate(text) || text < '1970')
      throw new UnreadableLine(`Invalid date "${text}". Example: 2026-11-26`)
    return { kind: 'date', date: text }
  }
  if (called === 'start')
    return { kind: 'start', clock: clockOf(text, `Invalid start "${text}". Example: 06:40`) }
  if (called === 'note') return noteOf(text)
  const fuel = /^fuel (before|between|after)(?: [\d:. a-z]+)?$/.exec(called)
  if (fuel !== null) return { kind: 'fuel', when: fuel[1] as 'before', ...insistence(text) }
  const parts = names.get(called)
  if (parts !== undefined) {
    const reading = readClosing(text)
    if (reading.outcome === 'error') throw new UnreadableLine(reading.message)
    return { kind: 'closing', parts, effort: reading.effort, minutes: reading.minutes }
  }
  const withParts = called.endsWith(' with') ? names.get(called.slice(0, -5)) : undefined
  if (withParts === undefined) return null
  if (text === '') throw new UnreadableLine('write after "with:" what it was done with: flats, track, windy')
  return { kind: 'with', parts: withParts, text }
}

function noteOf(text: string): PaperRemark {
  const words = text.replace(/^["“”]([^"“”]*)["“”]$/, '$1').trim()
  const pain = /^pain:?\s+(\S.*)$/i.exec(words)
  if (words === '') throw new UnreadableLine('write the note after "note:", such as note: slept 5 h')
  return { kind: 'note', text: (pain?.[1] ?? words).replace(/^"([^"]*)"$/, '$1'), pain: pain !== null }
}

/** The entry on a line; sets `place` to its beginning.
 * @throws UnreadableLine */
export function entryIn(written: string, place: PaperPlace): PaperEntry {
  const bracket = /^\[([^\]]*)\]\s*/.exec(written)
  if (bracket === null) {
    if (written.startsWith('['))
      throw new UnreadableLine('a time of day is written [7:04] or [7:04:10]', true)
    return { kind: 'entry', clock: null, ...insistence(written) }
  }
  const clock = clockOf(
    bracket[1] ?? '',
    `Invalid time of day "${bracket[0].trim()}". Examples: [7:04] or [7:04:10]`,
    true,
  )
  const text = written.slice(bracket[0].length)
  if (text === '')
    throw new UnreadableLine('write the entry after a time of day; = is as prescribed, - is skipped', true)
  place.column += [...bracket[0]].length
  place.length = [...text].length
  return { kind: 'entry', clock, ...insistence(text) }
}

function insistence(text: string): { text: string; insists: boolean } {
  return text.endsWith('!!') ? { text: text.slice(0, -2).trim(), insists: true } : { text, insists: false }
}

function clockOf(text: string, message: string, isResult = false): ClockTime {
  const clock = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(text.trim())
  const [, hours = '', minutes = '', seconds = '0'] = clock ?? []
  if (clock === null || Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 59) {
    throw new UnreadableLine(message, isResult)
  }
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds)
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
  for (const [index, raw] of text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .entries()) {
    if (raw.trim() === '') continue
    const place = { line: index + 1, column: 1, length: 1, shown: shownOf(raw) }
    try {
      const line = lineIn(raw, place, names, prescription)
      if (line !== null) lines.push(line)
      if (lines.length > mostLines)
        throw new UnreadableLine(`a results file has at most ${mostLines} entries`, true)
    } catch (error) {
      if (!(error instanceof UnreadableLine)) throw error
      problems.push(diagnosticAt(place, error.message))
      whole &&= !error.isResult
      if (problems.length > mostDiagnostics || lines.length > mostLines) break
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

function lineIn(
  raw: string,
  place: PaperPlace,
  names: PartNames,
  prescription: Prescription,
): PaperLine | null {
  if (raw.length > longestLine) throw new UnreadableLine(`a line has at most ${longestLine} characters`, true)
  const unsafe = unsafeAt(raw)
  if (unsafe >= 0) {
    place.column = [...raw.slice(0, unsafe)].length + 1
    throw new UnreadableLine('a results file cannot hold this character; delete it', true)
  }
  const { written } = lineOf(raw, place.line)
  if (written === '') return null
  place.column = [...raw.slice(0, raw.length - raw.trimStart().length)].length + 1
  place.length = [...written].length
  return { ...(remarkIn(written, names, prescription) ?? entryIn(written, place)), place }
}

/* Assigns the lines that are not results to parts and steps. */

export interface PaperRemarks {
  date: string | null
  start: ClockTime | null
  /** By the part's index. */
  closings: Map<number, { effort: number | null; minutes: number | null }>
  conditions: Map<number, string>
  /** `step` null: not prescribed. */
  fuel: { when: FuelItem['when']; step: FuelStep | null; result: FuelResult }[]
  notes: { text: string; pain: boolean }[]
  problems: Diagnostic[]
}

/** Two lines for parts of the same name go to those parts in order, and so do two meals at the same time.
 * @param state the day before anything has happened */
export function remarksOf(lines: readonly PaperLine[], state: SessionState): PaperRemarks {
  const remarks: PaperRemarks = {
    date: null,
    start: null,
    closings: new Map(),
    conditions: new Map(),
    fuel: [],
    notes: [],
    problems: [],
  }
  const meals = state.steps.filter((step) => step.kind === 'fuel')
  for (const line of lines) {
    const problem = put(line, remarks, meals, state)
    if (problem !== null) remarks.problems.push(diagnosticAt(line.place, problem))
    if (remarks.problems.length > mostDiagnostics) break
  }
  return remarks
}

/** Assigns one line; returns what is wrong with it, if anything. */
function put(
  line: PaperLine,
  remarks: PaperRemarks,
  meals: readonly FuelStep[],
  state: SessionState,
): string | null {
  switch (line.kind) {
    case 'entry':
      return null
    case 'date':
      if (remarks.date !== null) return 'two dates given; write one'
      remarks.date = line.date
      return null
    case 'start':
      if (remarks.start !== null) return 'two start times given; write one'
      remarks.start = line.clock
      return null
    case 'note':
      remarks.notes.push({ text: line.text, pain: line.pain })
      return null
    case 'closing': {
      const part = line.parts.find((each) => !remarks.closings.has(each))
      if (part === undefined) return 'effort and minutes of this part are already given; write them once'
      remarks.closings.set(part, { effort: line.effort, minutes: line.minutes })
      return null
    }
    case 'with': {
      const part = line.parts.find((each) => !remarks.conditions.has(each))
      if (part === undefined) return 'what this part was done with is already given; write it on one line'
      remarks.conditions.set(part, line.text)
      return null
    }
    case 'fuel': {
      const those = meals.filter((step) => step.fuel.when === line.when)
      const step = those.find((each) => !remarks.fuel.some((eaten) => eaten.step === each))
      if (step !== undefined) return putFuel(line, step, promptOf(state, step.id) as FuelPrompt, remarks)
      if (remarks.fuel.some((eaten) => eaten.when === line.when))
        return `what was eaten ${line.when} is already given; write it on one line`
      if (line.text === '' || line.text === '=')
        return `nothing to eat ${line.when} is prescribed; write what was eaten: carbs 70 g, protein 18 g`
      return putFuel(line, null, notPrescribed, remarks)
    }
  }
}

const unknown = { carbsG: null, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
const notPrescribed: FuelPrompt = { kind: 'fuel', prescribed: unknown }

function putFuel(
  line: { when: FuelItem['when']; text: string; insists: boolean },
  step: FuelStep | null,
  prompt: FuelPrompt,
  remarks: PaperRemarks,
): string | null {
  const taken = takenFrom(line, prompt)
  if (typeof taken === 'string') return taken
  if (taken.kind === 'fuel') remarks.fuel.push({ when: line.when, step, result: taken.result })
  return null
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
