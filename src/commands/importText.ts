import { basename } from 'node:path'
import type { Columns } from './importColumns.ts'
import type { ImportedDay } from './importDays.ts'
import type { Table } from './importTable.ts'
import { printableOf } from './io.ts'

/** The heading of each column that is used, by what it was taken for. */
export function takenNames({ names }: Table, { taken }: Columns): Record<string, string> {
  return Object.fromEntries([...taken].map(([field, index]) => [field, names[index] ?? '']))
}

/** What was read of a table, and which column was taken for what.
 * @param unit of a load without one; @param twins how many of the days the logbook has already */
export function descriptionOf(
  table: Table,
  columns: Columns,
  days: readonly ImportedDay[],
  what: 'sets' | 'splits',
  unit: string,
  path: string,
  twins: number,
): string {
  const taken = Object.entries(takenNames(table, columns)).map(
    ([field, name]) => `  ${printableOf(name)}: ${field}`,
  )
  const unused = columns.unused.map((index) => `  ${printableOf(table.names[index] ?? '')}: not used`)
  const dates = days.map((day) => day.date).sort()
  const span = dates[0] === dates.at(-1) ? `on ${dates[0]}` : `from ${dates[0]} to ${dates.at(-1)}`
  const isBare = what === 'sets' && columns.taken.has('load') && !columns.taken.has('unit')
  const bare = isBare ? [`  a load without a unit is in ${unit}`] : []
  const already =
    twins === 0
      ? []
      : [`The logbook has sessions of the title and day of ${twins} of them; import keeps both.`]
  const count = `${table.rows.length} ${table.rows.length === 1 ? what.slice(0, -1) : what}`
  const sessions = `${days.length} ${days.length === 1 ? 'session' : 'sessions'}`
  const name = path === '-' ? 'standard input' : printableOf(basename(path))
  return [
    `${name}: ${count} in ${sessions} ${span}. Taken for what:`,
    ...taken,
    ...unused,
    ...bare,
    ...already,
    '',
  ].join('\n')
}
