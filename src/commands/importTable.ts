import { type CsvError, parse } from 'csv-parse/sync'
import { greatest } from 'd3-array'
import type { LiftedLoad } from '../session/model.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { readDuration } from '../units/duration.ts'
import { metersOf, readLength } from '../units/length.ts'
import { kilogramsOf, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { CommandError, commandLineError } from './command.ts'

/** A table: its headings, and for each row the line of the file on which it ends. */
export interface Table {
  names: string[]
  rows: { cells: string[]; line: number }[]
}

/** Reads CSV (RFC 4180) separated by commas, semicolons or tabs, whichever is most frequent in the first line. Empty
 * rows are left out.
 * @throws CommandError `bad_csv` for unclosed quotes and for rows longer or shorter than the headings */
export function readTable(text: string): Table {
  let records: { record: string[]; info: { lines: number } }[]
  try {
    records = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      info: true,
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
        : 'a quote is not closed, or is where no quote can be'
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
    rows: rows
      .map(({ record, info }) => ({ cells: record, line: info.lines }))
      .filter(({ cells }) => cells.some((cell) => cell !== '')),
  }
}

function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r?\n/, 1)
  return greatest([',', ';', '\t'], (delimiter) => first.split(delimiter).length)!
}

/** The fields a column can hold, with the headings they go by (in lower case, punctuation as spaces) besides their own
 * name. */
const headings = {
  date: ['day'],
  session: ['session id'],
  title: ['session title', 'name of the day'],
  part: [],
  exercise: ['lift', 'movement'],
  reps: ['rep', 'repetitions'],
  groups: [],
  sets: ['number of sets'],
  side: ['sides'],
  load: ['weight'],
  kg: ['load kg', 'weight kg', 'kilograms'],
  lb: ['load lb', 'weight lb', 'load lbs', 'weight lbs', 'lbs', 'pounds'],
  unit: ['units', 'load unit', 'weight unit'],
  load_kind: [],
  time: ['seconds', 's', 'duration', 'split', 'time s'],
  distance: [],
  meters: ['m', 'metres', 'distance m'],
  km: ['kilometers', 'kilometres', 'distance km'],
  mi: ['mile', 'miles', 'distance mi'],
  heart_rate: ['hr', 'average heart rate', 'average hr', 'avg hr'],
  heart_rate_max: ['max hr', 'hr max', 'max heart rate'],
  rpe: [],
  rir: [],
  failed: [],
  note: ['notes', 'comment', 'comments', 'remark'],
  pain: [],
} as const satisfies Record<string, readonly string[]>

export type Field = keyof typeof headings

const fields = Object.keys(headings) as Field[]

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
  const said = new Map(maps.map((map) => mapped(map, names)))
  const taken = new Map<Field, number>()
  for (const [index, field] of said) if (field !== null) taken.set(field, index)
  // A field's own name goes before its other words: of the columns split and time, time is the time.
  for (const find of [ownFieldOf, otherFieldOf])
    names.forEach((name, index) => {
      const field = said.has(index) || [...taken.values()].includes(index) ? null : find(wordsOf(name))
      if (field !== null && !taken.has(field)) taken.set(field, index)
    })
  // The load as typed has its unit, so it takes precedence over kilograms.
  if (taken.has('load') && !said.has(taken.get('kg') ?? -1)) taken.delete('kg')
  const used = new Set(taken.values())
  const inOrder = new Map([...taken].sort(([, one], [, other]) => one - other))
  return { taken: inOrder, unused: names.flatMap((_, index) => (used.has(index) ? [] : [index])) }
}

