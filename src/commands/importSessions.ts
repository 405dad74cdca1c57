import { group, max, min, range, sum } from 'd3-array'
import { expand } from '../prescription/expand.ts'
import type { Dose, Load, Prescription, Side } from '../prescription/model.ts'
import { loadAsWritten } from '../prescription/planned.ts'
import { speedLimits } from '../prescription/plausible.ts'
import { partName, printLift } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { Step } from '../prescription/step.ts'
import { heaviestKg } from '../session/entry/setFigures.ts'
import { kilogramsOfLoad } from '../session/load.ts'
import type { IntervalResult, LiftedLoad, SessionEvent, SetResult } from '../session/model.ts'
import { dated, type Fact, recordedFacts } from '../session/newEvents.ts'
import { printDuration } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { neighbours } from '../units/lists.ts'
import { readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import {
  type Field,
  invalidCell,
  type Row,
  RowError,
  type Values,
  valuesOf,
  withPoint,
} from './importTable.ts'

interface Place {
  row: Row
  /** The same in all rows of one session. */
  session: string
  date: string
  title: string | null
  part: string | null
}

interface SetRow extends Place {
  kind: 'set'
  exercise: string
  side: Side | null
  result: SetResult
}

interface SplitRow extends Place {
  kind: 'interval'
  result: IntervalResult
}

export type ImportedRow = SetRow | SplitRow

/** A row of a table as a split, a set, or as many equal sets as its column `sets` says.
 * @param unit of a load without one
 * @throws RowError */
export function rowsOf(row: Row, columns: readonly (Field | null)[], unit: MassUnit): ImportedRow[] {
  const values = valuesOf(row, columns)
  const { date, title, part } = values
  if (date === null) throw new RowError('the date is missing')
  const place = { row, session: values.session ?? `${date} ${title ?? ''}`, date, title, part }
  if (!columns.includes('exercise')) return [{ ...place, kind: 'interval', result: splitOf(values) }]
  const { exercise, side } = values
  if (exercise === null) throw new RowError('the exercise is missing')
  const result = setOf(values, unit)
  const set: SetRow = { ...place, kind: 'set', exercise, side, result }
  return Array.from({ length: values.sets ?? 1 }, () => set)
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
    if (than !== null) throw new RowError(`${claim} ${than}: is a column in another unit?`)
  }
  const { heart_rate: heartRate, heart_rate_max: heartRateMax } = values
  return { meters, seconds, precision, heartRate, heartRateMax, byKey: false, ...remarksOf(values) }
}

const nothing = { reps: null, groups: null, seconds: null, meters: null }

/** One repetition of a time or a distance is that time or distance. */
function setOf(values: Values, unit: MassUnit): SetResult {
  const { groups, failed } = values
  const rest = { load: loadOf(values, unit), failed: failed ?? false, ...remarksOf(values) }
  const reps = agreed('numbers of repetitions', [groups && sum(groups), values.reps])
  if (groups !== null && groups.length > 1) return { ...nothing, reps, groups, ...rest }
  const seconds = values.time?.seconds ?? null
  const meters = metersOf(values)
  const isOneOf = reps === 1 && (seconds ?? meters) !== null
  const amounts = { reps: isOneOf ? null : reps, seconds, meters }
  const count = Object.values(amounts).filter((amount) => amount !== null).length
  if (count > 1)
    throw new RowError(
      'a set has either repetitions, a time or a distance: keep only one of them; runs go into a table of their own, without exercises',
    )
  if (count === 0) throw new RowError('repetitions, a time or a distance is missing')
  return { ...nothing, ...amounts, ...rest }
}

/** Metres; null if the row has no distance. */
function metersOf({ distance, meters, km, mi }: Values): number | null {
  return agreed('distances in metres', [distance, meters, km, mi])
}

/** RPE is 10 minus the repetitions in reserve. */
function remarksOf({ rir, rpe, note, pain }: Values): Pick<SetResult, 'rpe' | 'note' | 'pain'> {
  return { rpe: agreed('efforts as RPE', [rpe, rir === null ? null : 10 - rir]), note, pain }
}

