import { type Diagnostic, errorIn, type Line, linesOfText } from '../../prescription/lines.ts'
import type { FuelItem, Prescription } from '../../prescription/model.ts'
import { isCalendarDate } from '../../units/calendarDate.ts'
import { readMinutes, readSessionRpe, tooManyMinutes } from '../entry/effort.ts'

/* The lines of a results file, before they are compared with the prescription. */

type PaperLine =
  /** One result, as it would have been typed. `insists`: the line ends with `!!`, so an implausible value is intended;
   * `clock`: when it was done, in seconds since midnight, null if the line does not say. */
  | { kind: 'entry'; text: string; insists: boolean; clock: number | null }
  // The others may be anywhere in the file. `parts`: the indexes of the parts with that name, in order.
  | { kind: 'date'; date: string }
  | { kind: 'start'; clock: number }
  | { kind: 'closing'; parts: readonly number[]; effort: number | null; minutes: number | null }
  | { kind: 'with'; parts: readonly number[]; text: string }
  | { kind: 'fuel'; when: FuelItem['when']; text: string; insists: boolean }
  | { kind: 'note'; text: string; pain: boolean }
  /** `mayBeEntry`: the entries below could answer the wrong results. */
  | { kind: 'unreadable'; message: string; mayBeEntry: boolean }

/** `place`: an error there that still lacks its message. */
export type Placed<L extends PaperLine = PaperLine> = L & { place: Diagnostic }
export type LineOf<K extends PaperLine['kind']> = Placed<Extract<PaperLine, { kind: K }>>

const mostLines = 25_000

/** Yields the lines of a results file without blank lines and comments. Never throws.
 * @param problems takes what is wrong with the file itself: the lines are then of no use */
export function* linesOfPaper(
  text: string,
  prescription: Prescription,
  problems: Diagnostic[],
): Generator<Placed> {
  const names = partNamesOf(prescription)
  let count = 0
  for (const line of linesOfText(text, 'results file', problems)) {
    if (++count > mostLines) {
      problems.push(errorIn(line, 0, 1, `a results file has at most ${mostLines} lines`))
      return
    }
    yield lineIn(line, names)
  }
}

const unreadable = (message: string): PaperLine => ({ kind: 'unreadable', message, mayBeEntry: false })
const unreadableEntry = (message: string): PaperLine => ({ kind: 'unreadable', message, mayBeEntry: true })

function lineIn(line: Line, names: PartNames): Placed {
  const { written, text } = line
  const [before = ''] = /^\[[^\]]*\]\s*(?=\S)/.exec(written) ?? []
  const read = remarkIn(written, names) ?? entryIn(written, before.length)
  const from = read.kind === 'entry' ? before.length : 0
  const start = text.length - text.trimStart().length + from
  return { ...read, place: errorIn(line, start, [...written.slice(from)].length, '') }
}

