import { group, sum } from 'd3-array'
import { expand } from '../prescription/expand.ts'
import { nothingInherited } from '../prescription/expandRun.ts'
import type { Dose, LiftItem, Load, Part, Prescription, RunItem, Side } from '../prescription/model.ts'
import { speedLimits } from '../prescription/plausible.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import { recordedEvent } from '../session/advance.ts'
import type { IntervalResult, LiftedLoad, SessionEvent, SetResult } from '../session/model.ts'
import { metersIn } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import {
  BadCell,
  type Columns,
  cellText,
  type Field,
  readDate,
  readDistance,
  readFailed,
  readGroups,
  readLoad,
  readNumber,
  readReps,
  readRpe,
  readSide,
  readTime,
  readUnit,
  readWhole,
} from './importTable.ts'

interface Place {
  /** Line in the file, counted from 1. */
  line: number
  /** Rows of one session have the same. */
  session: string
  date: string
  title: string | null
  part: string | null
}

/** One performed set, and the prescription it would have fulfilled. */
interface SetRow extends Place {
  kind: 'set'
  exercise: string
  side: Side | null
  dose: Dose
  load: Load | null
  result: SetResult
}

interface SplitRow extends Place {
  kind: 'split'
  meters: number | null
  seconds: number | null
  result: IntervalResult
}

const mostMeters = 1_000_000
const mostSetsInARow = 50

/** A row of a table as a split, a set, or as many equal sets as its column `sets` says.
 * @throws BadCell */
export function rowsOf(
  cells: readonly string[],
  line: number,
  columns: Columns,
  unit: MassUnit,
): ImportedRow[] {
  const row = rowOf(cells, line, columns, unit)
  const sets = cellText(cells[columns.taken.get('sets') ?? -1] ?? '')
  if (row.kind === 'split' || sets === '') return [row]
  const count = readWhole(sets, 'number of sets', 1, mostSetsInARow)
  return Array.from({ length: count }, () => row)
}

function rowOf(
  cells: readonly string[],
  line: number,
  { taken }: Columns,
  unit: MassUnit,
): SetRow | SplitRow {
  const cell = (field: Field) => cellText(cells[taken.get(field) ?? -1] ?? '')
  const row: Row = {
    cell,
    optional: (field, read) => (cell(field) === '' ? null : read(cell(field))),
  }
  const date = row.optional('date', readDate)
  if (date === null) throw new BadCell('the date is missing')
  const title = cell('title') || null
  const session = cell('session') || `${date} ${title ?? ''}`
  const place = { line, session, date, title, part: cell('part') || null }
  return { ...place, ...(taken.has('exercise') ? setOf(row, unit) : splitOf(row)) }
}

/** The cells of a row. */
interface Row {
  /** Empty if the column or its value is missing. */
  cell(field: Field): string
  /** Null for an empty cell. */
  optional<T>(field: Field, read: (text: string) => T): T | null
}

function splitOf(row: Row): Omit<SplitRow, keyof Place> {
  const { optional } = row
  const meters = metersOf(row)
  const { seconds, precision } = optional('time', readTime) ?? { seconds: null, precision: null }
  if (meters === null && seconds === null) throw new BadCell('neither a distance nor a time is there')
  if (meters !== null && seconds !== null) {
    const { slow, fast } = speedLimits(/^cross\b/i.test(row.cell('part')) ? 'cross' : 'run', meters)
    const speed = `${Number(meters.toFixed(1))} m in ${seconds} s`
    if (meters / seconds > fast)
      throw new BadCell(`${speed} is faster than any human: is a column in another unit?`)
    if (meters / seconds < slow)
      throw new BadCell(`${speed} is slower than a walk: is a column in another unit?`)
  }
  const heart = (field: Field) => optional(field, (text) => readWhole(text, 'heart rate', 30, 250))
  const result: IntervalResult = {
    meters,
    seconds,
    precision,
    heartRate: heart('heart_rate'),
    heartRateMax: heart('heart_rate_max'),
    byKey: false,
    ...remarksOf(row),
  }
  return { kind: 'split', meters, seconds, result }
}

