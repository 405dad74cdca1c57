import { group, range, sum } from 'd3-array'
import { exerciseKey } from '../prescription/exercise.ts'
import { expand, stationsDone } from '../prescription/expand.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { Dose, Load, Prescription, Side } from '../prescription/model.ts'
import { speedLimits } from '../prescription/plausible.ts'
import { partName, printLift } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { Step } from '../prescription/step.ts'
import { recordedEvent } from '../session/advance.ts'
import type { IntervalResult, LiftedLoad, SessionEvent, SetResult } from '../session/model.ts'
import { printDuration } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { neighbours } from '../units/lists.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import {
  type Columns,
  type Field,
  type Row,
  RowError,
  readMassCell,
  type Values,
  valuesOf,
} from './importTable.ts'

interface Place {
  row: Row
  /** The same in all rows of one session. */
  session: string
  date: string
  title: string | null
  part: string | null
  /** Not done: known only from a gap in the numbers. */
  isSkipped: boolean
}

interface SetRow extends Place {
  kind: 'set'
  exercise: string
  side: Side | null
  /** The same in all rows of one entry: drops, lifts of a complex, rounds and their stations. */
  entry: string | null
  /** That entry as a line of the notation, in its first row. */
  notation: string | null
  /** Its number among the sets of its exercise on that day; null if the table does not say. */
  number: number | null
  result: SetResult
}

interface SplitRow extends Place {
  kind: 'split'
  /** Its item as prescribed, and its number among the splits of that item; null if the table does not say. */
  work: string | null
  number: number | null
  result: IntervalResult
}

export type ImportedRow = SetRow | SplitRow

/** A row of a table as a split, a set, or as many equal sets as its column `sets` says.
 * @param unit of a load without one
 * @throws RowError */
export function rowsOf(row: Row, columns: Columns, unit: MassUnit): ImportedRow[] {
  const values = valuesOf(row, columns)
  const { date, title, part, work, number } = values
  if (date === null) throw new RowError('the date is missing', 'date')
  const session = values.session ?? `${date} ${title ?? ''}`
  const place = { row, session, date, title, part, isSkipped: false }
  if (!columns.taken.has('exercise'))
    return [{ ...place, kind: 'split', work, number, result: splitOf(values) }]
  const set = setOf(values, unit)
  return Array.from({ length: values.sets ?? 1 }, () => ({ ...place, ...set }))
}

function splitOf(values: Values): IntervalResult {
  const meters = metersOf(values)
  const { seconds, precision } = values.time ?? { seconds: null, precision: null }
  if (meters === null && seconds === null) throw new RowError('a distance or a time is missing')
  if (meters !== null && seconds !== null) {
    const { slow, fast } = speedLimits(/^cross\b/i.test(values.part ?? '') ? 'cross' : 'run', meters)
    const speed = meters / seconds
    const claim = `${Number(meters.toFixed(1))} m in ${seconds} s is`
    const than = speed > fast ? 'faster than any human' : speed < slow ? 'slower than a walk' : null
    if (than !== null) throw new RowError(`${claim} ${than}: is a column in another unit?`, 'time')
  }
  const { heart_rate: heartRate, heart_rate_max: heartRateMax } = values
  return { meters, seconds, precision, heartRate, heartRateMax, byKey: false, ...remarksOf(values) }
}

function setOf(values: Values, usualUnit: MassUnit): Omit<SetRow, keyof Place> {
  const { exercise, side, failed, entry, notation, set: number } = values
  if (exercise === null) throw new RowError('the exercise is missing', 'exercise')
  const amount = amountOf(values)
  const load = loadOf(values, usualUnit)
  const result = { ...amount, load, failed: failed ?? false, ...remarksOf(values) }
  return { kind: 'set', exercise, side, entry, notation, number, result }
}

/** Metres; null if the row has no distance. */
function metersOf({ distance, meters, km, mi }: Values): number | null {
  const lengths = [distance, meters, km, mi].filter((length) => length !== null)
  if (!differ(lengths)) return lengths[0] ?? null
  const shown = lengths.map((length) => `${Number(length.toFixed(1))} m`).join(' and ')
  throw new RowError(`the row has several distances, ${shown}: keep only one of them`)
}

/** Whether one amount given in several units differs by more than rounding, 2 %. */
function differ(amounts: readonly number[]): boolean {
  return (
    amounts.length > 1 &&
    Math.max(...amounts) - Math.min(...amounts) > 0.02 * Math.max(...amounts.map(Math.abs))
  )
}

