import type { Dose, Load, Side } from '../prescription/model.ts'
import type { LiftedLoad, PieceResult, SetResult } from '../session/result.ts'
import type { MassUnit } from '../units/model.ts'
import {
  BadCell,
  cellText,
  readDate,
  readDistance,
  readFailed,
  readGroups,
  readLoad,
  readNumber,
  readRpe,
  readSide,
  readTime,
  readUnit,
  readWhole,
} from './importCells.ts'
import type { Columns, Field } from './importColumns.ts'

interface Place {
  /** Of the file, from 1. */
  line: number
  /** Rows of one session have the same. */
  session: string
  date: string
  title: string | null
  part: string | null
}

/** One set as it was done, and as it is prescribed so that it was done as prescribed. */
export interface SetRow extends Place {
  kind: 'set'
  exercise: string
  side: Side | null
  dose: Dose
  load: Load | null
  result: SetResult
}

export interface SplitRow extends Place {
  kind: 'split'
  meters: number | null
  seconds: number | null
  result: PieceResult
}

/** Metres a second that nobody runs. */
const tooFast = 12.5
const mostMeters = 1_000_000

/** A row of a table as a set or a split.
 * @throws BadCell */
export function rowOf(
  cells: readonly string[],
  line: number,
  { taken }: Columns,
  unit: MassUnit,
): SetRow | SplitRow {
  const cell = (field: Field) => cellText(cells[taken.get(field) ?? -1] ?? '')
  const optional = <T>(field: Field, read: (text: string) => T): T | null =>
    cell(field) === '' ? null : read(cell(field))
  const date = optional('date', readDate)
  if (date === null) throw new BadCell('the date is missing')
  const title = cell('title') === '' ? null : cell('title')
  const place = {
    line,
    session: cell('session') === '' ? `${date} ${title ?? ''}` : cell('session'),
    date,
    title,
    part: cell('part') === '' ? null : cell('part'),
  }
  const distance =
    optional('distance', readDistance) ??
    optional('meters', (text) => readNumber(text, 'distance in metres', 0.1, mostMeters)) ??
    optional('km', (text) => readNumber(text, 'distance in km', 0.001, 1000) * 1000) ??
    optional('mi', (text) => readNumber(text, 'distance in miles', 0.001, 1000) * 1609.344)
  const time = optional('time', readTime)
  const rir = optional('rir', (text) => 10 - readNumber(text, 'number of repetitions in reserve', 0, 9))
  const remarks = {
    rpe: optional('rpe', readRpe) ?? rir,
    note: cell('note') === '' ? null : cell('note'),
    pain: cell('pain') === '' ? null : cell('pain'),
  }
  if (!taken.has('exercise')) {
    if (distance === null && time === null) throw new BadCell('neither a distance nor a time is there')
    if (distance !== null && time !== null && distance / time.seconds > tooFast) {
      const speed = `${Number(distance.toFixed(1))} m in ${time.seconds} s`
      throw new BadCell(`${speed} is faster than any human: is a column in another unit?`)
    }
    const heart = (field: Field) => optional(field, (text) => readWhole(text, 'heart rate', 30, 250))
    const result: PieceResult = {
      meters: distance,
      seconds: time?.seconds ?? null,
      precision: time?.precision ?? null,
      heartRate: heart('heart_rate'),
      heartRateMax: heart('heart_rate_max'),
      byKey: false,
      ...remarks,
    }
    return { kind: 'split', ...place, meters: distance, seconds: time?.seconds ?? null, result }
  }
  const exercise = cell('exercise')
  if (exercise === '') throw new BadCell('the exercise is missing')
  const groups = optional('groups', readGroups)
  const reps =
    groups?.reduce((sum, group) => sum + group, 0) ??
    optional('reps', (text) => readWhole(text, 'number of repetitions', 0, 999))
  const amount = amountOf(groups, reps, time?.seconds ?? null, distance)
  const ownUnit = optional('unit', readUnit) ?? unit
  const load =
    optional('kg', (text) => readLoad(text, 'kg', cell('load_kind'))) ??
    optional('lb', (text) => readLoad(text, 'lb', cell('load_kind'))) ??
    readLoad(cell('load'), ownUnit, cell('load_kind'))
  return {
    kind: 'set',
    ...place,
    exercise,
    side: readSide(cell('side')),
    dose: amount.dose,
    load: load?.kind === 'mass' ? prescribedMass(load) : load,
    result: { ...amount.done, load, failed: readFailed(cell('failed')), ...remarks },
  }
}

/** What was done, once as a result and once as a dose; a dose is at least 1. */
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
  if (reps !== null) {
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
