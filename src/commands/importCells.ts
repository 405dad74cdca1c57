import type { LiftedLoad } from '../session/result.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { readDuration } from '../units/duration.ts'
import { metersOf, readLength } from '../units/length.ts'
import { kilogramsOf, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/* Cells of a table from elsewhere. Each reader gives back the value, or throws a BadCell that says what was expected. */

export class BadCell extends Error {
  override name = 'BadCell'
}

/** A cell without what guards it against being taken for a formula. */
export function cellText(cell: string): string {
  return cell.replace(/^'(?=[=+\-@\t\r＝＋－＠])/, '').trim()
}

/** A number of a cell; a decimal comma is read as a point, but 1,000 could be either and is refused. */
export function readNumber(text: string, what: string, from: number, to: number): number {
  const parts = /^(\d{1,12})(?:([.,])(\d{1,12}))?$/.exec(text)
  if (parts?.[2] === ',' && parts[3]?.length === 3)
    throw new BadCell(
      `"${text}" can be read in two ways: write ${parts[1]}${parts[3]} or ${parts[1]}.${parts[3]}`,
    )
  const value = parts === null ? Number.NaN : Number(`${parts[1]}.${parts[3] ?? '0'}`)
  if (value >= from && value <= to) return value
  throw new BadCell(`"${text}" is no ${what}: a number from ${from} to ${to} is expected`)
}

export function readWhole(text: string, what: string, from: number, to: number): number {
  const value = readNumber(text, what, from, to)
  if (Number.isInteger(value)) return value
  throw new BadCell(`"${text}" is no ${what}: a whole number is expected`)
}

/** A local date; of a date with a time the date is taken. */
export function readDate(text: string): string {
  const date = /^(\d{4}-\d{2}-\d{2})(?:[T ].*)?$/.exec(text)?.[1] ?? ''
  if (isCalendarDate(date) && date >= '1970') return date
  throw new BadCell(`"${text}" is no date: write it as in 2026-11-26`)
}

/** Seconds, and the value of the last digit typed. */
export function readTime(text: string): { seconds: number; precision: number } {
  const plain = /^\d{1,6}([.,]\d{1,3})?$/.test(text) ? `${text.replace(',', '.')} s` : text.replace(',', '.')
  const seconds = readDuration(plain)
  if (seconds === null || seconds > 7 * 24 * 3600)
    throw new BadCell(`"${text}" is no time: seconds, m:ss or h:mm:ss is expected`)
  const digits = /\.(\d+)/.exec(plain)?.[1]?.length ?? 0
  return { seconds, precision: digits === 0 ? 1 : digits === 1 ? 0.1 : 0.01 }
}

/** Metres of a length with its unit. */
export function readDistance(text: string): number {
  const length = readLength(text)
  if (length !== null) return metersOf(length)
  throw new BadCell(
    `"${text}" is no distance with a unit, as in 500 m: write the unit, or say it with --map COLUMN=meters, km or mi`,
  )
}

/** Effort from 1 to 10, in halves. */
export function readRpe(text: string): number {
  const value = readNumber(text, 'RPE', 1, 10)
  if (Number.isInteger(value * 2)) return value
  throw new BadCell(`"${text}" is no RPE: halves from 1 to 10 are expected`)
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
  throw new BadCell(`"${text}" is no side: each side, each arm or each leg is expected`)
}

/** Repetitions of each group of a cluster set: `2+2`. */
export function readGroups(text: string): number[] {
  if (/^\d{1,3}( ?\+ ?\d{1,3}){0,30}$/.test(text)) return text.split('+').map(Number)
  throw new BadCell(`"${text}" are no groups of a set: repetitions as in 2+2 are expected`)
}

const mostKg = 1000

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
      throw new BadCell(`"${kind}" is no kind of load: mass, pair, bodyweight or assisted is expected`)
  }
}

function massOf(text: string, unit: MassUnit): { value: number; unit: MassUnit } {
  const mass = /^\d+,\d{3}(?!\d)/.test(text) ? null : readMass(text.replace(',', '.'), unit)
  if (mass !== null && kilogramsOf(mass) <= mostKg) return mass
  throw new BadCell(`"${text}" is no load: a mass up to ${mostKg} kg is expected, as in 92.5 or 92.5 kg`)
}

export function readUnit(text: string): MassUnit {
  const unit = text.toLowerCase().replace(/s$/, '')
  if (unit === 'kg' || unit === 'lb') return unit
  throw new BadCell(`"${text}" is no unit of a load: kg or lb is expected`)
}
