import { type CsvError, parse } from 'csv-parse/sync'
import { greatest } from 'd3-array'
import { type Diagnostic, errorIn, shownOf } from '../prescription/lines.ts'
import { heartRates } from '../session/entry/effort.ts'
import { farthest } from '../session/entry/interval.ts'
import { precisionOf } from '../session/entry/lex.ts'
import { mostReps } from '../session/entry/set.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { readDuration } from '../units/duration.ts'
import { metersOf, readLength } from '../units/length.ts'
import { inSentence } from '../units/lists.ts'
import type { MassUnit } from '../units/model.ts'
import { massUnitOf } from '../units/words.ts'
import { CommandError, commandLineError } from './command.ts'

export interface Row {
  cells: string[]
  /** The line of the file on which it ends, from 1. */
  line: number
  /** As it is in the file. */
  raw: string
}

export interface Table {
  names: string[]
  rows: Row[]
}

/** Reads CSV (RFC 4180) separated by commas, semicolons or tabs, whichever is most frequent in the first line. Empty
 * rows are left out.
 * @throws CommandError `bad_csv` for unclosed quotes */
export function readTable(text: string): Table {
  if (text.trimStart().startsWith('{'))
    throw new CommandError(
      'bad_csv',
      'These are lines of JSON, not a table. Write a table with "pausebook export --format csv", or move a whole logbook with "pausebook backup" and "pausebook restore".',
    )
  let records: { record: string[]; raw: string; info: { lines: number } }[]
  try {
    records = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      info: true,
      raw: true,
      // valuesOf reports each of these rows.
      relax_column_count: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      trim: true,
    }) as unknown as typeof records
  } catch (error) {
    const { code, lines, raw } = error as CsvError & { lines: number; raw: string }
    if (typeof code !== 'string') throw error
    // A quote that is never closed is noticed at the end of the file, with all that it has swallowed.
    const line = code === 'CSV_QUOTE_NOT_CLOSED' ? linesIn(text.slice(0, -raw.length)) : lines
    const message = `The table cannot be read from line ${line} on: a quote in it is not closed or is out of place. Nothing was stored; correct the file.`
    throw new CommandError('bad_csv', message)
  }
  const [head, ...rows] = records
  if (head === undefined || rows.length === 0) {
    const message =
      'The table has no rows. Give a CSV file with headings in its first line and a set or a split on each line below.'
    throw new CommandError('bad_csv', message)
  }
  return {
    names: head.record,
    rows: rows.map(({ record, raw, info }) => ({ cells: record, raw: raw.trimEnd(), line: info.lines })),
  }
}

function linesIn(text: string): number {
  return text.split(/\r\n|\n|\r/).length
}

function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r?\n/, 1)
  return greatest([',', ';', '\t'], (delimiter) => first.split(delimiter).length)!
}

/** The diagnostic for a bad row, which shows the row as it is in the file. */
export function problemIn({ line, raw }: Row, message: string): Diagnostic {
  const shown = /[\r\n]/.test(raw) ? '' : shownOf(raw)
  return errorIn({ number: line, shown }, 0, shown.length, message)
}

