import { isCalendarDate } from '../units/calendarDate.ts'
import { metersOf, printLength } from '../units/length.ts'
import { type Building, implausibleTime, isSound, report, warnOfHeader, warnOfMass } from './building.ts'
import { exerciseKey } from './exercise.ts'
import type { Line } from './lines.ts'
import type { Prescription } from './model.ts'
import { printedLines } from './print.ts'
import type { Problem } from './problem.ts'
import { readLine } from './readLine.ts'
import type { HeaderNode, TextNode } from './syntax.ts'

export type Headers = Omit<Prescription, 'title' | 'parts'>

/** Headers of a file with none of them written. */
export function noHeaders(units: Headers['units']): Headers {
  return { date: null, units, goal: null, athlete: null, bar: null, lap: null, maxima: [], notes: [] }
}

/** Reads the header lines of a file: the units first, since the bare numbers of the others are in them. */
export function readHeaders(
  lines: readonly Line[],
  building: Building,
): { headers: Headers; maxima: { line: Line; name: string }[]; problems: Problem[] } {
  const headers = noHeaders(building.units)
  const maxima: { line: Line; name: string }[] = []
  const problems: Problem[] = []
  const seen = new Set<string>()
  const isUnits = (line: Line) => /^ *units/i.test(line.text)
  for (const line of [...lines.filter(isUnits), ...lines.filter((each) => !isUnits(each))]) {
    const build = (node: HeaderNode) => {
      checkOnce(node, seen, building)
      return headerOf(node, headers, building)
    }
    const read = readLine(line, 'header', building, build, (taken) => printHeader(taken, building))
    if (read.value?.units) building.units = read.value.units
    for (const { name } of read.value?.maxima ?? []) maxima.push({ line, name })
    Object.assign(headers, merged(headers, read.value ?? {}))
    problems.push(...read.problems)
  }
  return { headers, maxima, problems }
}

function merged(headers: Headers, taken: Partial<Headers>): Headers {
  return {
    ...headers,
    ...taken,
    ...(headers.bars || taken.bars ? { bars: [...(headers.bars ?? []), ...(taken.bars ?? [])] } : {}),
    maxima: [...headers.maxima, ...(taken.maxima ?? [])],
    notes: [...headers.notes, ...(taken.notes ?? [])],
  }
}

/** One header as it should be written. */
function printHeader(taken: Partial<Headers>, { units }: Building): string {
  const lines = printedLines({ title: '', parts: [], ...noHeaders(units), ...taken })
  const isAsked = (text: string) => text !== '' && (taken.units !== undefined || !text.startsWith('units:'))
  return lines.find((line) => isAsked(line.text))?.text ?? ''
}

function checkOnce(node: HeaderNode, seen: Set<string>, building: Building): void {
  if (node.header === 'note') return
  const name = node.header === 'max' || node.header === 'bar' ? node.name : null
  const key = name === null ? node.header : `${node.header} ${exerciseKey(name.name)}`
  const said =
    name === null ? node.header : `a ${node.header} ${node.header === 'max' ? 'of' : 'for'} ${name.name}`
  if (seen.has(key)) report(building, node.at, `${said} is given twice: leave one out`)
  seen.add(key)
}

function headerOf(node: HeaderNode, headers: Headers, building: Building): Partial<Headers> {
  switch (node.header) {
    case 'date':
      return { date: dateOf(node.value, building) }
    case 'units':
      return { units: { distance: node.value.distance, mass: node.value.mass } }
    case 'goal':
      return { goal: goalOf(node, headers, building) }
    case 'athlete':
    case 'bar':
      warnOfHeader(node.header, node.value, building)
      if (node.header === 'bar' && node.name !== null)
        return { bars: [{ name: node.name.name, mass: { value: node.value.value, unit: node.value.unit } }] }
      return { [node.header]: { value: node.value.value, unit: node.value.unit } }
    case 'lap':
      return { lap: { value: node.value.value, unit: node.value.unit } }
    case 'max':
      warnOfMass(node.value, node.value, building)
      return { maxima: [{ name: node.name.name, mass: { value: node.value.value, unit: node.value.unit } }] }
    case 'note':
      return { notes: [node.text] }
  }
}

function dateOf(node: TextNode, building: Building): string {
  if (!isSound(node) || isCalendarDate(node.text)) return node.text
  const [, year = '', month = '', day = ''] = /^(\d+)-(\d+)-(\d+)$/.exec(node.text) ?? []
  const padded = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  const isShort = padded !== node.text && isCalendarDate(padded)
  report(
    building,
    node.at,
    isShort
      ? `a date has four digits of the year and two each of month and day: write ${padded}`
      : `there is no ${node.text} in the calendar: a date is written year-month-day, such as 2026-11-26`,
    isShort,
  )
  return isShort ? padded : '2000-01-01'
}

function goalOf(
  node: HeaderNode & { header: 'goal' },
  headers: Headers,
  building: Building,
): Headers['goal'] {
  const length = { value: node.length.value, unit: node.length.unit }
  const on = node.on === null ? null : dateOf(node.on, building)
  let { seconds } = node.time
  if (isSound(node.length) && isSound(node.time)) {
    const lap = headers.lap === null ? 400 : metersOf(headers.lap)
    const found = implausibleTime(printLength(length), metersOf(length, lap), seconds, 'run')
    if (found !== null) report(building, node.time.at, found.message, found.meant !== null)
    seconds = found?.meant ?? seconds
  }
  return { length, seconds, on }
}