function mapped(map: string, names: readonly string[]): [number, Field | null] {
  const [, column = '', field = ''] = /^(.*)=\s*([^=]*)$/s.exec(map) ?? []
  const index = names.findIndex((name) => name.trim().toLowerCase() === column.trim().toLowerCase())
  if (column.trim() === '' || index === -1) {
    const known = names.map((name) => `"${name.trim()}"`).join(', ')
    throw wrong(map, `names no column of the file: ${known}. Write --map COLUMN=FIELD`)
  }
  const name = field.trim().toLowerCase()
  if (name === '-') return [index, null]
  const found = fields.find((each) => each === name)
  if (found !== undefined) return [index, found]
  throw wrong(map, `names no field. Write one of ${fields.join(', ')}, or - to leave the column out`)
}

function wrong(map: string, why: string): CommandError {
  return commandLineError(`"${map}" ${why}.`)
}

function wordsOf(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
}

function ownFieldOf(words: string): Field | null {
  return fields.find((field) => field === words.replaceAll(' ', '_')) ?? null
}

function otherFieldOf(words: string): Field | null {
  return fields.find((field) => headings[field].some((each) => each === words)) ?? null
}

/* Readers for cells. Each returns the value or throws a BadCell that says what was expected. */

export class BadCell extends Error {
  override name = 'BadCell'
}