/** Parses a line that is not a result; null for an entry. */
function remarkIn(written: string, names: PartNames): PaperLine | null {
  if (!/^\p{L}/u.test(written)) return null
  for (const { index } of written.matchAll(/:/g)) {
    const remark = remarkOf(nameKey(written.slice(0, index)), written.slice(index + 1).trim(), names)
    if (remark !== null) return remark
  }
  const called = /^([\p{L} '’-]+):/u.exec(written)?.[1]
  if (called === undefined || isEntryWord(called)) return null
  return unreadable(
    `"${called}:" is not part of this day; write ${names.text}, "date:", "start:", "fuel before:" or "note:"`,
  )
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

function remarkOf(called: string, text: string, names: PartNames): PaperLine | null {
  if (called === 'date') {
    const isDate = isCalendarDate(text) && text >= '1970'
    return isDate ? { kind: 'date', date: text } : unreadable(`Invalid date "${text}". Example: 2026-11-26`)
  }
  if (called === 'start') {
    const clock = clockOf(text)
    return clock === null ? unreadable(`Invalid start "${text}". Example: 06:40`) : { kind: 'start', clock }
  }
  if (called === 'note') return noteOf(text)
  const fuel = /^fuel (before|between|after)(?: [\d:. a-z]+)?$/.exec(called)
  if (fuel !== null) return { kind: 'fuel', when: fuel[1] as 'before', ...insistence(text) }
  const parts = names.byName.get(called)
  if (parts !== undefined) return closingOf(insistence(text), parts)
  const withParts = called.endsWith(' with') ? names.byName.get(called.slice(0, -5)) : undefined
  if (withParts === undefined) return null
  return text === ''
    ? unreadable('after "with:" write what it was done with: flats, track, windy')
    : { kind: 'with', parts: withParts, text }
}

function noteOf(text: string): PaperLine {
  const words = text.replace(/^["“”]([^"“”]*)["“”]$/, '$1').trim()
  const pain = /^pain:?\s+(\S.*)$/i.exec(words)
  if (words === '') return unreadable('after "note:" write the note, such as note: slept 5 h')
  return { kind: 'note', text: (pain?.[1] ?? words).replace(/^"([^"]*)"$/, '$1'), pain: pain !== null }
}

const minutesShape =
  /(?:^|[\s,])(\d[\d.:]*(?: ?h(?: ?\d+)?)?(?: ?min(?:s|utes)?| ?h)|\d+h\d+|\d+:\d\d(?::\d\d)?)(?=$|,)/i

/** `effort 8, 62 min`, either of them, in any order. */
function closingOf({ text, insists }: Insistence, parts: readonly number[]): PaperLine {
  const found = minutesShape.exec(text)
  const rest = (found === null ? text : text.replace(minutesShape, '')).replace(/^[\s,]+|[\s,]+$/g, '')
  const minutes = readMinutes(found?.[1] ?? '')
  if (minutes.outcome === 'error') return unreadable(minutes.message)
  const many = tooManyMinutes(minutes.value)
  if (many !== null && !insists) return unreadable(unlessInsisted(many))
  if (rest === '' && minutes.value !== null)
    return { kind: 'closing', parts, effort: null, minutes: minutes.value }
  const typed = /^effort:?\s+(\S.*)$/i.exec(rest)?.[1]
  if (typed === undefined)
    return unreadable(`"${text}" is not understood; write how a part went as "effort 8, 62 min"`)
  const effort = readSessionRpe(typed)
  if (effort.outcome === 'error') return unreadable(effort.message)
  return { kind: 'closing', parts, effort: effort.value, minutes: minutes.value }
}

/** @param from where the entry begins, after the time of day */
function entryIn(written: string, from: number): PaperLine {
  if (!written.startsWith('[')) return { kind: 'entry', clock: null, ...insistence(written) }
  const [before, time = ''] = /^\[([^\]]*)\]/.exec(written) ?? []
  if (before === undefined) return unreadableEntry('a time of day is written [7:04] or [7:04:10]')
  const clock = clockOf(time)
  if (clock === null) return unreadableEntry(`Invalid time of day "${before}". Examples: [7:04] or [7:04:10]`)
  if (from === 0)
    return unreadableEntry('write the entry after a time of day; = is as prescribed, - is skipped')
  return { kind: 'entry', clock, ...insistence(written.slice(from)) }
}

interface Insistence {
  text: string
  insists: boolean
}

/** The message for a questioned value, and how to insist on it. */
export function unlessInsisted(message: string): string {
  return message.endsWith('?')
    ? `${message} If it is right, end the line with !!`
    : `${message}; if it is right, end the line with !!`
}

function insistence(text: string): Insistence {
  return text.endsWith('!!') ? { text: text.slice(0, -2).trim(), insists: true } : { text, insists: false }
}

function clockOf(text: string): number | null {
  const clock = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(text.trim())
  if (clock === null) return null
  const [hours = 0, minutes = 0, seconds = 0] = clock.slice(1).map((field) => Number(field ?? 0))
  return hours > 23 || minutes > 59 || seconds > 59 ? null : hours * 3600 + minutes * 60 + seconds
}

interface PartNames {
  /** Indexes of parts by their possible names, in lower case with single spaces: `run`, `evening`, `run evening`. */
  byName: ReadonlyMap<string, readonly number[]>
  /** The possible names, for messages. */
  text: string
}

/** A part is named by its kind, or by its own name if a day has two of a kind; case does not matter. */
function partNamesOf(prescription: Prescription): PartNames {
  const byName = new Map<string, number[]>()
  const call = (name: string, index: number) => byName.set(name, [...(byName.get(name) ?? []), index])
  const parts = prescription.parts
    .map(({ kind, name }, index) => ({ kind, name, index }))
    .filter(({ kind }) => kind !== 'fuel')
    .map((part, _, all) => {
      const byKind = part.name === null || all.filter(({ kind }) => kind === part.kind).length === 1
      return { ...part, byKind }
    })
  for (const { kind, byKind, index } of parts) if (byKind) call(kind, index)
  const kinds = new Set(byName.keys())
  for (const { kind, name, index } of parts) {
    if (name === null) continue
    const called = nameKey(name)
    if (!kinds.has(called)) call(called, index)
    call(`${kind} ${called}`, index)
  }
  const shown = new Set(parts.map(({ kind, name, byKind }) => `"${byKind ? kind : name}:"`))
  return { byName, text: [...shown].join(', ') }
}

/** A name normalised for comparing: lower case, single spaces. */
function nameKey(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/g, ' ')
}
