import { type Diagnostic, errorIn, type Line } from '../../prescription/lines.ts'
import type { FuelItem, Prescription } from '../../prescription/model.ts'
import { isCalendarDate } from '../../units/calendarDate.ts'
import { inSentence, joined } from '../../units/lists.ts'
import { readMinutes, readSessionRpe, tooManyMinutes } from '../entry/closing.ts'
import { noteOf } from '../pain.ts'

/* What the lines of a results file say, before the results are compared with the prescription. */

/** `insists`: the line ends with `!!`, so an implausible value is intended. */
interface Typed {
  text: string
  insists: boolean
}

/** One result, as it would have been typed.
 * `clock`: when it was done, in seconds since midnight, null if the line does not say.
 * `place`: an error there that still lacks its message. */
export interface EntryLine extends Typed {
  clock: number | null
  place: Diagnostic
}

export interface MealLine extends Typed {
  when: FuelItem['when']
  place: Diagnostic
}

/** A results file. Everything but the entries may be anywhere in it. */
export interface Results {
  date: string | null
  /** Seconds since midnight. */
  start: number | null
  entries: EntryLine[]
  /** By the index of the part. */
  closings: Map<number, { effort: number | null; minutes: number | null }>
  conditions: Map<number, string>
  meals: MealLine[]
  notes: { text: string; pain: boolean }[]
}

/** Reads the lines of a results file. Never throws.
 * @param lines without blank lines and comments */
export function resultsIn(
  lines: readonly Line[],
  prescription: Prescription,
): { results: Results; problems: Diagnostic[] } {
  const results: Results = {
    date: null,
    start: null,
    entries: [],
    closings: new Map(),
    conditions: new Map(),
    meals: [],
    notes: [],
  }
  const remarks = remarksFor(prescription, results)
  const parts = prescription.parts.filter(({ kind }) => kind !== 'fuel')
  const day = inSentence(
    parts.map(({ kind, name }) => joined(' ', [kind, name])),
    'and',
  )
  const problems: Diagnostic[] = []
  // Below a line that may be an unreadable entry, others could answer the wrong prompts.
  let isLost = false
  for (const line of lines) {
    const remark = takeRemark(line, remarks, day)
    const read = remark === undefined ? entryIn(line) : remark
    isLost ||= remark === undefined && typeof read === 'string'
    if (typeof read === 'string') problems.push({ ...placeOf(line), message: read })
    else if (read !== null && !isLost) results.entries.push(read)
  }
  return { results, problems }
}

/** @param from where it begins in the line, in characters */
function placeOf(line: Line, from = 0): Diagnostic {
  const start = line.text.length - line.text.trimStart().length + from
  return errorIn(line, start, [...line.written.slice(from)].length, '')
}

/* Lines with a word before a colon. */

/** Takes what is written after the colon; returns what is wrong with it, or null. */
type Remark = (text: string, place: Diagnostic) => string | null

