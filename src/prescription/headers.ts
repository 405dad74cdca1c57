import { isCalendarDate } from '../units/calendarDate.ts'
import { metersOf, printLength } from '../units/length.ts'
import { inSentence } from '../units/lists.ts'
import { exerciseKey } from './exercise.ts'
import type { Diagnostic, Line } from './lines.ts'
import type { Prescription } from './model.ts'
import { implausibleTime, warnOfMass } from './plausible.ts'
import { printedLines } from './print.ts'
import { diagnosticOf, readLine } from './readLine.ts'
import { type Context, isSound, type Place, placeOf, wholeOf } from './written.ts'

/* Reads the headers of a day. */

/** In the order in which messages name them. The grammar has a rule for each. */
export const headerNames = ['date', 'units', 'goal', 'athlete', 'bar', 'lap', 'max', 'note'] as const

export const beginsHeader = new RegExp(`^\\s*(?:${headerNames.join('|')})\\s*:`, 'i')

/** What is wrong with a line above the first part that was meant as a header; null for any other line. */
export function headerMessage(text: string): string | null {
  const [, name] = new RegExp(`^ *(${headerNames.join('|')}) `, 'i').exec(text) ?? []
  if (name !== undefined) return `a header has a colon: write ${name.toLowerCase()}: and then the rest`
  const [, word] = /^ *([\p{L}\p{N} ]{1,40}?) *:/u.exec(text) ?? []
  return word === undefined
    ? null
    : `no header is called ${word}: there are ${inSentence([...headerNames], 'and')}`
}

export type Headers = Omit<Prescription, 'title' | 'parts'>

export function noHeaders(units: Headers['units']): Headers {
  return { date: null, units, goal: null, athlete: null, bar: null, lap: null, maxima: [], notes: [] }
}

/** Reads the header lines of a file: units first, since they decide the units of the others' bare numbers.
 * @returns the headers, and the line of each maximum and named bar */
export function readHeaders(
  lines: readonly Line[],
  context: Context,
): { headers: Headers; lines: Map<object, Line>; problems: Diagnostic[] } {
  const isUnits = (line: Line) => /^ *units/i.test(line.text)
  let headers = noHeaders(context.units)
  const named = new Map<object, Line>()
  const problems: Diagnostic[] = []
  const given = new Set<string>()
  for (const line of [...lines.filter(isUnits), ...lines.filter((each) => !isUnits(each))]) {
    const { units } = headers
    const print = (taken: Partial<Headers>) => printHeader(taken, units)
    const read = readLine(line, { rule: 'header', build: checkedHeader, print }, { ...context, units })
    problems.push(...read.problems)
    if (read.value === null) continue
    const key = keyOf(read.value)
    const message = 'this header is given twice: remove one'
    if (given.has(key)) problems.push(diagnosticOf(line, { at: wholeOf(line.text), message }))
    if (!read.value.notes) given.add(key)
    for (const each of read.value.maxima ?? read.value.bars ?? []) named.set(each, line)
    headers = merged(headers, read.value)
  }
  return { headers, lines: named, problems }
}

/** What no two headers of a day share. */
function keyOf(taken: Partial<Headers>): string {
  const [named] = taken.maxima ?? taken.bars ?? []
  return `${Object.keys(taken)[0]} ${exerciseKey(named?.name ?? '')}`
}

function merged(headers: Headers, taken: Partial<Headers>): Headers {
  return {
    ...headers,
    ...taken,
    ...(taken.bars ? { bars: [...(headers.bars ?? []), ...taken.bars] } : {}),
    maxima: [...headers.maxima, ...(taken.maxima ?? [])],
    notes: [...headers.notes, ...(taken.notes ?? [])],
  }
}

function printHeader(taken: Partial<Headers>, units: Headers['units']): string {
  const lines = printedLines({ title: '', parts: [], ...noHeaders(units), ...taken })
  const isAsked = (text: string) => text !== '' && (taken.units !== undefined || !text.startsWith('units:'))
  return lines.find((line) => isAsked(line.text))?.text ?? ''
}

/** Reports what is wrong with a header, and puts right what was probably meant. */
function checkedHeader(taken: Partial<Headers>, context: Context): Partial<Headers> {
  const { date, goal, athlete, bar, bars = [], maxima = [] } = taken
  if (date) checkDate(date, placeOf(taken, 'date'), context)
  if (goal) checkGoal(goal, context)
  if (athlete) warnOfMass('athlete', athlete, context)
  for (const mass of [bar, ...bars.map((each) => each.mass)]) if (mass) warnOfMass('bar', mass, context)
  for (const { mass } of maxima) warnOfMass('load', mass, context)
  return taken
}

function checkDate(date: string, at: Place, context: Context): void {
  if (!isCalendarDate(date))
    context.report(at, `${date} is not a date of the calendar, written year-month-day such as 2026-11-26`)
}

function checkGoal(goal: NonNullable<Headers['goal']>, context: Context): void {
  const { length, seconds, on } = goal
  if (on !== null) checkDate(on, placeOf(goal, 'on'), context)
  if (!isSound(goal)) return
  const time = { from: seconds, to: seconds }
  const found = implausibleTime(printLength(length), metersOf(length, context.lapMeters), time, 'run')
  if (found === null) return
  context.report(placeOf(goal, 'seconds'), found.message, { fixed: found.meant !== null })
  goal.seconds = found.meant?.from ?? seconds
}
