import { group, max, min, range, sum } from 'd3-array'
import { exerciseKey } from '../prescription/exercise.ts'
import { expand, stationsDone } from '../prescription/expand.ts'
import type { Dose, Load, Prescription, Side } from '../prescription/model.ts'
import { loadAsWritten } from '../prescription/planned.ts'
import { speedLimits } from '../prescription/plausible.ts'
import { partName, printLift } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { Step } from '../prescription/step.ts'
import { heaviestKg } from '../session/entry/setFigures.ts'
import { kilogramsOfLoad } from '../session/load.ts'
import type { IntervalResult, LiftedLoad, SessionEvent, SetResult } from '../session/model.ts'
import { recordedEvents } from '../session/newEvents.ts'
import type { Answer } from '../session/prompt.ts'
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
  /** The same in all rows of one prescribed line: a split's line itself, a number for a set of several rows (drops,
   * lifts of a complex, rounds and their stations). Null if only what was done is known. */
  entry: string | null
  /** That line in the notation; of a set in its first row. */
  notation: string | null
  /** Its number among the results of that line. */
  number: number | null
}

interface SetRow extends Place {
  kind: 'set'
  exercise: string
  side: Side | null
  result: SetResult
}

interface SplitRow extends Place {
  kind: 'split'
  result: IntervalResult
}

export type ImportedRow = SetRow | SplitRow

/** A row of a table as a split, a set, or as many equal sets as its column `sets` says.
 * @param unit of a load without one
 * @throws RowError */
