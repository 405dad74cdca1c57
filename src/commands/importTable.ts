import { type CsvError, parse } from 'csv-parse/sync'
import { greatest } from 'd3-array'
import { type Diagnostic, errorIn, shownOf } from '../prescription/lines.ts'
import { precisionOf } from '../session/entry/lex.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { readDuration } from '../units/duration.ts'
import { metersIn, metersOf, readLength } from '../units/length.ts'
import { inSentence } from '../units/lists.ts'
import { readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { CommandError, commandLineError } from './command.ts'

export interface Row {
  cells: string[]
  /** The line of the file on which it ends, from 1. */
  line: number
  /** As it is in the file. */
  raw: string
}

/** A table: its headings and rows. */
export interface Table {
  names: string[]
  delimiter: string
  rows: Row[]
}

/** Reads CSV (RFC 4180) separated by commas, semicolons or tabs, whichever is most frequent in the first line. Empty
 * rows are left out.
 * @throws CommandError `bad_csv` for unclosed quotes and for rows longer or shorter than the headings */
export function readTable(text: string): Table {
  const delimiter = delimiterOf(text)
  let records: { record: string[]; raw: string; info: { lines: number } }[]
  try {
    records = parse(text, {
      bom: true,
      delimiter,
      info: true,
      raw: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as typeof records
  } catch (error) {
    const { code, lines } = error as CsvError & { lines?: number }
    if (typeof code !== 'string') throw error
    const at = typeof lines === 'number' ? ` near line ${lines}` : ''
    const why =
      code === 'CSV_RECORD_INCONSISTENT_FIELDS_LENGTH'
        ? 'a row has more or fewer cells than the headings'
        : 'a quote is not closed or is out of place'
    throw new CommandError(
      'bad_csv',
      `The table cannot be read${at}: ${why}. Nothing was stored; correct the file.`,
    )
  }
  const [head, ...rows] = records
  if (head === undefined || rows.length === 0) {
    const message =
      'The table has no rows. Give a CSV file with headings in its first line and a set or a split on each line below.'
    throw new CommandError('bad_csv', message)
  }
  return {
    names: head.record,
    delimiter,
    rows: rows
      .map(({ record, raw, info }) => ({ cells: record, raw: raw.trimEnd(), line: info.lines }))
      .filter(({ cells }) => cells.some((cell) => cell !== '')),
  }
}

function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r?\n/, 1)
  return greatest([',', ';', '\t'], (delimiter) => first.split(delimiter).length)!
}

/** The diagnostic for a bad row, which shows the row and the cell as they are in the file.
 * @param cell its index; null for the whole row */
export function problemIn({ delimiter }: Table, row: Row, message: string, cell: number | null): Diagnostic {
  const shown = shownOf(row.raw)
  const line = { number: row.line, shown: /[\r\n]/.test(row.raw) ? '' : shown }
  const texts = shown.match(new RegExp(`(?:"[^"]*"|[^"${delimiter}])*(?:${delimiter}|$)`, 'g')) ?? []
  if (cell === null || line.shown === '') return errorIn(line, 0, line.shown.length, message)
  const before = texts.slice(0, cell).join('').length
  const length = texts[cell]?.replace(new RegExp(`${delimiter}$`), '').length ?? 1
  return errorIn(line, before, length, message)
}

/** An error in a row or, with a field, in one of its cells. */
export class RowError extends Error {
  override name = 'RowError'
  readonly field: Field | null
  /** Null for the row that is being read. */
  readonly row: Row | null
  constructor(message: string, field: Field | null = null, row: Row | null = null) {
    super(message)
    this.field = field
    this.row = row
  }
}

/** A field's reader and the headings it goes by (in lower case, punctuation as spaces) besides its own name. */
function field<T>(
  read: (text: string) => T,
  ...headings: string[]
): { read: typeof read; headings: string[] } {
  return { read, headings }
}

const verbatim = (text: string) => text
const mostMeters = 1_000_000
/** More repetitions than this are probably a slip; the recorder asks about them. */
const mostReps = 100
const mostSetsInARow = 50

/** The fields a column can hold. */
const fields = {
  date: field(readDate, 'day'),
  session: field(verbatim, 'session id'),
  title: field(verbatim, 'session title', 'name of the day'),
  part: field(verbatim),
  exercise: field(verbatim, 'lift', 'movement'),
  reps: field(readReps, 'rep', 'repetitions'),
  groups: field(readGroups),
  sets: field(whole('number of sets', 1, mostSetsInARow), 'number of sets'),
  set: field(readOwnNumber),
  side: field(oneOf('side', ['each side', 'each arm', 'each leg']), 'sides'),
  load: field(verbatim, 'weight'),
  kg: field(verbatim, 'load kg', 'weight kg', 'kilograms'),
  lb: field(verbatim, 'load lb', 'weight lb', 'load lbs', 'weight lbs', 'lbs', 'pounds'),
  unit: field(readUnit, 'units', 'load unit', 'weight unit'),
  load_kind: field(oneOf('kind of load', ['mass', 'pair', 'bodyweight', 'assisted'])),
  time: field(readTime, 'seconds', 's', 'duration', 'split', 'time s'),
  distance: field(readDistance),
  meters: field(number('distance in metres', 0.1, mostMeters), 'm', 'metres', 'distance m'),
  km: field(number('distance in km', 0.001, 1000, 1000), 'kilometers', 'kilometres', 'distance km'),
  mi: field(number('distance in miles', 0.001, 1000, metersIn.mi), 'mile', 'miles', 'distance mi'),
  heart_rate: field(whole('heart rate', 30, 250), 'hr', 'average heart rate', 'average hr', 'avg hr'),
  heart_rate_max: field(whole('heart rate', 30, 250), 'max hr', 'hr max', 'max heart rate'),
  rpe: field(halves('RPE', 1, 10)),
  rir: field(halves('number of repetitions in reserve', 0, 9)),
  failed: field(readFailed),
  note: field(verbatim, 'notes', 'comment', 'comments', 'remark'),
  pain: field(verbatim),
  work: field(verbatim),
  number: field(readOwnNumber),
  entry: field(verbatim),
  notation: field(verbatim),
}

export type Field = keyof typeof fields

const fieldNames = Object.keys(fields) as Field[]

/** The values of a row; null for an empty cell and for a field without a column. */
export type Values = { [F in Field]: ReturnType<(typeof fields)[F]['read']> | null }

export interface Columns {
  /** The column index of each field. */
  taken: ReadonlyMap<Field, number>
  /** Indexes of unused columns. */
  unused: number[]
}

/** Decides which field each column holds.
 * @param names the headings; @param maps `column=field` as the user wrote them, `column=-` for a column to leave out
 * @throws CommandError for a map that names no column or no field */
export function columnsOf(names: readonly string[], maps: readonly string[]): Columns {
  const mappings = new Map(maps.map((map) => mapped(map, names)))
  const taken = new Map<Field, number>()
  for (const [index, name] of mappings) if (name !== null) taken.set(name, index)
  // A field's own name takes precedence over its other headings: of the columns split and time, time is the time.
  for (const isMeant of [isOwnName, isOtherName])
    names.forEach((name, index) => {
      const words = wordsOf(name)
      const isTaken = mappings.has(index) || [...taken.values()].includes(index)
      const meant = isTaken ? undefined : fieldNames.find((each) => isMeant(each, words))
      if (meant !== undefined && !taken.has(meant)) taken.set(meant, index)
    })
  // Only what export numbers counts.
  if (!taken.has('notation')) for (const name of ['entry', 'set'] as const) taken.delete(name)
  if (!taken.has('work') || !taken.has('number'))
    for (const name of ['work', 'number'] as const) taken.delete(name)
  const used = new Set(taken.values())
  const inOrder = new Map([...taken].sort(([, one], [, other]) => one - other))
  return { taken: inOrder, unused: names.flatMap((_, index) => (used.has(index) ? [] : [index])) }
}

function mapped(map: string, names: readonly string[]): [number, Field | null] {
  const [, column = '', field = ''] = /^(.*)=\s*([^=]*)$/s.exec(map) ?? []
  const index = names.findIndex((name) => name.trim().toLowerCase() === column.trim().toLowerCase())
  if (column.trim() === '' || index === -1) {
    const known = names.map((name) => `"${name.trim()}"`).join(', ')
    throw commandLineError(`"${map}" names no column of the file: ${known}. Write --map COLUMN=FIELD.`)
  }
  const name = field.trim().toLowerCase()
  if (name === '-') return [index, null]
  const found = fieldNames.find((each) => each === name)
  if (found !== undefined) return [index, found]
  const all = fieldNames.join(', ')
  throw commandLineError(`"${map}" names no field. Write one of ${all}, or - to leave the column out.`)
}

function wordsOf(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

function isOwnName(name: Field, words: string): boolean {
  return name === words.replaceAll(' ', '_')
}

function isOtherName(name: Field, words: string): boolean {
  return fields[name].headings.includes(words)
}

/** Reads the cells of a row.
 * @throws RowError for the first that cannot be read */
export function valuesOf({ cells }: Row, { taken }: Columns): Values {
  const cellOf = (name: Field) => {
    const text = cellText(cells[taken.get(name) ?? -1] ?? '')
    try {
      return text === '' ? null : fields[name].read(text)
    } catch (error) {
      throw error instanceof RowError ? new RowError(error.message, name) : error
    }
  }
  return Object.fromEntries(fieldNames.map((name) => [name, cellOf(name)])) as Values
}

/** Removes the apostrophe that keeps a spreadsheet from reading a cell as a formula. */
export function cellText(cell: string): string {
  return cell.replace(/^'(?=[=+\-@\t\r＝＋－＠])/, '').trim()
}

/* Readers for cells that are not empty. Each returns the value, or throws what is wrong with it. */

function invalid(what: string, text: string, expected: string): RowError {
  return new RowError(`Invalid ${what} "${text}": expected ${expected}`)
}

function ambiguous(text: string, meant: readonly string[]): RowError {
  return new RowError(`"${text}" can be read in two ways: write ${meant.join(' or ')}`)
}

/** A number; a decimal comma counts as a point, but 1,000 is ambiguous and refused.
 * @param scale the factor to the unit of the value */
function number(what: string, from: number, to: number, scale = 1): (text: string) => number {
  return (text) => {
    const parts = /^(\d{1,12})(?:([.,])(\d{1,20}))?$/.exec(text)
    if (parts?.[2] === ',' && parts[3]?.length === 3)
      throw ambiguous(text, [`${parts[1]}${parts[3]}`, `${parts[1]}.${parts[3]}`])
    const value = parts === null ? Number.NaN : Number(`${parts[1]}.${parts[3] ?? '0'}`)
    if (value >= from && value <= to) return value * scale
    throw invalid(what, text, `a number from ${from} to ${to}`)
  }
}

function whole(what: string, from: number, to: number) {
  return multiples(1, what, from, to, 'a whole number')
}

function halves(what: string, from: number, to: number) {
  return multiples(0.5, what, from, to, `halves from ${from} to ${to}`)
}

/** A number that must be a multiple of a step. @param expected the valid numbers in words */
function multiples(step: number, what: string, from: number, to: number, expected: string) {
  const read = number(what, from, to)
  return (text: string): number => {
    const value = read(text)
    if (Number.isInteger(value / step)) return value
    throw invalid(what, text, expected)
  }
}

function oneOf<const T extends string>(what: string, allowed: readonly T[]): (text: string) => T {
  return (text) => {
    const found = allowed.find((each) => each === text.toLowerCase())
    if (found !== undefined) return found
    throw invalid(what, text, inSentence(allowed, 'or'))
  }
}

/** A local date, also from a date with a time. */
function readDate(text: string): string {
  const date = /^(\d{4}-\d{2}-\d{2})(?:[T ].*)?$/.exec(text)?.[1] ?? ''
  if (isCalendarDate(date) && date >= '1970') return date
  const meant = datesMeant(text)
  throw meant.length > 1
    ? ambiguous(text, meant)
    : invalid('date', text, `a date as in ${meant[0] ?? '2026-11-26'}`)
}

/** The dates that a day and a month in either order before a year may mean. */
function datesMeant(text: string): string[] {
  const [, one = '', other = '', year] = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(text) ?? []
  const dates = [
    [other, one],
    [one, other],
  ].map(([month = '', day = '']) => `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`)
  return [...new Set(dates)].filter(isCalendarDate)
}

function readReps(text: string): number {
  if (Number.isNaN(Number(text)) && readDuration(text) !== null)
    throw new RowError(
      `"${text}" is a time, not a number of repetitions: give a column of times with --map COLUMN=time`,
    )
  return whole('number of repetitions', 0, mostReps)(text)
}

/** Null for what export does not write. */
function readOwnNumber(text: string): number | null {
  return /^[1-9]\d{0,2}$/.test(text) ? Number(text) : null
}

/** Seconds, and the value of the last digit typed. */
function readTime(text: string): { seconds: number; precision: number } {
  const plain = /^\d{1,6}([.,]\d{1,3})?$/.test(text) ? `${text.replace(',', '.')} s` : text.replace(',', '.')
  const seconds = readDuration(plain)
  if (seconds === null || seconds > 7 * 24 * 3600) throw invalid('time', text, 'seconds, m:ss or h:mm:ss')
  return { seconds, precision: precisionOf(plain) }
}

/** Metres of a length with its unit. */
function readDistance(text: string): number {
  const length = readLength(text)
  if (length !== null) return metersOf(length)
  throw new RowError(
    `Distance "${text}" has no unit: write it as in 500 m, or give it with --map COLUMN=meters, km or mi`,
  )
}

function readFailed(text: string): boolean {
  if (/^(yes|true|1|x)$/i.test(text)) return true
  if (/^(no|false|0)$/i.test(text)) return false
  throw new RowError(`"${text}" does not say whether a repetition failed: expected yes or no`)
}

/** Repetitions of each group of a cluster set: `2+2`. */
function readGroups(text: string): number[] {
  if (/^\d{1,3}( ?\+ ?\d{1,3}){0,30}$/.test(text)) return text.split('+').map(Number)
  throw invalid('groups', text, 'repetitions, as in 2+2')
}

function readUnit(text: string): MassUnit {
  const unit = text.toLowerCase().replace(/s$/, '')
  if (unit === 'kg' || unit === 'lb') return unit
  throw invalid('unit of a load', text, 'kg or lb')
}

/** A mass, with a decimal comma or point; null for 1,000, which is ambiguous. */
export function readMassCell(text: string, unit: MassUnit): ReturnType<typeof readMass> {
  return /^\d+,\d{3}(?!\d)/.test(text) ? null : readMass(text.replace(',', '.'), unit)
}
