import { plainOf } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import type { HistoryRow } from './history.ts'

export interface HistoryUnits {
  distance: 'km' | 'mi'
  mass: MassUnit
}

/** What a line too short for everything keeps between the date and the day: the id, where the next command asks
 * for it, or what was run, where a key opens the session. */
export type HistoryKept = 'session' | 'run'

/** With fewer columns than this the day itself would hardly be seen behind all the others. */
const leastForAll = 60

/** What stands in the columns of a line of so many characters. */
export function historyHead(columns: number, kept: HistoryKept): string {
  if (columns < leastForAll) return `date        ${kept === 'session' ? 'session   ' : '     run'}  day`
  const head = 'date        session          run  effort-min  day: what was lifted'
  return head.length <= columns ? head : head.slice(0, head.indexOf(':'))
}

/** A session in one line: date, id, what was run, effort-minutes with the effort of each part, title, what was
 * lifted; a short one has the columns that its head has. @param columns where it is cut, at least 38 */
export function historyLine(
  row: HistoryRow,
  units: HistoryUnits,
  columns: number,
  kept: HistoryKept,
): string {
  const ran = (row.runMeters > 0 ? formatMeters(row.runMeters, units.distance) : '').padStart(8)
  const day = `${titleText(row, units.distance)}${liftedText(row, units.mass)}`
  const between =
    columns >= leastForAll
      ? `${row.id}  ${ran}  ${effortText(row).padStart(10)}`
      : kept === 'session'
        ? row.id
        : ran
  return cut(plainOf(`${row.date}  ${between}  ${day}`), columns)
}

/** `832 (8/7)`: effort-minutes, and the effort of each part. */
function effortText({ effortMinutes, efforts }: HistoryRow): string {
  const each = efforts.length === 0 ? '' : ` (${efforts.map(({ effort }) => effort).join('/')})`
  return `${effortMinutes === null ? '?' : Math.round(effortMinutes)}${each}`
}

function titleText({ title, finished, crossMeters }: HistoryRow, unit: 'km' | 'mi'): string {
  const open = finished ? '' : ' (not finished)'
  const cross = crossMeters > 0 ? `, cross ${formatMeters(crossMeters, unit)}` : ''
  return `${title}${open}${cross}`
}

function liftedText({ exercises, sets, tonnageKg }: HistoryRow, unit: MassUnit): string {
  if (sets === 0) return ''
  const tonnage =
    tonnageKg > 0 ? `, ${Math.round(massIn({ value: tonnageKg, unit: 'kg' }, unit))} ${unit}` : ''
  return `: ${exercises.join(', ')} (${sets} ${sets === 1 ? 'set' : 'sets'}${tonnage})`
}

function cut(text: string, columns: number): string {
  if (text.length <= columns) return text
  const characters = [...text]
  return characters.length <= columns ? text : `${characters.slice(0, columns - 3).join('')}...`
}