function setOf(row: Row, usualUnit: MassUnit): Omit<SetRow, keyof Place> {
  const { cell, optional } = row
  const exercise = cell('exercise')
  if (exercise === '') throw new BadCell('the exercise is missing')
  const groups = optional('groups', readGroups)
  const counted = optional('reps', readReps)
  const reps = groups === null ? counted : sum(groups)
  if (counted !== null && counted !== reps)
    throw new BadCell(`${counted} repetitions are not the ${reps} of the groups ${groups?.join('+')}`)
  const amount = amountOf(groups, reps, optional('time', readTime)?.seconds ?? null, metersOf(row))
  const unit = optional('unit', readUnit) ?? usualUnit
  const masses = [
    optional('kg', (text) => readLoad(text, 'kg', cell('load_kind'))),
    optional('lb', (text) => readLoad(text, 'lb', cell('load_kind'))),
  ].filter((mass) => mass !== null)
  const inKg = masses.map((mass) =>
    kilogramsOf({ value: mass.kind === 'mass' ? mass.value : mass.added, unit: mass.unit }),
  )
  if (differ(inKg)) throw new BadCell(`${cell('kg')} kg are not ${cell('lb')} lb: leave one of them out`)
  const load = masses[0] ?? readLoad(cell('load'), unit, cell('load_kind'))
  return {
    kind: 'set',
    exercise,
    side: readSide(cell('side')),
    dose: amount.dose,
    load: load?.kind === 'mass' ? prescribedMass(load) : load,
    result: { ...amount.done, load, failed: readFailed(cell('failed')), ...remarksOf(row) },
  }
}

/** Metres; null if the row has no distance. */
function metersOf({ optional }: Row): number | null {
  const lengths = [
    optional('distance', readDistance),
    optional('meters', (text) => readNumber(text, 'distance in metres', 0.1, mostMeters)),
    optional('km', (text) => readNumber(text, 'distance in km', 0.001, 1000) * 1000),
    optional('mi', (text) => readNumber(text, 'distance in miles', 0.001, 1000) * metersIn.mi),
  ].filter((meters) => meters !== null)
  if (differ(lengths)) {
    const shown = lengths.map((meters) => `${Number(meters.toFixed(1))} m`).join(' and ')
    throw new BadCell(`the row has several distances, ${shown}: leave all but one of them out`)
  }
  return lengths[0] ?? null
}

/** Whether the same amount in several units is not the same by more than their rounding, 2 %. */
function differ(amounts: readonly number[]): boolean {
  return (
    amounts.length > 1 &&
    Math.max(...amounts) - Math.min(...amounts) > 0.02 * Math.max(...amounts.map(Math.abs))
  )
}

function remarksOf({ cell, optional }: Row): Pick<SetResult, 'rpe' | 'note' | 'pain'> {
  const rir = optional('rir', readReserve)
  const rpe = optional('rpe', readRpe)
  if (rir !== null && rpe !== null && rir !== rpe)
    throw new BadCell(`RPE ${rpe} is not ${10 - rir} repetitions in reserve: leave one of them out`)
  return {
    rpe: rpe ?? rir,
    note: cell('note') || null,
    pain: cell('pain') || null,
  }
}

/** The effort of so many repetitions in reserve, in halves. */
function readReserve(text: string): number {
  const reserve = readNumber(text, 'number of repetitions in reserve', 0, 9)
  if (Number.isInteger(reserve * 2)) return 10 - reserve
  throw new BadCell(`Invalid number of repetitions in reserve "${text}": expected halves from 0 to 9`)
}

