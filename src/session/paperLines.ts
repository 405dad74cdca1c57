import * as z from 'zod'
import { lineOf, refused, shownOf } from '../prescription/line.ts'
import type { Prescription } from '../prescription/model.ts'
import { mostProblems, type Problem } from '../prescription/problem.ts'
import type { ClockTime, PaperEntry, PaperLine, PaperPlace, PaperRemark } from './paperModel.ts'
import { calledOf, type PartNames, partNamesOf, partNamesText, readClosing } from './paperParts.ts'

/* A results file line by line: one entry a line, and what stands apart. */

const longestLine = 500
const mostLines = 25_000

/** Thrown by what reads one line; the message says what was expected. `isResult`: it may have been an entry,
 * so that what stands below would be held against the wrong result. */
class UnreadableLine extends Error {
  readonly isResult: boolean

  constructor(message: string, isResult = false) {
    super(message)
    this.isResult = isResult
  }
}

export interface PaperLines {
  lines: PaperLine[]
  problems: Problem[]
  /** Every entry could be told from the rest. */
  whole: boolean
}

/** The lines of a results file that say something. Blank lines and comments say nothing. Never throws.
 * @param text without regard to line ends and a byte-order mark */
export function readPaperLines(text: string, prescription: Prescription): PaperLines {
  const names = partNamesOf(prescription)
  const lines: PaperLine[] = []
  const problems: Problem[] = []
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
      problems.push(problemAt(place, error.message))
      whole &&= !error.isResult
      if (problems.length > mostProblems || lines.length > mostLines) break
    }
  }
  return { lines, problems, whole }
}

/** A problem of a results file at a place in it. */
export function problemAt(place: PaperPlace, message: string): Problem {
  const { line, column, length, shown } = place
  return { line, column, length, message, text: shown, instead: null, severity: 'error' }
}

/** What is said of a value that is questioned, and how it is insisted on. */
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
  const control = refused.exec(raw)
  if (control !== null) {
    place.column = [...raw.slice(0, control.index)].length + 1
    throw new UnreadableLine('this character cannot stand in a results file; delete it', true)
  }
  const { written } = lineOf(raw, place.line)
  if (written === '') return null
  place.column = [...raw.slice(0, raw.length - raw.trimStart().length)].length + 1
  place.length = [...written].length
  return { ...(remarkIn(written, names, prescription) ?? entryIn(written, place)), place }
}

function remarkIn(written: string, names: PartNames, prescription: Prescription): PaperRemark | null {
  if (!/^\p{L}/u.test(written)) return null
  const colons = [...written.matchAll(/:/g)].map((match) => match.index)
  for (const colon of colons) {
    const remark = remarkOf(calledOf(written.slice(0, colon)), written.slice(colon + 1).trim(), names)
    if (remark !== null) return remark
  }
  const called = /^([\p{L} '’-]+):/u.exec(written)?.[1]
  if (called === undefined || isEntryWord(called)) return null
  throw new UnreadableLine(
    `"${called}:" is nothing of this day; what stands apart is ${partNamesText(prescription)}, "date:", "start:", "fuel before:" or "note:"`,
  )
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

function remarkOf(called: string, text: string, names: PartNames): PaperRemark | null {
  if (called === 'date') {
    const date = z.iso.date().safeParse(text)
    if (!date.success || text < '1970')
      throw new UnreadableLine(`a date is written 2026-11-26; "${text}" is none`)
    return { kind: 'date', date: text }
  }
  if (called === 'start')
    return { kind: 'start', clock: clockOf(text, `a start is written 06:40; "${text}" is none`) }
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
  if (text === '')
    throw new UnreadableLine('behind "with:" stands what it was done with: flats, track, windy')
  return { kind: 'with', parts: withParts, text }
}

function noteOf(text: string): PaperRemark {
  const words = text.replace(/^["“”](.*)["“”]$/, '$1').trim()
  const pain = /^pain:?\s+(\S.*)$/i.exec(words)
  if (words === '') throw new UnreadableLine('behind "note:" stands the note: note: slept 5 h')
  return { kind: 'note', text: (pain?.[1] ?? words).replace(/^"(.*)"$/, '$1'), pain: pain !== null }
}

function entryIn(written: string, place: PaperPlace): PaperEntry {
  const bracket = /^\[([^\]]*)\]\s*/.exec(written)
  if (bracket === null) {
    if (written.startsWith('['))
      throw new UnreadableLine('a time of day is written [7:04] or [7:04:10]', true)
    return { kind: 'entry', clock: null, ...insistence(written) }
  }
  const clock = clockOf(
    bracket[1] ?? '',
    `a time of day is written [7:04] or [7:04:10]; "${bracket[0].trim()}" is none`,
    true,
  )
  const text = written.slice(bracket[0].length)
  if (text === '')
    throw new UnreadableLine('behind a time of day stands the entry; = is as prescribed, - is skipped', true)
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