/** Takes a line that is not a result; undefined for an entry, else what is wrong, or null. */
function takeRemark(
  line: Line,
  remarks: ReadonlyMap<string, Remark>,
  day: string,
): string | null | undefined {
  const { written } = line
  if (!/^\p{L}/u.test(written)) return undefined
  // From the last colon on: fuel before 1:30: carbs 70 g.
  for (const { index } of [...written.matchAll(/:/g)].reverse()) {
    const take = remarks.get(nameKey(written.slice(0, index)).replace(/^(fuel \w+) [\d:. a-z]+$/, '$1'))
    if (take !== undefined) return take(written.slice(index + 1).trim(), placeOf(line))
  }
  const called = /^([\p{L} '’-]+):/u.exec(written)?.[1]
  if (called === undefined || isEntryWord(called)) return undefined
  return `"${called}:" names no part of this day, which has ${day}; other lines begin "date:", "start:", "fuel before:" or "note:"`
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

/** The remarks that a day allows, by what is before the colon. */
function remarksFor(prescription: Prescription, results: Results): Map<string, Remark> {
  const remarks = new Map<string, Remark>()
  for (const [name, parts] of partsByName(prescription)) {
    remarks.set(name, (text) => takeClosing(text, parts, results))
    remarks.set(`${name} with`, (text) => takeConditions(text, parts, results))
  }
  for (const when of ['before', 'between', 'after'] as const)
    remarks.set(`fuel ${when}`, (text, place) => {
      results.meals.push({ when, place, ...insistence(text) })
      return null
    })
  return remarks
    .set('date', (text) => takeDate(text, results))
    .set('start', (text) => takeStart(text, results))
    .set('note', (text) => takeNote(text, results))
}

function takeDate(text: string, results: Results): string | null {
  if (!isCalendarDate(text) || text < '1970') return `Invalid date "${text}". Example: 2026-11-26`
  if (results.date !== null) return '"date:" is given twice; write it once'
  results.date = text
  return null
}

function takeStart(text: string, results: Results): string | null {
  const clock = clockOf(text)
  if (clock === null) return `Invalid start "${text}". Example: 06:40`
  if (results.start !== null) return '"start:" is given twice; write it once'
  results.start = clock
  return null
}

function takeNote(text: string, { notes }: Results): string | null {
  const note = noteOf(text)
  if (note.text === '') return 'after "note:" write the note, such as note: slept 5 h'
  notes.push(note)
  return null
}

const minutesShape =
  /(?:^|[\s,])(\d[\d.:]*(?: ?h(?: ?\d+)?)?(?: ?min(?:s|utes)?| ?h)|\d+h\d+|\d+:\d\d(?::\d\d)?)(?=$|,)/i

/** `effort 8, 62 min`, either of them, in any order. */
function takeClosing(written: string, parts: readonly number[], results: Results): string | null {
  const { text, insists } = insistence(written)
  const found = minutesShape.exec(text)
  const rest = (found === null ? text : text.replace(minutesShape, '')).replace(/^[\s,]+|[\s,]+$/g, '')
  const minutes = readMinutes(found?.[1] ?? '')
  if (minutes.outcome === 'error') return minutes.message
  const many = tooManyMinutes(minutes.value)
  if (many !== null && !insists) return unlessInsisted(many)
  const typed = /^effort:?\s+(\S.*)$/i.exec(rest)?.[1]
  if (typed === undefined && (rest !== '' || minutes.value === null))
    return `"${text}" is not understood; write how a part went as "effort 8, 62 min"`
  const effort = readSessionRpe(typed ?? '')
  if (effort.outcome === 'error') return effort.message
  const isNew = giveToPart(results.closings, parts, { effort: effort.value, minutes: minutes.value })
  return isNew ? null : 'effort and minutes of this part are already given; write them once'
}

function takeConditions(text: string, parts: readonly number[], results: Results): string | null {
  if (text === '') return 'after "with:" write what it was done with: flats, track, windy'
  const isNew = giveToPart(results.conditions, parts, text)
  return isNew ? null : 'what this part was done with is already given; write it on one line'
}

/** Gives what a line says to the first part of its name that has none yet; false if all of them have one. */
function giveToPart<T>(byPart: Map<number, T>, parts: readonly number[], value: T): boolean {
  const part = parts.find((each) => !byPart.has(each))
  if (part !== undefined) byPart.set(part, value)
  return part !== undefined
}

/** The entry on a line, or what is wrong with its time of day. */
function entryIn(line: Line): EntryLine | string {
  const { written } = line
  if (!written.startsWith('[')) return { clock: null, place: placeOf(line), ...insistence(written) }
  const [before, time = ''] = /^\[([^\]]*)\]\s*/.exec(written) ?? []
  if (before === undefined) return 'a time of day is written [7:04] or [7:04:10]'
  const clock = clockOf(time)
  if (clock === null) return `Invalid time of day "[${time}]". Examples: [7:04] or [7:04:10]`
  const text = written.slice(before.length)
  if (text === '') return 'write the entry after a time of day; = is as prescribed, - is skipped'
  return { clock, place: placeOf(line, before.length), ...insistence(text) }
}

/** The message for a questioned value, and how to insist on it. */
export function unlessInsisted(message: string): string {
  return message.endsWith('?')
    ? `${message} If it is right, end the line with !!`
    : `${message}; if it is right, end the line with !!`
}

function insistence(text: string): Typed {
  return text.endsWith('!!') ? { text: text.slice(0, -2).trim(), insists: true } : { text, insists: false }
}

function clockOf(text: string): number | null {
  const clock = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(text.trim())
  if (clock === null) return null
  const [hours = 0, minutes = 0, seconds = 0] = clock.slice(1).map((field) => Number(field ?? 0))
  return hours > 23 || minutes > 59 || seconds > 59 ? null : hours * 3600 + minutes * 60 + seconds
}

/** The indexes of the parts by each of their names, `run`, `evening`, `run evening`. The kind alone is the name of a part
 * without another, and of the only one of its kind. */
function partsByName({ parts }: Prescription): Map<string, number[]> {
  const byName = new Map<string, number[]>()
  const call = (name: string, index: number) => byName.set(name, [...(byName.get(name) ?? []), index])
  const named = parts
    .map(({ kind, name }, index) => ({ kind, name: name && nameKey(name), index }))
    .filter(({ kind }) => kind !== 'fuel')
  for (const { kind, name, index } of named)
    if (!name || named.filter((each) => each.kind === kind).length === 1) call(kind, index)
  const kinds = new Set(byName.keys())
  for (const { kind, name, index } of named) {
    if (name && !kinds.has(name)) call(name, index)
    if (name) call(`${kind} ${name}`, index)
  }
  return byName
}

/** A name normalised for comparing: lower case, single spaces. */
function nameKey(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/g, ' ')
}