/** The result, also as a dose; a dose is at least 1. One repetition of a time or a distance is that time or distance. */
function amountOf(
  groups: number[] | null,
  reps: number | null,
  seconds: number | null,
  meters: number | null,
): { dose: Dose; done: Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'> } {
  const none = { reps: null, groups: null, seconds: null, meters: null }
  if (groups !== null && groups.length > 1) {
    const dose: Dose = { kind: 'cluster', groups: groups.map((group) => Math.max(1, group)) }
    return { dose, done: { ...none, reps, groups } }
  }
  if (reps !== null && !(reps === 1 && (seconds !== null || meters !== null))) {
    if (seconds !== null || meters !== null)
      throw new BadCell(
        `a set has ${reps} repetitions or ${seconds === null ? 'a distance' : 'a time'}: leave one of them out`,
      )
    const least = Math.max(1, reps)
    return { dose: { kind: 'reps', from: least, to: least }, done: { ...none, reps } }
  }
  if (seconds !== null) return { dose: { kind: 'time', seconds }, done: { ...none, seconds } }
  if (meters === null) throw new BadCell('neither repetitions nor a time nor a distance is there')
  return { dose: { kind: 'distance', length: { value: meters, unit: 'm' } }, done: { ...none, meters } }
}

function prescribedMass({ value, unit, pair }: Extract<LiftedLoad, { kind: 'mass' }>): Load {
  return { kind: 'mass', from: value, to: value, unit, pair }
}

export type ImportedRow = SetRow | SplitRow

/** One session from the table. */
export interface ImportedDay {
  date: string
  prescription: Prescription
  /** Seconds after the start. */
  events: SessionEvent[]
  results: number
}

/** Groups rows by session, in the order of their first rows. */
export function sessionsIn(rows: readonly ImportedRow[]): ImportedRow[][] {
  return [...group(rows, ({ session }) => session).values()]
}

/** Turns the rows of one session into a day done exactly as prescribed, since the table does not say what was planned.
 * Returns a string with the reason if they do not make a day.
 * @param rows at least one */
export function dayOf(rows: readonly ImportedRow[], units: Prescription['units']): ImportedDay | string {
  const [first] = rows as [ImportedRow]
  const otherDate = rows.find((row) => row.date !== first.date)
  if (otherDate !== undefined)
    return `the session ${first.session} has the dates ${first.date} and ${otherDate.date}, but a session has one`
  const parts = partsOf(rows)
  const what = first.kind === 'set' ? 'Sets' : 'Running'
  const day: Prescription = {
    title: first.title?.replace(/\p{Cc}+/gu, ' ').trim() || `${what} of ${first.date}`,
    date: first.date,
    units,
    goal: null,
    athlete: null,
    bar: null,
    lap: null,
    maxima: [],
    notes: [],
    parts: parts.map(({ part }) => part),
  }
  // Reading what is printed gives each item its line and its text, and refuses what is no day.
  const reading = readPrescription(printPrescription(day))
  if (!('prescription' in reading)) {
    const [problem] = reading.problems
    return `it cannot be written as a day: ${problem?.message ?? ''} ("${problem?.text.trim() ?? ''}")`
  }
  const { prescription } = reading
  const ordered = parts.flatMap((each) => each.rows)
  return { date: first.date, prescription, events: eventsOf(prescription, ordered), results: rows.length }
}

function partsOf(rows: readonly ImportedRow[]): { part: Part; rows: ImportedRow[] }[] {
  return [...group(rows, ({ part }) => part ?? '')].map(([text, own]) => {
    const [, kind, rest] = /^(lift|run|cross)\b\s*:?\s*(.*)$/is.exec(text) ?? []
    const name = nameOf(rest ?? text)
    const sets = own.filter((row): row is SetRow => row.kind === 'set')
    if (sets.length > 0) return { part: { kind: 'lift', name, items: liftItems(sets) }, rows: own }
    const splits = own.filter((row): row is SplitRow => row.kind === 'split')
    const isCross = kind?.toLowerCase() === 'cross'
    return { part: { kind: isCross ? 'cross' : 'run', name, items: runItems(splits) }, rows: own }
  })
}