/** The first of the amounts that several columns give for the same thing; null if none does. The others may differ by
 * rounding, 2 %. */
function agreed(what: string, columns: readonly (number | null)[]): number | null {
  const amounts = columns.filter((amount) => amount !== null)
  const [least = 0, most = 0] = [min(amounts), max(amounts)]
  if (most - least <= 0.02 * Math.abs(most)) return amounts[0] ?? null
  const shown = amounts.map((amount) => Number(amount.toFixed(1))).join(' and ')
  throw new RowError(`the row has different ${what}, ${shown}: keep only one of them`)
}

/** The load of a row; null without one. The column load comes first, because it has the typed unit; kilograms beside it
 * are those of the whole load. Two columns that agree, as in an exported table, confirm a load over 500 kg. */
function loadOf({ load, kg, lb, unit, load_kind: kind }: Values, usualUnit: MassUnit): LiftedLoad | null {
  const columns: [string | null, MassUnit][] = [
    [load, unit ?? usualUnit],
    [kg, 'kg'],
    [lb, 'lb'],
  ]
  const given = columns.filter(([text]) => text !== null)
  const loads = given.map(([text, unit], index) => readLoad(text ?? '', unit, index === 0 ? kind : null))
  const [first = readLoad('', unit ?? usualUnit, kind)] = loads
  const kilograms = loads.map((each) => kilogramsOfLoad(each) ?? 0)
  if (loads.length === 1 && Math.abs(kilograms[0] ?? 0) > heaviestKg)
    throw invalidCell('load', given[0]?.[0] ?? '', `a mass up to ${heaviestKg} kg, of a pair together`)
  agreed('loads in kg', kilograms)
  return first
}

/** `bw` and `bodyweight+10 kg` are bodyweight and what was added; null for no load.
 * @param unit of a number without one */
function readLoad(text: string, unit: MassUnit, kind: Values['load_kind']): LiftedLoad | null {
  const body = /^(?:bw|bodyweight)(?: ?([+-]) ?(\S.*))?$/i.exec(text)
  const written = withPoint(body === null ? text : (body[2] ?? ''))
  const mass = /^(?:0(?:\.0+)?)?$/.test(written) ? { value: 0, unit } : readMass(written, unit)
  if (mass === null) throw invalidCell('load', text, 'a mass, as in 92.5, 92.5 kg or bodyweight+10 kg')
  const isAssisted = body === null ? kind === 'assisted' : body[1] === '-'
  if (body !== null || kind === 'bodyweight' || isAssisted)
    return { kind: 'bodyweight', added: isAssisted ? -mass.value : mass.value, unit: mass.unit }
  return mass.value === 0 ? null : { kind: 'mass', ...mass, pair: kind === 'pair' }
}

export interface ImportedDay {
  date: string
  prescription: Prescription
  events: SessionEvent[]
  results: number
  /** What names were read as, where they are stored under another name. */
  renamed: string[]
}

/** A line of the day, and the rows of the table that were done on it; a heading has none. */
interface Line {
  text: string
  rows: readonly ImportedRow[]
}

/** Turns the rows of one session into a day done as prescribed: a table says what was done, not what was planned.
 * @param rows at least one
 * @throws RowError */