/** Removes the apostrophe that keeps a spreadsheet from reading a cell as a formula. */
export function cellText(cell: string): string {
  return cell.replace(/^'(?=[=+\-@\t\r＝＋－＠])/, '').trim()
}

/** Reads a number; a decimal comma counts as a point, but 1,000 is ambiguous and refused. */
export function readNumber(text: string, what: string, from: number, to: number): number {
  const parts = /^(\d{1,12})(?:([.,])(\d{1,12}))?$/.exec(text)
  if (parts?.[2] === ',' && parts[3]?.length === 3)
    throw new BadCell(
      `"${text}" can be read in two ways: write ${parts[1]}${parts[3]} or ${parts[1]}.${parts[3]}`,
    )
  const value = parts === null ? Number.NaN : Number(`${parts[1]}.${parts[3] ?? '0'}`)
  if (value >= from && value <= to) return value
  throw new BadCell(`Invalid ${what} "${text}": expected a number from ${from} to ${to}`)
}

export function readWhole(text: string, what: string, from: number, to: number): number {
  const value = readNumber(text, what, from, to)
  if (Number.isInteger(value)) return value
  throw new BadCell(`Invalid ${what} "${text}": expected a whole number`)
}

/** Reads a local date, also from a date with a time. */
export function readDate(text: string): string {
  const date = /^(\d{4}-\d{2}-\d{2})(?:[T ].*)?$/.exec(text)?.[1] ?? ''
  if (isCalendarDate(date) && date >= '1970') return date
  const meant = datesMeant(text)
  throw new BadCell(
    meant.length > 1
      ? `"${text}" can be read in two ways: write ${meant.join(' or ')}`
      : `Invalid date "${text}": expected a date as in ${meant[0] ?? '2026-11-26'}`,
  )
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

/** As in what is typed, where more is asked about. */
const mostReps = 100

export function readReps(text: string): number {
  if (Number.isNaN(Number(text)) && readDuration(text) !== null)
    throw new BadCell(
      `"${text}" is a time, not a number of repetitions: give a column of times with --map COLUMN=time`,
    )
  return readWhole(text, 'number of repetitions', 0, mostReps)
}

/** Seconds, and the value of the last digit typed. */
export function readTime(text: string): { seconds: number; precision: number } {
  const plain = /^\d{1,6}([.,]\d{1,3})?$/.test(text) ? `${text.replace(',', '.')} s` : text.replace(',', '.')
  const seconds = readDuration(plain)
  if (seconds === null || seconds > 7 * 24 * 3600)
    throw new BadCell(`Invalid time "${text}": expected seconds, m:ss or h:mm:ss`)
  const digits = /\.(\d+)/.exec(plain)?.[1]?.length ?? 0
  return { seconds, precision: digits === 0 ? 1 : digits === 1 ? 0.1 : 0.01 }
}

/** Metres of a length with its unit. */
export function readDistance(text: string): number {
  const length = readLength(text)
  if (length !== null) return metersOf(length)
  throw new BadCell(
    `Distance "${text}" has no unit: write it as in 500 m, or give it with --map COLUMN=meters, km or mi`,
  )
}

/** Effort from 1 to 10, in halves. */
export function readRpe(text: string): number {
  const value = readNumber(text, 'RPE', 1, 10)
  if (Number.isInteger(value * 2)) return value
  throw new BadCell(`Invalid RPE "${text}": expected halves from 1 to 10`)
}

export function readFailed(text: string): boolean {
  if (/^(yes|true|1|x)$/i.test(text)) return true
  if (/^(no|false|0|)$/i.test(text)) return false
  throw new BadCell(`"${text}" does not say whether a repetition was failed: yes or no is expected`)
}

export function readSide(text: string): 'each side' | 'each arm' | 'each leg' | null {
  const found = (['each side', 'each arm', 'each leg'] as const).find((side) => side === text.toLowerCase())
  if (found !== undefined) return found
  if (text === '') return null
  throw new BadCell(`Invalid side "${text}": expected each side, each arm or each leg`)
}

/** Repetitions of each group of a cluster set: `2+2`. */
export function readGroups(text: string): number[] {
  if (/^\d{1,3}( ?\+ ?\d{1,3}){0,30}$/.test(text)) return text.split('+').map(Number)
  throw new BadCell(`Invalid groups "${text}": expected repetitions, as in 2+2`)
}

/** As in what is typed, where more is asked about. */
const mostKg = 500

/** A load; null without one. `bw` and `bodyweight+10 kg` are bodyweight and what was added.
 * @param unit of a number without one; @param kind as the column load_kind has it, empty without */
export function readLoad(text: string, unit: MassUnit, kind: string): LiftedLoad | null {
  const parts = /^(?:bw|bodyweight)(?: ?([+-]) ?(.+))?$/i.exec(text)
  if (parts !== null) {
    const added = parts[2] === undefined ? { value: 0, unit } : massOf(parts[2], unit)
    return { kind: 'bodyweight', added: parts[1] === '-' ? -added.value : added.value, unit: added.unit }
  }
  const isNone = text === '' || /^0([.,]0+)?$/.test(text)
  if (isNone && kind === 'bodyweight') return { kind: 'bodyweight', added: 0, unit }
  if (isNone) return null
  const mass = massOf(text, unit)
  switch (kind.toLowerCase()) {
    case '':
    case 'mass':
      return { kind: 'mass', ...mass, pair: false }
    case 'pair':
      return { kind: 'mass', ...mass, pair: true }
    case 'bodyweight':
      return { kind: 'bodyweight', added: mass.value, unit: mass.unit }
    case 'assisted':
      return { kind: 'bodyweight', added: -mass.value, unit: mass.unit }
    default:
      throw new BadCell(`Invalid kind of load "${kind}": expected mass, pair, bodyweight or assisted`)
  }
}

function massOf(text: string, unit: MassUnit): { value: number; unit: MassUnit } {
  const mass = /^\d+,\d{3}(?!\d)/.test(text) ? null : readMass(text.replace(',', '.'), unit)
  if (mass !== null && kilogramsOf(mass) <= mostKg) return mass
  if (/^[+-] ?\d/.test(text))
    throw new BadCell(
      `Invalid load "${text}": of a load on the body, or of help, write bodyweight${text[0]}${text.slice(1).trim()}`,
    )
  throw new BadCell(`Invalid load "${text}": expected a mass up to ${mostKg} kg, as in 92.5 or 92.5 kg`)
}

export function readUnit(text: string): MassUnit {
  const unit = text.toLowerCase().replace(/s$/, '')
  if (unit === 'kg' || unit === 'lb') return unit
  throw new BadCell(`Invalid unit of a load "${text}": expected kg or lb`)
}