const unknown = { at: null, up: null }

/** Records each row for its step, then closes the parts and the session. */
function eventsOf(prescription: Prescription, rows: readonly ImportedRow[]): SessionEvent[] {
  const left = [...rows]
  const parts = expand(prescription, () => [])
  const done = parts.flatMap((part, index): SessionEvent[] => {
    const steps = part.items.flatMap((item) => item.steps)
    const recorded = steps.flatMap((step) => {
      const row = left.shift()
      if (row?.kind === 'set') return [recordedEvent(step.id, { kind: 'set', result: row.result }, unknown)]
      if (row?.kind === 'split')
        return [recordedEvent(step.id, { kind: 'interval', result: row.result }, unknown)]
      return []
    })
    return [...recorded, { type: 'partClosed', ...unknown, part: index, effort: null, minutes: null }]
  })
  return [...done, { type: 'sessionFinished', ...unknown }]
}

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostOfAName = 80

/** A name without the characters the notation does not allow; null when none is left. */
function nameOf(text: string): string | null {
  const plain = text
    .replace(/[,+@":#\p{Cc}]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const short = [...plain].slice(0, mostOfAName).join('').trim()
  return short === '' ? null : short
}

/** Joins consecutive sets that fit on one line. */
function liftItems(rows: readonly SetRow[]): LiftItem[] {
  const lines: SetRow[][] = []
  for (const row of rows) {
    const line = lines.at(-1)
    const last = line?.at(-1)
    if (line && last && line.length < mostSetsOnALine && fitsOnLineOf(last, row)) line.push(row)
    else lines.push([row])
  }
  return lines.map((line) => {
    const [first] = line as [SetRow]
    const sets = line.map(({ dose, load }) => ({ dose, load, rpe: null }))
    const exercises = [{ name: nameOf(first.exercise) ?? 'exercise', sets, side: first.side }]
    return { ...unwritten, exercises, ...noClauses }
  })
}

const unwritten = { line: 1, text: '' }
const noClauses = { pause: null, rest: null, every: null, tempo: null, buildFrom: null, notes: [] }

function fitsOnLineOf(one: SetRow, other: SetRow): boolean {
  if (one.exercise !== other.exercise || one.side !== other.side) return false
  const sameDose = one.dose.kind === 'reps' && other.dose.kind === 'reps'
  if (!sameDose && JSON.stringify(one.dose) !== JSON.stringify(other.dose)) return false
  const areBars = isBar(one) && isBar(other) && one.load.unit === other.load.unit
  return areBars || JSON.stringify(one.load) === JSON.stringify(other.load)
}

function isBar(row: SetRow): row is SetRow & { load: { kind: 'mass'; unit: string } } {
  return row.load?.kind === 'mass' && !row.load.pair
}

/** Joins consecutive splits of the same length into repeats. */
function runItems(rows: readonly SplitRow[]): RunItem[] {
  const intervals: { row: SplitRow; times: number }[] = []
  for (const row of rows) {
    const last = intervals.at(-1)
    const isSame =
      last?.row.meters === row.meters && (row.meters !== null || last?.row.seconds === row.seconds)
    if (last && isSame && last.times < 999) last.times += 1
    else intervals.push({ row, times: 1 })
  }
  return intervals.map(({ row, times }) => ({
    ...unwritten,
    step: {
      kind: 'work',
      times: times === 1 ? null : times,
      body: { kind: 'piece', amounts: [itemAmount(row)], target: null },
      recovery: null,
      ...nothingInherited,
      notes: [],
    },
  }))
}

function itemAmount({ meters, seconds }: SplitRow) {
  return meters === null
    ? ({ kind: 'time', seconds: seconds ?? 1 } as const)
    : ({ kind: 'distance', length: { value: meters, unit: 'm' } } as const)
}