export function dayOf(rows: readonly ImportedRow[], units: Prescription['units']): ImportedDay {
  const [{ session, date, title, kind }] = rows as [ImportedRow]
  const otherDate = rows.find((row) => row.date !== date)
  if (otherDate !== undefined)
    throw new RowError(
      `the session ${session} has the dates ${date} and ${otherDate.date}, but a session has only one`,
    )
  const named = title?.replace(/\p{Cc}+/gu, ' ').trim() || `${kind === 'set' ? 'Sets' : 'Running'} of ${date}`
  const parts = [...group(rows, ({ part }) => part ?? '')].map(([part, ofPart]) => ({
    heading: headingOf(part, ofPart),
    lines: linesOf(ofPart),
  }))
  const headers = [named, `date: ${date}`, `units: ${units.distance} ${units.mass}`]
  const written: Line[] = [
    ...headers.map((text) => ({ text, rows: [] })),
    ...parts.flatMap(({ heading, lines }) => [{ text: heading, rows: [] }, ...lines]),
  ]
  const unwritable = (why: string, row: Row | null = null) =>
    new RowError(
      `the session cannot be written as a day: ${why}. Write another exercise, title or part in the table`,
      row,
    )
  const reading = readPrescription(written.map(({ text }) => text).join('\n'))
  if ('problems' in reading) {
    const [{ line = 0, message = '', text = '' } = {}] = reading.problems
    throw unwritable(`${message} ("${text.trim()}")`, written[line - 1]?.rows[0]?.row)
  }
  const { prescription } = reading
  const expanded = expand(prescription, () => [])
  const done = parts.flatMap(({ lines }, part) =>
    lines.flatMap(({ text, rows }, item) => {
      const { steps = [] } = expanded[part]?.items[item] ?? {}
      const isIts = steps.length === rows.length && steps.every((step, at) => step.kind === rows[at]?.kind)
      if (!isIts) throw unwritable(`"${text.trim()}" is read as something else`, rows[0]?.row)
      return steps.map((step, at) => ({ step, row: rows[at] as ImportedRow }))
    }),
  )
  const facts = parts.flatMap((_, part): Fact[] => [
    ...done.flatMap(({ step, row }) => (step.part === part ? recordedFacts(step.id, row) : [])),
    { type: 'partClosed', part, effort: null, minutes: null },
  ])
  return {
    date,
    prescription,
    events: dated([...facts, { type: 'sessionFinished' }], { at: null, up: null }),
    results: rows.length,
    renamed: done.flatMap(({ step, row }) => renamedIn(step, row)),
  }
}

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostTimes = 999
const mostOfAName = 80

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

/** As few lines as hold these rows. */
function linesOf(rows: readonly ImportedRow[]): Line[] {
  return neighbours(rows, (one, other) => sharedBy(one) === sharedBy(other)).flatMap((ofLine) => {
    const most = ofLine[0]?.kind === 'set' ? mostSetsOnALine : mostTimes
    return range(0, ofLine.length, most).map((from) => {
      const some = ofLine.slice(from, from + most)
      const [first] = some as [ImportedRow]
      const text = first.kind === 'set' ? liftText(first, some) : runText(first, some.length)
      return { text: `  ${text}`, rows: some }
    })
  })
}

/** An exercise that is stored under another name, or with a side that was part of its name. */
function renamedIn(step: Step, row: ImportedRow): string[] {
  if (row.kind !== 'set' || step.kind !== 'set') return []
  const { name, side } = step
  if (name === row.exercise && side === row.side) return []
  return [`"${row.exercise}" is read as "${name}"${side === row.side ? '' : `, ${side}`}`]
}

/** What all results on a line have in common: of splits the length, so that they are repeats, of sets all but the
 * repetitions and the mass on a bar. */
function sharedBy(row: ImportedRow): string {
  if (row.kind === 'interval') return JSON.stringify(row.result.meters ?? { seconds: row.result.seconds })
  const [dose, load] = prescribed(row.result)
  const isBar = load?.kind === 'mass' && !load.pair
  const shared = [row.exercise, row.side, dose.kind === 'reps' ? 'reps' : dose, isBar ? load.unit : load]
  return JSON.stringify(shared)
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
  const written = load && loadAsWritten(load)
  const least = Math.max(1, reps ?? 1)
  if (groups !== null) return [{ kind: 'cluster', groups: groups.map((each) => Math.max(1, each)) }, written]
  if (seconds !== null) return [{ kind: 'time', seconds }, written]
  if (meters !== null) return [{ kind: 'distance', length: { value: meters, unit: 'm' } }, written]
  return [{ kind: 'reps', from: least, to: least }, written]
}

function runText({ result: { meters, seconds } }: SplitRow, times: number): string {
  const amount = meters === null ? printDuration(seconds ?? 1) : printLength({ value: meters, unit: 'm' })
  return times === 1 ? amount : `${times} x ${amount}`
}
