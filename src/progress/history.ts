import { exerciseKey } from '../prescription/exercise.ts'
import { clippedLine } from '../prescription/print.ts'
import { plainOf } from '../summary/plain.ts'
import { counted } from '../units/decimal.ts'
import { formatAsWritten, formatMeters } from '../units/length.ts'
import { kilogramsIn } from '../units/mass.ts'
import type { DistanceUnit, MassUnit } from '../units/model.ts'
import { sumText } from './load.ts'
import { type DoneSession, isIn } from './weeks.ts'

const everything = { from: null, to: null, lift: null, text: null }

export type HistoryRow = ReturnType<typeof rowOf>

interface Listed extends DoneSession {
  finished: boolean
  /** The id of the older version that sync kept when two machines had changed this session; it counts nowhere. */
  otherVersion?: string | null
  /** Null if the session can no longer be read. */
  summary(): {
    running: { items: { text: string }[] }
    cross: { items: { text: string }[] }
    notes: string[]
  } | null
}

/** The sessions from one local date to another, both included, in which this exercise was lifted, in any spelling, and
 * with these words in their title, parts, lines or notes; null for what does not matter. */
export function historyOf(
  sessions: readonly Listed[],
  { from, to, lift, text }: Record<keyof typeof everything, string | null> = everything,
): HistoryRow[] {
  const key = lift === null ? null : exerciseKey(lift)
  const words = text === null ? null : foldedText(text)
  const span = { from: from ?? '', to: to ?? '9999-12-31' }
  return sessions
    .filter(({ date }) => isIn(span, date))
    .filter((session) => key === null || session.lifted(key) !== null)
    .filter((session) => words === null || hasWords(session, words))
    .map(rowOf)
}

function rowOf({ id, date, finished, otherVersion = null, brief }: Listed) {
  const { title, parts, pain, ...figures } = brief
  const efforts = parts.flatMap(({ kind, name, effort }) => (effort === null ? [] : [{ kind, name, effort }]))
  return { id, date, title, finished, ...figures, efforts, otherVersion }
}

/** Reads the lines and notes only if the title and the names do not contain the words. */
function hasWords(session: Listed, words: string): boolean {
  const { brief } = session
  const has = (text: string | null) => text !== null && foldedText(text).includes(words)
  if (has(brief.title) || brief.exercises.some(has) || brief.parts.some(({ name }) => has(name))) return true
  const summary = session.summary()
  if (summary === null) return false
  const { running, cross, notes } = summary
  return notes.some(has) || [...running.items, ...cross.items].some(({ text }) => has(text))
}

function foldedText(text: string): string {
  return text.toLowerCase().replace(/\s+/g, ' ').trim()
}

export interface HistoryUnits {
  distance: DistanceUnit
  mass: MassUnit
  /** The user asked for these units, so figures written in others are converted. */
  convert?: boolean
}

/** Prints a distance, in the unit it was written in as far as that can be told. */
export function lengthText(meters: number, { distance, convert = false }: HistoryUnits): string {
  return convert ? formatMeters(meters, distance) : formatAsWritten(meters, distance)
}

/** In a narrower line all columns together would leave hardly any room for the title. */
const widthForAll = 60

/** The columns that fit into a line of this many characters. */
export function historyHead(columns: number): string {
  if (columns < widthForAll) return 'date             run  day'
  const head = 'date        session          run        load  day: what was lifted'
  return head.length <= columns ? head : head.slice(0, head.indexOf(':'))
}

/** A session in one line: date, id, distance, session load with the effort of each part, title, lifts;
 * a narrow one has the columns that its head has. @param columns where it is cut, but not before the 38th */
export function historyLine(row: HistoryRow, units: HistoryUnits, columns: number): string {
  const ran = row.runMeters > 0 ? lengthText(row.runMeters, units) : ''
  const day = `${titleText(row, units)}${liftedText(row, units.mass)}`
  // The efforts of three parts move the distance to the left, so that all days begin in one column.
  const all = `${ran} ${effortText(row).padStart(11)}`
  const figures = columns < widthForAll ? ran.padStart(8) : `${row.id}  ${all.padStart(20)}`
  return clippedLine(plainOf(`${row.date}  ${figures}  ${day}`), Math.max(38, columns))
}

/** `832 (8/7)`: session load, and the effort of each part; `81+ (3)` if a part has none. */
function effortText({ effortMinutes, effortMinutesAtLeast, efforts }: HistoryRow): string {
  const atLeast = effortMinutes === null || effortMinutesAtLeast
  const ofParts = efforts.length === 0 ? '' : ` (${efforts.map(({ effort }) => effort).join('/')})`
  return `${sumText(effortMinutes ?? 0, { atLeast })}${ofParts}`
}

function titleText({ title, finished, crossMeters, otherVersion }: HistoryRow, units: HistoryUnits): string {
  const unfinished = finished ? '' : ' (not finished)'
  const cross = crossMeters > 0 ? `, cross ${lengthText(crossMeters, units)}` : ''
  const kept = otherVersion === null ? '' : ` (kept twice, other: ${otherVersion})`
  return `${title}${unfinished}${kept}${cross}`
}

function liftedText({ exercises, sets, tonnageKg }: HistoryRow, unit: MassUnit): string {
  if (sets === 0) return ''
  const tonnage = tonnageKg > 0 ? `, ${Math.round(kilogramsIn(tonnageKg, unit))} ${unit}` : ''
  return `: ${exercises.join(', ')} (${counted(sets, 'set')}${tonnage})`
}