/** RPE is 10 minus the repetitions in reserve. */
function remarksOf({ rir, rpe, note, pain }: Values): Pick<SetResult, 'rpe' | 'note' | 'pain'> {
  if (rir !== null && rpe !== null && 10 - rir !== rpe)
    throw new RowError(
      `RPE ${rpe} contradicts ${rir} in reserve (RPE is 10 minus the reserve): keep only one of them`,
      'rir',
    )
  return { rpe: rpe ?? (rir === null ? null : 10 - rir), note, pain }
}

const nothing = { reps: null, groups: null, seconds: null, meters: null }

/** What was done. One repetition of a time or a distance is that time or distance. A row that is part of an entry may
 * be empty. */
function amountOf(values: Values): Pick<SetResult, keyof typeof nothing> {
  const { groups } = values
  const reps = groups === null ? values.reps : sum(groups)
  if (values.reps !== null && values.reps !== reps)
    throw new RowError(
      `${values.reps} repetitions do not match the groups ${groups?.join('+')}, which make ${reps}`,
      'reps',
    )
  const meters = metersOf(values)
  const seconds = values.time?.seconds ?? null
  if (groups !== null && groups.length > 1) return { ...nothing, reps, groups }
  const isOneOf = reps === 1 && (seconds !== null || meters !== null)
  const named = [
    ...(reps === null || isOneOf ? [] : [`${reps} repetitions`]),
    ...(seconds === null ? [] : ['a time']),
    ...(meters === null ? [] : ['a distance']),
  ]
  const runs =
    seconds !== null && meters !== null ? '; runs go into a table of their own, without exercises' : ''
  if (named.length > 1)
    throw new RowError(
      `a set has either ${named.slice(0, 2).join(' or ')}: keep only one of them${runs}`,
      'reps',
    )
  if (named.length === 0 && values.entry === null)
    throw new RowError('repetitions, a time or a distance is missing')
  return { ...nothing, reps: isOneOf ? null : reps, seconds, meters }
}

/** The load of a row; null without one. The column load has the typed unit, so it takes precedence over kg and lb,
 * which must agree with it; beside the load of one of a pair they may hold the sum of both. */
function loadOf(values: Values, usualUnit: MassUnit): LiftedLoad | null {
  const { load, kg, lb, load_kind: kind } = values
  const unit = values.unit ?? usualUnit
  const cells: LoadCell[] = [
    { field: 'load', text: load, unit },
    { field: 'kg', text: kg, unit: 'kg' },
    { field: 'lb', text: lb, unit: 'lb' },
  ]
  const [first = { field: 'load', text: '', unit }, ...others] = cells.filter(({ text }) => text !== null)
  const most = others.length === 0 ? mostKg : mostConfirmedKg
  const read = readLoad(first, kind, most)
  for (const other of others) {
    const otherKg = kgOf(readLoad(other, kind === 'pair' ? 'mass' : kind, most))
    const counts = kind === 'pair' ? [1, 2] : [1]
    if (counts.every((count) => differ([count * kgOf(read), otherKg])))
      throw new RowError(
        `${shownLoad(first)} does not match ${shownLoad(other)}: keep only one of them`,
        other.field,
      )
  }
  return read
}

interface LoadCell {
  field: Field
  text: string | null
  /** Of a number without one. */
  unit: MassUnit
}

function shownLoad({ text, unit }: LoadCell): string {
  return /\p{L}/u.test(text ?? '') ? `${text}` : `${text} ${unit}`
}

function kgOf(load: LiftedLoad | null): number {
  return load === null ? 0 : kilogramsOf({ ...load, value: load.kind === 'mass' ? load.value : load.added })
}

/** Loads above this are probably slips; the recorder asks about them. Two columns that agree, as in an exported
 * table, confirm a load up to the second limit. */
const mostKg = 500
const mostConfirmedKg = 100_000

/** `bw` and `bodyweight+10 kg` are bodyweight and what was added; null for no load. */
function readLoad(
  { field, text, unit }: LoadCell,
  kind: Values['load_kind'],
  mostKg: number,
): LiftedLoad | null {
  const cell = text ?? ''
  const parts = /^(?:bw|bodyweight)(?: ?([+-]) ?(.+))?$/i.exec(cell)
  const written = parts === null ? cell : (parts[2] ?? '')
  const isBlank = written === '' || (parts === null && /^0([.,]0+)?$/.test(written))
  if (isBlank && parts === null && kind !== 'bodyweight') return null
  const most = kind === 'pair' ? mostKg / 2 : mostKg
  const mass = isBlank ? { value: 0, unit } : readMassCell(written, unit)
  if (mass === null || kilogramsOf(mass) > most) {
    const isSigned = /^[+-] ?\d/.test(written)
    const expected = isSigned
      ? `write a load added to the body, or assistance, as bodyweight${written[0]}${written.slice(1).trim()}`
      : `expected a mass up to ${most} kg${kind === 'pair' ? ' for each of the pair' : ''}, as in 92.5 or 92.5 kg`
    throw new RowError(`Invalid load "${written}": ${expected}`, field)
  }
  if (parts === null && kind !== 'bodyweight' && kind !== 'assisted')
    return { kind: 'mass', ...mass, pair: kind === 'pair' }
  const isHelp = parts === null ? kind === 'assisted' : parts[1] === '-'
  return { kind: 'bodyweight', added: isHelp ? -mass.value : mass.value, unit: mass.unit }
}