export class RowError extends Error {
  override name = 'RowError'
  /** Null for the row that is being read. */
  readonly row: Row | null
  constructor(message: string, row: Row | null = null) {
    super(message)
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
const mostSetsInARow = 50
const heartRate = number('heart rate', heartRates.from, heartRates.to, 1)

/** The fields a column can hold. */
const fields = {
  date: field(readDate, 'day'),
  session: field(verbatim, 'session id'),
  title: field(verbatim, 'session title', 'name of the day'),
  part: field(verbatim),
  exercise: field(verbatim, 'lift', 'movement'),
  reps: field(number('number of repetitions', 0, mostReps, 1), 'rep', 'repetitions'),
  groups: field(readGroups),
  sets: field(number('number of sets', 1, mostSetsInARow, 1), 'number of sets'),
  side: field(oneOf('side', ['each side', 'each arm', 'each leg']), 'sides'),
  load: field(verbatim, 'weight'),
  kg: field(verbatim, 'load kg', 'weight kg', 'kilograms'),
  lb: field(verbatim, 'load lb', 'weight lb', 'load lbs', 'weight lbs', 'lbs', 'pounds'),
  unit: field(readUnit, 'units', 'load unit', 'weight unit'),
  load_kind: field(oneOf('kind of load', ['mass', 'pair', 'bodyweight', 'assisted'])),
  time: field(readTime, 'seconds', 's', 'duration', 'split', 'time s'),
  distance: field(meters()),
  meters: field(meters('m'), 'm', 'metres', 'distance m'),
  km: field(meters('km'), 'kilometers', 'kilometres', 'distance km'),
  mi: field(meters('mi'), 'mile', 'miles', 'distance mi'),
  heart_rate: field(heartRate, 'hr', 'average heart rate', 'average hr', 'avg hr'),
  heart_rate_max: field(heartRate, 'max hr', 'hr max', 'max heart rate'),
  rpe: field(number('RPE', 1, 10, 0.5)),
  rir: field(number('number of repetitions in reserve', 0, 9, 0.5)),
  failed: field(readFailed),
  note: field(verbatim, 'notes', 'comment', 'comments', 'remark'),
  pain: field(verbatim),
}

export type Field = keyof typeof fields

const fieldNames = Object.keys(fields) as Field[]

/** The values of a row; null for an empty cell and for a field without a column. */
export type Values = { [F in Field]: ReturnType<(typeof fields)[F]['read']> | null }

/** Decides which field each column holds, a field at most one; null for an unused column.
 * @param names the headings; @param maps `column=field` as the user wrote them, `column=-` for a column to leave out
 * @throws CommandError for a map that names no column or no field */
export function columnsOf(names: readonly string[], maps: readonly string[]): (Field | null)[] {
  const mappings = new Map(maps.map((map) => mapped(map, names)))
  const plain = names.map((name, index) => (mappings.has(index) ? null : plainWords(name)))
  const columns = names.map((_, index) => mappings.get(index) ?? null)
  for (const name of fieldNames) {
    // The likeliest heading first: of the columns split and time, time is the time.
    const known = [plainWords(name), ...fields[name].headings]
    const index = known.map((heading) => plain.indexOf(heading)).find((found) => found !== -1)
    if (index !== undefined && !columns.includes(name)) columns[index] = name
  }
  return columns
}

function plainWords(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
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

/** Reads the cells of a row.
 * @throws RowError for the first that cannot be read, and for more or fewer cells than headings */
export function valuesOf({ cells }: Row, columns: readonly (Field | null)[]): Values {
  if (cells.length !== columns.length)
    throw new RowError(
      `the row has ${counted(cells.length, 'cell')} under ${counted(columns.length, 'heading')}: put quotes around a cell with a separator in it, and leave no cell out`,
    )
  const cellOf = (name: Field) => {
    const text = cellText(cells[columns.indexOf(name)] ?? '')
    return text === '' ? null : fields[name].read(text)
  }
  return Object.fromEntries(fieldNames.map((name) => [name, cellOf(name)])) as Values
}

/** Removes the apostrophe that keeps a spreadsheet from reading a cell as a formula. */
function cellText(cell: string): string {
  return cell.replace(/^'(?=[=+\-@\t\r＝＋－＠])/, '').trim()
}

/* Readers for cells that are not empty. Each returns the value, or throws what is wrong with it. */

export function invalidCell(what: string, text: string, expected: string): RowError {
  return new RowError(`Invalid ${what} "${text}": expected ${expected}`)
}

/** A number with a decimal point for a decimal comma; 1,000 is ambiguous and refused. */
export function withPoint(text: string): string {
  const [, whole, thousandth] = /^(\d+),(\d{3})(?!\d)/.exec(text) ?? []
  if (whole === undefined) return text.replace(',', '.')
  throw new RowError(
    `"${text}" can be read in two ways: write ${whole}${thousandth} or ${whole}.${thousandth}`,
  )
}

/** @param step 1, or 0.5 for halves */
function number(what: string, from: number, to: number, step: 1 | 0.5) {
  return (text: string): number => {
    const value = /^\d{1,4}([.,]\d+)?$/.test(text) ? Number(withPoint(text)) : Number.NaN
    if (value >= from && value <= to && Number.isInteger(value / step)) return value
    throw invalidCell(what, text, `${step === 1 ? 'a whole number' : 'halves'} from ${from} to ${to}`)
  }
}

function oneOf<const T extends string>(what: string, allowed: readonly T[]): (text: string) => T {
  return (text) => {
    const found = allowed.find((each) => each === text.toLowerCase())
    if (found !== undefined) return found
    throw invalidCell(what, text, inSentence(allowed, 'or'))
  }
}

/** A local date, also from a date with a time. With dots the day is first; with slashes it may be second, so those are
 * refused. */
function readDate(text: string): string {
  const [, day = '', month = '', year] = /^(\d\d?)\.(\d\d?)\.(\d{4})(?=$| )/.exec(text) ?? []
  const dotted = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  const [date = dotted] = /^\d{4}-\d{2}-\d{2}(?=$|[T ])/.exec(text) ?? []
  if (isCalendarDate(date) && date >= '1970') return date
  throw invalidCell('date', text, 'a date as in 2026-11-26 or 26.11.2026')
}

/** Seconds, and the value of the last digit typed. */
function readTime(text: string): { seconds: number; precision: number } {
  const plain = /^\d{1,6}([.,]\d{1,3})?$/.test(text) ? `${text.replace(',', '.')} s` : text.replace(',', '.')
  const seconds = readDuration(plain)
  if (seconds === null || seconds > 7 * 24 * 3600) throw invalidCell('time', text, 'seconds, m:ss or h:mm:ss')
  return { seconds, precision: precisionOf(plain) }
}

/** Metres of a length. @param unit of a bare number */
function meters(unit?: 'm' | 'km' | 'mi') {
  return (text: string): number => {
    const plain = withPoint(text)
    const length = readLength(unit !== undefined && /\d$/.test(plain) ? `${plain} ${unit}` : plain)
    if (length !== null && metersOf(length) <= farthest) return metersOf(length)
    throw invalidCell(
      'distance',
      text,
      unit === undefined
        ? 'one with its unit, as in 500 m; or give it with --map COLUMN=meters, km or mi'
        : `up to 1000 km, as in 5 or 5 ${unit}`,
    )
  }
}

function readFailed(text: string): boolean {
  if (/^(yes|true|1|x)$/i.test(text)) return true
  if (/^(no|false|0)$/i.test(text)) return false
  throw new RowError(`"${text}" does not say whether a repetition failed: expected yes or no`)
}

/** Repetitions of each group of a cluster set: `2+2`. Null for exported rounds, whose repetitions are in the rows of
 * their stations. */
function readGroups(text: string): number[] | null {
  if (/^\d+ rounds \+ \d+$/.test(text)) return null
  if (/^\d{1,3}( ?\+ ?\d{1,3}){0,30}$/.test(text)) return text.split('+').map(Number)
  throw invalidCell('groups', text, 'repetitions, as in 2+2')
}

function readUnit(text: string): MassUnit {
  const unit = massUnitOf(text)
  if (unit !== null) return unit
  throw invalidCell('unit of a load', text, 'kg or lb')
}
