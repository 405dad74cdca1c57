import type { Prescription } from '../prescription/model.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import type { ClockTime, PaperEntry, PaperPlace, PaperRemark } from './paperModel.ts'
import { calledOf, type PartNames, partNamesText, readClosing } from './paperParts.ts'

/* One line of a results file that says something. */

/** Thrown by what reads one line; the message says what was expected. `isResult`: it may have been an entry,
 * so that what stands below would be held against the wrong result. */
export class UnreadableLine extends Error {
  readonly isResult: boolean

  constructor(message: string, isResult = false) {
    super(message)
    this.isResult = isResult
  }
}

/** What stands apart on a line; null when it is an entry.
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
    `"${called}:" is nothing of this day; what stands apart is ${partNamesText(prescription)}, "date:", "start:", "fuel before:" or "note:"`,
  )
}

function isEntryWord(called: string): boolean {
  return /^(?:x|bw|rpe|rir|hr|pain|skip|skipped|done|ok|yes)(?: |$)/i.test(called)
}

function remarkOf(called: string, text: string, names: PartNames): PaperRemark | null {
  if (called === 'date') {
    if (!isCalendarDate(text) || text < '1970')
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

/** The entry on a line; `place` moves to where it begins.
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