/** One session from the table. */
export interface ImportedDay {
  date: string
  prescription: Prescription
  events: SessionEvent[]
  results: number
  /** What names were read as, where they are stored under another name. */
  renamed: string[]
}

/** Groups rows by session, in the order of their first rows. */
export function sessionsIn(rows: readonly ImportedRow[]): ImportedRow[][] {
  return [...group(rows, ({ session }) => session).values()]
}

/** Puts a skipped set like it before each numbered set, for every lower number of its exercise that is missing. */
function withSkipped(rows: readonly ImportedRow[]): ImportedRow[] {
  const numbers = new Map<string, number>()
  return rows.flatMap((row) => {
    if (row.kind === 'split' || row.number === null) return [row]
    const key = exerciseKey(row.exercise)
    const last = numbers.get(key) ?? 0
    numbers.set(key, Math.max(last, row.number))
    if (row.entry !== null && row.notation === null) return [row]
    const skipped = range(last + 1, row.number).map((number) => {
      const entry = row.entry === null ? null : `${row.entry} before ${number}`
      return { ...row, number, entry, isSkipped: true }
    })
    return [...skipped, row]
  })
}

/** Turns the rows of one session into a day done exactly as prescribed, since the table does not say what was
 * planned; only gaps in the set numbers become skipped sets.
 * @param tableRows at least one
 * @throws RowError */
export function dayOf(tableRows: readonly ImportedRow[], units: Prescription['units']): ImportedDay {
  const rows = withSkipped(tableRows)
  const [{ session, date, title, kind }] = rows as [ImportedRow]
  const otherDate = rows.find((row) => row.date !== date)
  if (otherDate !== undefined)
    throw new RowError(
      `the session ${session} has the dates ${date} and ${otherDate.date}, but a session has only one`,
    )
  const named = title?.replace(/\p{Cc}+/gu, ' ').trim() || `${kind === 'set' ? 'Sets' : 'Running'} of ${date}`
  const head = `${named}\ndate: ${date}\nunits: ${units.distance} ${units.mass}`
  const parts = [...group(rows, ({ part }) => part ?? '')].map(([part, ofPart]) => ({
    heading: headingOf(part, ofPart),
    lines: linesOf(ofPart, `${head}\n\n${headingOf(part, ofPart)}\n  `),
  }))
  const text = [
    head,
    ...parts.map(({ heading, lines }) => [heading, ...lines.map((line) => `  ${line.text}`)].join('\n')),
  ].join('\n\n')
  const lines = parts.flatMap((part) => part.lines)
  const unwritten = lines.find((line) => line.text === '')
  if (unwritten !== undefined) throw badNotation(unwritten.entries[0]![0])
  const reading = readPrescription(text)
  if (!('prescription' in reading)) throw notReadBack(reading.problems[0]!, lines)
  const { prescription } = reading
  const events: SessionEvent[] = []
  const renamed: string[] = []
  for (const [index, { items }] of expand(prescription, () => []).entries()) {
    for (const [place, { steps }] of items.entries()) {
      const line = parts[index]?.lines[place]
      const asked = steps.filter((step) => step.kind !== 'recovery')
      for (const [at, entry] of line?.entries.entries() ?? []) {
        const answer = answerOf(asked[at], entry)
        if (answer === null || asked.length !== line?.entries.length) throw badNotation(entry[0])
        events.push(recordedEvent(asked[at]!.id, answer, unknown))
        renamed.push(...renamedIn(asked[at]!, entry[0]))
      }
    }
    events.push({ type: 'partClosed', ...unknown, part: index, effort: null, minutes: null })
  }
  events.push({ type: 'sessionFinished', ...unknown })
  const done = lines.flatMap(({ entries }) => entries).filter(([row]) => !row.isSkipped)
  return { date, prescription, events, results: done.length, renamed }
}

const unknown = { at: null, up: null }

