import { plainOf } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import type { HistoryRow } from './history.ts'

export interface HistoryUnits {
  distance: 'km' | 'mi'
  mass: MassUnit
}

/** What stands in the columns of a line. */
export const historyHead = 'date        session          run  effort-min  day: what was lifted'

/** A session in one line: date, id, what was run, effort-minutes with the effort of each part, title, what was
 * lifted. @param columns where it is cut, at least 40 */
export function historyLine(row: HistoryRow, units: HistoryUnits, columns: number): string {
  const ran = row.runMeters > 0 ? formatMeters(row.runMeters, units.distance) : ''
  const day = `${titleText(row, units.distance)}${liftedText(row, units.mass)}`
  const head = `${row.date}  ${row.id}  ${ran.padStart(8)}  ${effortText(row).padStart(10)}`
  return cut(plainOf(`${head}  ${day}`), columns)
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
