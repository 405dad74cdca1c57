import { group, sum } from 'd3-array'
import type { Diagnostic } from '../prescription/diagnostic.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { expand, stationsDone } from '../prescription/expand.ts'
import { nothingInherited } from '../prescription/expandRun.ts'
import type { Dose, LiftItem, Load, Part, Prescription, RunItem, Side } from '../prescription/model.ts'
import { speedLimits } from '../prescription/plausible.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { Step } from '../prescription/step.ts'
import { recordedEvent } from '../session/advance.ts'
import type { SessionEvent } from '../session/model.ts'
import type { IntervalResult, LiftedLoad, SetResult } from '../session/result.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import {
  type Columns,
  type Field,
  type Row,
  readMassCell,
  type Values,
  valuesOf,
  Wrong,
} from './importTable.ts'

interface Place {
  row: Row
  /** Rows of one session have the same. */
  session: string
  date: string
  title: string | null
  part: string | null
}

/** One performed set, and the prescription it would have fulfilled. */
interface SetRow extends Place {
  kind: 'set'
  /** Rows with the same are one entry: drops, lifts of a complex, rounds and their stations. */
  entry: string | null
  /** That entry as a line of the notation. */
  notation: string | null
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

export type ImportedRow = SetRow | SplitRow

/** A row of a table as a split, a set, or as many equal sets as its column `sets` says.
 * @param unit of a load without one */
export function rowsOf(row: Row, columns: Columns, unit: MassUnit): ImportedRow[] | Wrong {
  const values = valuesOf(row, columns)
  if (values instanceof Wrong) return values
  const { date, title, part } = values
  if (date === null) return new Wrong('the date is missing', 'date')
  const place = { row, session: values.session ?? `${date} ${title ?? ''}`, date, title, part }
  if (!columns.taken.has('exercise')) {
    const split = splitOf(values)
    return split instanceof Wrong ? split : [{ ...place, ...split }]
  }
  const set = setOf(values, unit)
  if (set instanceof Wrong) return set
  return Array.from({ length: values.sets ?? 1 }, () => ({ ...place, ...set }))
}

function splitOf(values: Values): Omit<SplitRow, keyof Place> | Wrong {
  const meters = metersOf(values)
  if (meters instanceof Wrong) return meters
  const { seconds, precision } = values.time ?? { seconds: null, precision: null }
  if (meters === null && seconds === null) return new Wrong('neither a distance nor a time is there')
  if (meters !== null && seconds !== null) {
    const { slow, fast } = speedLimits(/^cross\b/i.test(values.part ?? '') ? 'cross' : 'run', meters)
    const speed = meters / seconds
    const said = `${Number(meters.toFixed(1))} m in ${seconds} s is`
    const than = speed > fast ? 'faster than any human' : speed < slow ? 'slower than a walk' : null
    if (than !== null) return new Wrong(`${said} ${than}: is a column in another unit?`, 'time')
  }
  const remarks = remarksOf(values)
  if (remarks instanceof Wrong) return remarks
  const result: IntervalResult = {
    meters,
    seconds,
    precision,
    heartRate: values.heart_rate,
    heartRateMax: values.heart_rate_max,
    byKey: false,
    ...remarks,
  }
  return { kind: 'split', meters, seconds, result }
}

function setOf(values: Values, usualUnit: MassUnit): Omit<SetRow, keyof Place> | Wrong {
  const { exercise, side, failed, entry, notation } = values
  if (exercise === null) return new Wrong('the exercise is missing', 'exercise')
  const amount = amountOf(values)
  if (amount instanceof Wrong && entry === null) return amount
  const load = loadOf(values, usualUnit)
  if (load instanceof Wrong) return load
  const remarks = remarksOf(values)
  if (remarks instanceof Wrong) return remarks
  const { dose, done } = amount instanceof Wrong ? unmeasured : amount
  return {
    kind: 'set',
    entry,
    notation,
    exercise,
    side,
    dose,
    load: load?.kind === 'mass' ? prescribedMass(load) : load,
    result: { ...done, load, failed: failed ?? false, ...remarks },
  }
}

/** One entry of its rows: as its notation prescribes it, with what the rows say was done. */
function entryOf(rows: readonly [SetRow, ...SetRow[]], units: Prescription['units']): SetRow | Wrong {
  const [first] = rows
  const reading = readPrescription(`Day\n\nlift\n  ${first.notation ?? ''}\n`, { units })
  const [item] = 'prescription' in reading ? (reading.prescription.parts[0]?.items ?? []) : []
  const [exercise] = item && 'exercises' in item ? item.exercises : []
  const [set, other] = exercise?.sets ?? []
  if (
    exercise === undefined ||
    set === undefined ||
    other !== undefined ||
    !('stations' in set.dose || 'lifts' in set.dose || 'lower' in set.dose)
  ) {
    const advice = 'Write what export writes there, or take these rows out and store them with backfill'
    return new Wrong(
      `the rows of entry ${first.entry} need their line in the column notation, as in "curl 1 x (12 > 10) @ 20/15 kg". ${advice}`,
      'notation',
      first.row,
    )
  }
  const { name, side } = exercise
  const results = rows.map(({ result }) => result)
  const rpe = results.find((each) => each.rpe !== null)?.rpe ?? null
  const failed = results.some((each) => each.failed)
  return {
    ...first,
    exercise: name,
    side,
    dose: set.dose,
    load: set.load,
    result: { ...first.result, ...doneIn(set.dose, rows), rpe, failed },
  }
}

function doneIn(dose: Dose, rows: readonly [SetRow, ...SetRow[]]): Partial<SetResult> {
  const [{ result }] = rows
  switch (dose.kind) {
    case 'drop': {
      const groups = dose.reps.map((_, index) => rows[index]?.result.reps ?? 0)
      const loads = rows.flatMap((row) => row.result.load ?? [])
      return { reps: sum(groups), groups, ...(loads.length === 0 ? {} : { loads }) }
    }
    case 'complex': {
      const left = [...rows]
      const groups = dose.lifts.map(({ name }) =>
        left[0] && exerciseKey(left[0].exercise) === exerciseKey(name) ? (left.shift()?.result.reps ?? 0) : 0,
      )
      return { reps: sum(groups), groups }
    }
    case 'roundsIn': {
      const [rounds = 0, begun = 0] = result.groups ?? [result.reps ?? 0]
      const done = stationsDone(dose.stations, rounds, begun)
      const reps = sum(done.filter((_, index) => dose.stations[index]?.dose.kind === 'reps'))
      return { reps, groups: [rounds, begun] }
    }
    default:
      return {}
  }
}

/** Metres; null if the row has no distance. */
function metersOf({ distance, meters, km, mi }: Values): number | null | Wrong {
  const lengths = [distance, meters, km, mi].filter((length) => length !== null)
  if (!differ(lengths)) return lengths[0] ?? null
  const shown = lengths.map((length) => `${Number(length.toFixed(1))} m`).join(' and ')
  return new Wrong(`the row has several distances, ${shown}: leave all but one of them out`)
}

/** Whether the same amount in several units is not the same by more than their rounding, 2 %. */
function differ(amounts: readonly number[]): boolean {
  return (
    amounts.length > 1 &&
    Math.max(...amounts) - Math.min(...amounts) > 0.02 * Math.max(...amounts.map(Math.abs))
  )
}

/** So many repetitions in reserve are an effort of 10 less them. */
function remarksOf({ rir, rpe, note, pain }: Values): Pick<SetResult, 'rpe' | 'note' | 'pain'> | Wrong {
  if (rir !== null && rpe !== null && 10 - rir !== rpe)
    return new Wrong(`RPE ${rpe} is not ${rir} repetitions in reserve: leave one of them out`, 'rir')
  return { rpe: rpe ?? (rir === null ? null : 10 - rir), note, pain }
}

const unmeasured = {
  dose: { kind: 'max' },
  done: { reps: null, groups: null, seconds: null, meters: null },
} as const

/** The result, also as a dose; a dose is at least 1. One repetition of a time or a distance is that time or distance. */
function amountOf(
  values: Values,
): { dose: Dose; done: Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'> } | Wrong {
  const { groups } = values
  const reps = groups === null ? values.reps : sum(groups)
  if (values.reps !== null && values.reps !== reps)
    return new Wrong(
      `${values.reps} repetitions are not the ${reps} of the groups ${groups?.join('+')}`,
      'reps',
    )
  const meters = metersOf(values)
  if (meters instanceof Wrong) return meters
  const seconds = values.time?.seconds ?? null
  const none = unmeasured.done
  if (groups !== null && groups.length > 1) {
    const dose: Dose = { kind: 'cluster', groups: groups.map((group) => Math.max(1, group)) }
    return { dose, done: { ...none, reps, groups } }
  }
  if (reps !== null && !(reps === 1 && (seconds !== null || meters !== null))) {
    if (seconds !== null || meters !== null)
      return new Wrong(
        `a set has ${reps} repetitions or ${seconds === null ? 'a distance' : 'a time'}: leave one of them out`,
        'reps',
      )
    const least = Math.max(1, reps)
    return { dose: { kind: 'reps', from: least, to: least }, done: { ...none, reps } }
  }
  if (seconds !== null && meters !== null)
    return new Wrong('a set has a time or a distance: leave one of them out', 'time')
  if (seconds !== null) return { dose: { kind: 'time', seconds }, done: { ...none, seconds } }
  if (meters === null) return new Wrong('neither repetitions nor a time nor a distance is there')
  return { dose: { kind: 'distance', length: { value: meters, unit: 'm' } }, done: { ...none, meters } }
}

/** The load of a row; null without one. The load as typed has its unit, so it goes before kilograms and pounds, which
 * must be the same; beside one of a pair they may be those of both. */
function loadOf(values: Values, usualUnit: MassUnit): LiftedLoad | null | Wrong {
  const { load, kg, lb, load_kind: kind } = values
  const unit = values.unit ?? usualUnit
  const cells: LoadCell[] = [
    { field: 'load', text: load, unit },
    { field: 'kg', text: kg, unit: 'kg' },
    { field: 'lb', text: lb, unit: 'lb' },
  ]
  const [own = { field: 'load', text: '', unit }, ...others] = cells.filter(({ text }) => text !== null)
  const read = readLoad(own, kind)
  if (read instanceof Wrong) return read
  for (const other of others) {
    const same = readLoad(other, kind === 'pair' ? 'mass' : kind)
    if (same instanceof Wrong) return same
    const each = kind === 'pair' ? [1, 2] : [1]
    if (each.every((count) => differ([count * kgTyped(read), kgTyped(same)])))
      return new Wrong(`${saidOf(own)} are not ${saidOf(other)}: leave one of them out`, other.field)
  }
  return read
}

interface LoadCell {
  field: Field
  text: string | null
  /** Of a number without one. */
  unit: MassUnit
}

function saidOf({ text, unit }: LoadCell): string {
  return /\p{L}/u.test(text ?? '') ? `${text}` : `${text} ${unit}`
}

function kgTyped(load: LiftedLoad | null): number {
  return load === null ? 0 : kilogramsOf({ ...load, value: load.kind === 'mass' ? load.value : load.added })
}

/** As in what is typed, where more is asked about. */
const mostKg = 500

/** `bw` and `bodyweight+10 kg` are bodyweight and what was added; null for no load. */
function readLoad({ field, text, unit }: LoadCell, kind: Values['load_kind']): LiftedLoad | null | Wrong {
  const given = text ?? ''
  const parts = /^(?:bw|bodyweight)(?: ?([+-]) ?(.+))?$/i.exec(given)
  const written = parts === null ? given : (parts[2] ?? '')
  const isNone = written === '' || (parts === null && /^0([.,]0+)?$/.test(written))
  if (isNone && parts === null && kind !== 'bodyweight') return null
  const most = kind === 'pair' ? mostKg / 2 : mostKg
  const mass = isNone ? { value: 0, unit } : readMassCell(written, unit)
  if (mass === null || kilogramsOf(mass) > most) {
    const isSigned = /^[+-] ?\d/.test(written)
    const expected = isSigned
      ? `of a load on the body, or of help, write bodyweight${written[0]}${written.slice(1).trim()}`
      : `expected a mass up to ${most} kg${kind === 'pair' ? ' for each of the pair' : ''}, as in 92.5 or 92.5 kg`
    return new Wrong(`Invalid load "${written}": ${expected}`, field)
  }
  if (parts === null && kind !== 'bodyweight' && kind !== 'assisted')
    return { kind: 'mass', ...mass, pair: kind === 'pair' }
  const isHelp = parts === null ? kind === 'assisted' : parts[1] === '-'
  return { kind: 'bodyweight', added: isHelp ? -mass.value : mass.value, unit: mass.unit }
}

function prescribedMass({ value, unit, pair }: Extract<LiftedLoad, { kind: 'mass' }>): Load {
  return { kind: 'mass', from: value, to: value, unit, pair }
}

/** One session from the table. */
export interface ImportedDay {
  date: string
  prescription: Prescription
  /** Seconds after the start. */
  events: SessionEvent[]
  results: number
  /** How names were read that are stored as others. */
  renamed: string[]
}

/** Groups rows by session, in the order of their first rows. */
export function sessionsIn(rows: readonly ImportedRow[]): ImportedRow[][] {
  return [...group(rows, ({ session }) => session).values()]
}

/** The rows of a session with those of one entry put together. */
function entriesIn(rows: readonly ImportedRow[], units: Prescription['units']): (ImportedRow | Wrong)[] {
  const isSameEntry = (one: ImportedRow, other: ImportedRow) =>
    one.kind === 'set' &&
    other.kind === 'set' &&
    one.entry !== null &&
    one.entry === other.entry &&
    one.part === other.part
  return linesOf(rows, rows.length, isSameEntry).map((line) => {
    const [first, ...others] = line.filter((row) => row.kind === 'set')
    return first === undefined || first.entry === null ? line[0] : entryOf([first, ...others], units)
  })
}

/** Turns the rows of one session into a day done exactly as prescribed, since the table does not say what was planned.
 * @param rows at least one */
export function dayOf(all: readonly ImportedRow[], units: Prescription['units']): ImportedDay | Wrong {
  const [first] = all as [ImportedRow]
  const rows: ImportedRow[] = []
  for (const row of entriesIn(all, units)) {
    if (row instanceof Wrong) return row
    rows.push(row)
  }
  const otherDate = rows.find((row) => row.date !== first.date)
  if (otherDate !== undefined)
    return new Wrong(
      `the session ${first.session} has the dates ${first.date} and ${otherDate.date}, but a session has one`,
    )
  const parts = [...group(rows, ({ part }) => part ?? '')].map(([name, own]) => ({
    part: partOf(name, own),
    rows: own,
  }))
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
  if (!('prescription' in reading)) return notADay(reading.problems[0]!, rows)
  const { prescription } = reading
  const ordered = parts.flatMap((each) => each.rows)
  const done = expand(prescription, () => []).map((part) => part.items.flatMap((item) => item.steps))
  return {
    date: first.date,
    prescription,
    events: eventsOf(done, ordered),
    results: rows.length,
    renamed: renamedIn(done.flat(), ordered),
  }
}

/** The exercise whose name reads as notation, or else what makes no day. */
function notADay({ message, text }: Diagnostic, rows: readonly ImportedRow[]): Wrong {
  const row = rows.find((each) => each.kind === 'set' && text.includes(nameOf(each.exercise) ?? ''))
  if (row?.kind === 'set')
    return new Wrong(
      `the exercise "${row.exercise}" is read as notation, not as a name: ${message}. Write another name in the table`,
      'exercise',
      row.row,
    )
  const advice = 'Write another title or part in the table'
  return new Wrong(`it cannot be written as a day: ${message} ("${text.trim()}"). ${advice}`)
}

/** Each exercise that is stored under another name, or with a side that was part of its name. */
function renamedIn(steps: readonly Step[], rows: readonly ImportedRow[]): string[] {
  return steps.flatMap((step, index) => {
    const row = rows[index]
    if (row?.kind !== 'set' || step.kind !== 'set') return []
    const { name, side } = step
    if (name === row.exercise && side === row.side) return []
    return [`"${row.exercise}" is read as "${name}"${side === row.side ? '' : `, ${side}`}`]
  })
}

function partOf(text: string, rows: readonly ImportedRow[]): Part {
  const [, kind, rest] = /^(lift|run|cross)\b\s*:?\s*(.*)$/is.exec(text) ?? []
  const name = nameOf(rest ?? text)
  const sets = rows.filter((row) => row.kind === 'set')
  if (sets.length > 0) return { kind: 'lift', name, items: liftItems(sets) }
  const isCross = kind?.toLowerCase() === 'cross'
  return {
    kind: isCross ? 'cross' : 'run',
    name,
    items: runItems(rows.filter((row) => row.kind === 'split')),
  }
}

const unknown = { at: null, up: null }

/** Records each row for its step, then closes the parts and the session. */
function eventsOf(parts: readonly Step[][], rows: readonly ImportedRow[]): SessionEvent[] {
  const left = [...rows]
  const done = parts.flatMap((steps, index): SessionEvent[] => {
    const recorded = steps.flatMap(({ id }) => {
      const row = left.shift()
      if (row === undefined) return []
      const answer =
        row.kind === 'set'
          ? { kind: row.kind, result: row.result }
          : { kind: 'interval' as const, result: row.result }
      return [recordedEvent(id, answer, unknown)]
    })
    return [...recorded, { type: 'partClosed', ...unknown, part: index, effort: null, minutes: null }]
  })
  return [...done, { type: 'sessionFinished', ...unknown }]
}

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostTimes = 999
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

/** Consecutive rows that fit on one line, at most so many. */
function linesOf<T>(rows: readonly T[], most: number, fits: (one: T, other: T) => boolean): [T, ...T[]][] {
  const lines: [T, ...T[]][] = []
  for (const row of rows) {
    const line = lines.at(-1)
    const last = line?.at(-1)
    if (line && last && line.length < most && fits(last, row)) line.push(row)
    else lines.push([row])
  }
  return lines
}

const unwritten = { line: 1, text: '' }
const noClauses = { pause: null, rest: null, every: null, tempo: null, buildFrom: null, notes: [] }

function liftItems(rows: readonly SetRow[]): LiftItem[] {
  return linesOf(rows, mostSetsOnALine, fitsOnLineOf).map((line) => {
    const [{ exercise, side }] = line
    const sets = line.map(({ dose, load }) => ({ dose, load, rpe: null }))
    return { ...unwritten, exercises: [{ name: nameOf(exercise) ?? 'exercise', sets, side }], ...noClauses }
  })
}

function fitsOnLineOf(one: SetRow, other: SetRow): boolean {
  if (one.exercise !== other.exercise || one.side !== other.side || other.entry !== null) return false
  const areReps = one.dose.kind === 'reps' && other.dose.kind === 'reps'
  const isBar = ({ load }: SetRow) => load?.kind === 'mass' && !load.pair && load.unit
  return (
    (areReps || isSame(one.dose, other.dose)) &&
    ((isBar(one) && isBar(one) === isBar(other)) || isSame(one.load, other.load))
  )
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other)
}

/** Consecutive splits of the same length are repeats. */
function runItems(rows: readonly SplitRow[]): RunItem[] {
  const areAlike = (one: SplitRow, other: SplitRow) =>
    one.meters === other.meters && (one.meters !== null || one.seconds === other.seconds)
  return linesOf(rows, mostTimes, areAlike).map(({ length, 0: { meters, seconds } }) => {
    const amount =
      meters === null
        ? ({ kind: 'time', seconds: seconds ?? 1 } as const)
        : ({ kind: 'distance', length: { value: meters, unit: 'm' } } as const)
    return {
      ...unwritten,
      step: {
        kind: 'work',
        times: length === 1 ? null : length,
        body: { kind: 'piece', amounts: [amount], target: null },
        recovery: null,
        ...nothingInherited,
        notes: [],
      },
    }
  })
}