/** What the rows of one entry say was done at a step; null if the step is not theirs. */
function answerOf(step: Step | undefined, rows: Entry): Parameters<typeof recordedEvent>[1] | null {
  const [first] = rows
  if (first.isSkipped) return { kind: 'skipped', note: null, pain: null }
  if (first.kind === 'split')
    return step?.kind === 'interval' ? { kind: 'interval', result: first.result } : null
  const sets = rows.filter((row) => row.kind === 'set')
  if (step?.kind !== 'set' || (sets.length > 1 && !isSeveral(step.dose))) return null
  const rpe = sets.find(({ result }) => result.rpe !== null)?.result.rpe ?? null
  const failed = sets.some(({ result }) => result.failed)
  return { kind: 'set', result: { ...first.result, ...amountIn(step.dose, sets), rpe, failed } }
}

function isSeveral(dose: Dose): boolean {
  return 'lower' in dose || 'lifts' in dose || 'stations' in dose
}

/** What was done of a dose that takes several rows of the table. */
function amountIn(dose: Dose, rows: readonly SetRow[]): Partial<SetResult> {
  const groupsDone = (groups: number[]) => ({ reps: sum(groups), groups })
  switch (dose.kind) {
    case 'drop': {
      const loads = rows.flatMap(({ result }) => result.load ?? [])
      const groups = dose.reps.map((_, index) => rows[index]?.result.reps ?? 0)
      return { ...groupsDone(groups), ...(loads.length === 0 ? {} : { loads }) }
    }
    case 'complex': {
      const left = [...rows]
      const isNext = (name: string) => exerciseKey(left[0]?.exercise ?? '') === exerciseKey(name)
      return groupsDone(dose.lifts.map(({ name }) => (isNext(name) ? (left.shift()?.result.reps ?? 0) : 0)))
    }
    case 'roundsIn': {
      const { groups, reps } = rows[0]?.result ?? nothing
      const [rounds = 0, begun = 0] = groups ?? [reps ?? 0]
      const done = stationsDone(dose.stations, rounds, begun)
      const counted = done.filter((_, index) => dose.stations[index]?.dose.kind === 'reps')
      return { reps: sum(counted), groups: [rounds, begun] }
    }
    default:
      return {}
  }
}

/** An exercise that is stored under another name, or with a side that was part of its name. */
function renamedIn(step: Step, row: ImportedRow): string[] {
  if (row.kind !== 'set' || step.kind !== 'set' || row.notation !== null) return []
  const { name, side } = step
  if (name === row.exercise && side === row.side) return []
  return [`"${row.exercise}" is read as "${name}"${side === row.side ? '' : `, ${side}`}`]
}

/** The error for a written day that does not read back: blames an exercise whose name reads as notation, else the
 * title or the part. */
function notReadBack({ message, text }: Diagnostic, lines: readonly Line[]): RowError {
  const [row] = lines.find((line) => line.text === text.trim())?.entries[0] ?? []
  if (row?.kind !== 'set') {
    const advice = 'Write another title or part in the table'
    return new RowError(`the session cannot be written as a day: ${message} ("${text.trim()}"). ${advice}`)
  }
  if (row.entry !== null) return badNotation(row)
  return new RowError(
    `the exercise "${row.exercise}" is read as notation, not as a name: ${message}. Write another name in the table`,
    'exercise',
    row.row,
  )
}

function badNotation(row: ImportedRow): RowError {
  const advice = 'Write there what export writes, or remove these rows and store them with backfill'
  return new RowError(
    `the rows of entry ${row.kind === 'set' ? row.entry : ''} need their line in the column notation, as in "curl 1 x (12 > 10) @ 20/15 kg". ${advice}`,
    'notation',
    row.row,
  )
}

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostTimes = 999
const mostOfAName = 80

type Entry = readonly [ImportedRow, ...ImportedRow[]]

interface Line {
  text: string
  /** The rows of each of its steps. */
  entries: Entry[]
}

function headingOf(text: string, rows: readonly ImportedRow[]): string {
  const [, kind = '', rest] = /^(lift|run|cross)\b\s*:?\s*(.*)$/is.exec(text) ?? []
  const isLift = rows.some((row) => row.kind === 'set')
  const partKind = isLift ? 'lift' : kind.toLowerCase() === 'cross' ? 'cross' : 'run'
  return partName({ kind: partKind, name: nameOf(rest ?? text) })
}