export function rowsOf(row: Row, columns: readonly (Field | null)[], unit: MassUnit): ImportedRow[] {
  const values = valuesOf(row, columns)
  const { date, title, part, work, entry, notation } = values
  if (date === null) throw new RowError('the date is missing')
  const place = { row, session: values.session ?? `${date} ${title ?? ''}`, date, title, part }
  if (!columns.includes('exercise')) {
    const { number } = values
    return [{ ...place, kind: 'split', entry: work, notation: work, number, result: splitOf(values) }]
  }
  const { exercise, side } = values
  if (exercise === null) throw new RowError('the exercise is missing')
  const result = setOf(values, unit)
  const set: SetRow = { ...place, kind: 'set', exercise, side, entry, notation, number: 1, result }
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

/** One repetition of a time or a distance is that time or distance. A row of an entry may be empty. */
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
  if (count === 0 && values.entry === null) throw new RowError('repetitions, a time or a distance is missing')
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

/** One session from the table. */
export interface ImportedDay {
  date: string
  prescription: Prescription
  events: SessionEvent[]
  results: number
  /** What names were read as, where they are stored under another name. */
  renamed: string[]
}

const unknown = { at: null, up: null }

/** Turns the rows of one session into a day done as prescribed, since only exported splits and entries say what was
 * planned.
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
  const headers = [named, `date: ${date}`, `units: ${units.distance} ${units.mass}`]
  const parts = [...group(rows, ({ part }) => part ?? '')].map(([part, ofPart]) => {
    const heading = headingOf(part, ofPart)
    return { heading, lines: linesOf(ofPart, [...headers, '', heading, '  '].join('\n')) }
  })
  const written = parts.flatMap(({ heading, lines }) => [
    '',
    heading,
    ...lines.map(({ text }) => `  ${text}`),
  ])
  const reading = readPrescription([...headers, ...written].join('\n'))
  if ('problems' in reading)
    throw new RowError(`the session cannot be written as a day: ${reading.problems[0]?.message}`)
  const { prescription } = reading
  const events = expand(prescription, () => []).flatMap(({ items }, part): SessionEvent[] => [
    ...items.flatMap(({ steps }, item) => {
      const { answers } = parts[part]!.lines[item]!
      return answered(steps).flatMap((step, index) => recordedEvents(step.id, answers[index]!, unknown))
    }),
    { type: 'partClosed', ...unknown, part, effort: null, minutes: null },
  ])
  const lines = parts.flatMap((part) => part.lines)
  return {
    date,
    prescription,
    events: [...events, { type: 'sessionFinished', ...unknown }],
    results: sum(lines, ({ answers }) => answers.filter((answer) => answer.kind !== 'skipped').length),
    renamed: lines.flatMap(({ renamed }) => renamed),
  }
}

function answered(steps: readonly Step[]): Step[] {
  return steps.filter((step) => step.kind !== 'recovery')
}

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostTimes = 999
const mostOfAName = 80

interface Line {
  text: string
  /** To each of its steps that is asked for. */
  answers: Answer[]
  renamed: string[]
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

/** Consecutive rows that fit on one line: as it was prescribed, else as they were done.
 * @param head of a day with nothing but such a line */
function linesOf(rows: readonly ImportedRow[], head: string): Line[] {
  return neighbours(rows, fitsOnLineOf).flatMap((ofLine) => {
    const [{ kind, entry, notation, row }] = ofLine
    if (entry === null) return asDone(ofLine, head)
    // A work of a group was repeated with it, which its own line does not say.
    const texts = [notation ?? '', `${ofLine.at(-1)!.number} x ${notation}`]
    const lines = texts.map((text) => lineOf(text, ofLine, head))
    const line = lines.find((each) => typeof each !== 'string') ?? lines[0]!
    if (typeof line !== 'string') return [line]
    const plain = ofLine.map((each) => ({ ...each, entry: null }))
    if (kind === 'split') return linesOf(plain, head)
    const message = `the rows of entry ${entry} need their line in the column notation, as export writes it: ${line}`
    throw new RowError(message, row)
  })
}

/** As few lines as hold these rows. */
function asDone(rows: readonly ImportedRow[], head: string): Line[] {
  const most = rows[0]?.kind === 'set' ? mostSetsOnALine : mostTimes
  return range(0, rows.length, most).map((from) => {
    const some = rows.slice(from, from + most).map((row, index) => ({ ...row, number: index + 1 }))
    const [first] = some as [ImportedRow]
    const text = first.kind === 'set' ? liftText(first, some) : runText(first, some.length)
    const line = lineOf(text, some, head)
    if (typeof line !== 'string') return line
    const message = `the session cannot be written as a day: ${line}. Write another exercise, title or part in the table`
    throw new RowError(message, first.row)
  })
}

/** A line with what the rows say was done on it, or what is wrong with it. */
function lineOf(written: string, rows: readonly ImportedRow[], head: string): Line | string {
  // Characters such as line ends would make several lines of it.
  const text = written.replace(/\p{Cc}+/gu, ' ')
  const reading = readPrescription(`${head}${text}`)
  if ('problems' in reading) {
    const [problem] = reading.problems
    return `${problem?.message} ("${problem?.text.trim()}")`
  }
  const [item, ...others] = expand(reading.prescription, () => []).flatMap(({ items }) => items)
  const steps = item === undefined || others.length > 0 ? [] : answered(item.steps)
  const ofStep = group(rows, ({ number }) => number)
  const answers = steps.flatMap((step, index) => answerTo(step, ofStep.get(index + 1) ?? []) ?? [])
  const isAll = [...ofStep.keys()].every((number) => number !== null && number <= steps.length)
  const isIts = rows.some((row) => hasItsLength(steps[(row.number ?? 0) - 1], row))
  if (answers.length < steps.length || !isAll || !isIts) return `"${text}" is read as something else`
  const renamed = rows.flatMap((row, index) => renamedIn(steps[index], row))
  return { text, answers, renamed }
}

/** Whether a row has the prescribed distance, if the target depends on it: never where its laps are of another track. */
function hasItsLength(step: Step | undefined, { result }: ImportedRow): boolean {
  if (step?.kind !== 'interval' || step.meters === null || !step.target?.seconds) return true
  return step.meters === result.meters
}

/** What the rows say was done at a step; null if the step is not theirs. */
function answerTo(step: Step, rows: readonly ImportedRow[]): Answer | null {
  const [first] = rows
  if (first === undefined) return { kind: 'skipped', note: null, pain: null }
  if (step.kind === 'interval' && first.kind === 'split' && rows.length === 1)
    return { kind: 'interval', result: first.result }
  const sets = rows.filter((row) => row.kind === 'set')
  if (step.kind !== 'set' || first.kind !== 'set' || (sets.length > 1 && !isSeveral(step.dose))) return null
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
function renamedIn(step: Step | undefined, row: ImportedRow): string[] {
  if (row.kind !== 'set' || step?.kind !== 'set' || row.entry !== null) return []
  const { name, side } = step
  if (name === row.exercise && side === row.side) return []
  return [`"${row.exercise}" is read as "${name}"${side === row.side ? '' : `, ${side}`}`]
}

/** Rows of one entry, splits in the order of their prescribed line, and results that one line can prescribe. */
function fitsOnLineOf(one: ImportedRow, other: ImportedRow): boolean {
  const isInOrder = one.entry === null || one.kind === 'set' || (one.number ?? 0) > (other.number ?? 0)
  return isInOrder && JSON.stringify(sharedBy(one)) === JSON.stringify(sharedBy(other))
}

/** What all results on a line have in common: of splits the length, so that they are repeats, of sets all but the
 * repetitions and the mass on a bar. */
function sharedBy(row: ImportedRow): unknown {
  if (row.entry !== null) return row.entry
  if (row.kind === 'split') return row.result.meters ?? { seconds: row.result.seconds }
  const [dose, load] = prescribed(row.result)
  const isBar = load?.kind === 'mass' && !load.pair
  return [row.exercise, row.side, dose.kind === 'reps' ? 'reps' : dose, isBar ? load.unit : load]
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