/** A name without the characters the notation does not allow; null when none is left. */
function nameOf(text: string): string | null {
  const plain = text
    .replace(/[,+@":#\p{Cc}]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const short = [...plain].slice(0, mostOfAName).join('').trim()
  return short === '' ? null : short
}

/** Consecutive rows that fit on one line.
 * @param head of a day with nothing but such a line */
function linesOf(rows: readonly ImportedRow[], head: string): Line[] {
  return neighbours(rows, fitsOnLineOf).flatMap((run) => {
    const work = run[0]?.kind === 'split' ? run[0].work : null
    const plain = run.map((row) => ({ ...row, work: null }))
    if (work !== null) return lineOfWork(work, run, head) ?? linesOf(plain, head)
    const most = run[0]?.kind === 'split' ? mostTimes : mostSetsOnALine
    return range(0, run.length, most).map((from) => lineOf(run.slice(from, from + most) as [ImportedRow]))
  })
}

function lineOf(rows: [ImportedRow, ...ImportedRow[]]): Line {
  const [first] = rows
  if (first.kind === 'set' && first.entry !== null) return { text: first.notation ?? '', entries: [rows] }
  const text = first.kind === 'set' ? liftText(first, rows) : runText(first, rows.length)
  return { text, entries: rows.map((row) => [row]) }
}

/** The line as it was prescribed for these splits; null where it asks for other ones. */
function lineOfWork(work: string, rows: readonly ImportedRow[], head: string): Line | null {
  const reading = /\p{Cc}/u.test(work) ? null : readPrescription(`${head}${work}`)
  const parts = reading && 'prescription' in reading ? expand(reading.prescription, () => []) : []
  const steps = parts.flatMap(({ items }) => items).flatMap((item) => item.steps)
  const splits = steps.filter((step) => step.kind === 'interval')
  const byNumber = new Map(rows.flatMap((row) => (row.kind === 'split' ? [[row.number, row]] : [])))
  const isOfRow = ({ meters }: { meters: number | null }, index: number) => {
    const row = byNumber.get(index + 1)
    return row !== undefined && (meters === null || meters === row.result.meters)
  }
  if (splits.filter(isOfRow).length !== rows.length) return null
  const skipped = { ...rows[0]!, isSkipped: true }
  return { text: work, entries: splits.map((_, index) => [byNumber.get(index + 1) ?? skipped]) }
}

/** Sets of one exercise with the same amount or load, and splits of the same length, which are repeats. */
function fitsOnLineOf(one: ImportedRow, other: ImportedRow): boolean {
  if (one.kind === 'split' && other.kind === 'split' && (one.work ?? other.work) !== null)
    return one.work === other.work && (one.number ?? 0) > (other.number ?? 0)
  if (one.kind === 'split' || other.kind === 'split') {
    const [{ meters, seconds }, next] = [one.result, other.result]
    return meters === next.meters && (meters !== null || seconds === next.seconds)
  }
  if (one.entry !== null || other.entry !== null) return one.entry === other.entry
  if (one.exercise !== other.exercise || one.side !== other.side) return false
  const [dose, load, otherDose, otherLoad] = [...prescribed(one.result), ...prescribed(other.result)]
  const areReps = dose.kind === 'reps' && otherDose.kind === 'reps'
  const isBar = (each: Load | null) => each?.kind === 'mass' && !each.pair && each.unit
  return (
    (areReps || isSame(dose, otherDose)) &&
    ((isBar(load) && isBar(load) === isBar(otherLoad)) || isSame(load, otherLoad))
  )
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other)
}

function liftText({ exercise, side }: SetRow, rows: readonly ImportedRow[]): string {
  const sets = rows.flatMap((row) => {
    if (row.kind !== 'set') return []
    const [dose, load] = prescribed(row.result)
    return [{ dose, load, rpe: null }]
  })
  return printLift({ name: nameOf(exercise) ?? 'exercise', side, sets })
}

/** A result as it would be prescribed; a dose is at least 1. */
function prescribed({ groups, reps, seconds, meters, load }: SetResult): [Dose, Load | null] {
  const mass: Load | null = load?.kind === 'mass' ? { ...load, from: load.value, to: load.value } : load
  const least = Math.max(1, reps ?? 1)
  if (groups !== null) return [{ kind: 'cluster', groups: groups.map((each) => Math.max(1, each)) }, mass]
  if (seconds !== null) return [{ kind: 'time', seconds }, mass]
  if (meters !== null) return [{ kind: 'distance', length: { value: meters, unit: 'm' } }, mass]
  return [{ kind: 'reps', from: least, to: least }, mass]
}

function runText({ result: { meters, seconds } }: SplitRow, times: number): string {
  const amount = meters === null ? printDuration(seconds ?? 1) : printLength({ value: meters, unit: 'm' })
  return times === 1 ? amount : `${times} x ${amount}`
}
