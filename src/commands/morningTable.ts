import type { Morning, MorningEvent } from '../plan/morning.ts'
import { printMorning, readMorning } from '../plan/morning.ts'
import type { Problem } from '../prescription/problem.ts'
import type { Table } from './importTable.ts'

/** The columns of a table of mornings. */
export const morningColumns = [
  'date',
  'sleep',
  'resting heart rate',
  'body mass',
  'soreness',
  'note',
] as const
type Column = (typeof morningColumns)[number]

/** Mornings as rows of a table that `import` reads again. */
export function morningRows(mornings: readonly Morning[]): Record<Column, string | null>[] {
  return mornings.map(({ date, sleepSeconds, restingHeartRate, bodyMass, soreness, note }) => ({
    date,
    sleep: sleepSeconds === undefined ? null : printMorning({ sleepSeconds }),
    'resting heart rate': restingHeartRate === undefined ? null : printMorning({ restingHeartRate }),
    'body mass': bodyMass === undefined ? null : printMorning({ bodyMass }),
    soreness: soreness === undefined ? null : printMorning({ soreness }),
    note: note ?? null,
  }))
}

/** Whether a table has a date and nothing but what is said of a morning. */
export function isMorningTable({ names }: Table): boolean {
  const known = names.map(columnOf)
  return known.length > 1 && known.includes('date') && !known.includes(null)
}

function columnOf(name: string): Column | null {
  const plain = name.trim().toLowerCase().replace(/[_-]+/g, ' ')
  return morningColumns.find((column) => column === plain) ?? null
}

/** The mornings of a table that the logbook does not have in the same words yet.
 * @param at when they are stored: local time with its offset */
export function morningsOfTable(
  { names, rows }: Table,
  known: readonly Morning[],
  at: string,
): { events: MorningEvent[]; problems: Problem[] } {
  const events: MorningEvent[] = []
  const problems: Problem[] = []
  const before = new Map(known.map((morning) => [morning.date, JSON.stringify(morningRows([morning]))]))
  for (const { cells, line } of rows) {
    const pieces = names.flatMap((name, index) => pieceOf(columnOf(name), cells[index] ?? ''))
    const problem = (message: string) => {
      const text = cells.join(', ')
      problems.push({ line, column: 1, length: text.length, text, message, instead: null, severity: 'error' })
    }
    const reading = readMorning(pieces.join(', '), at.slice(0, 10))
    if ('problem' in reading) problem(reading.problem)
    else if (reading.date === null) problem('The date is missing.')
    else {
      const { date, words } = reading
      const isKnown = before.get(date) === JSON.stringify(morningRows([{ date, ...words }]))
      if (Object.keys(words).length > 0 && !isKnown) events.push({ type: 'typed', at, date, values: words })
    }
  }
  return { events, problems }
}

function pieceOf(column: Column | null, cell: string): string[] {
  const text = cell.trim()
  if (text === '') return []
  if (column === 'note') return [`"${text.replaceAll('"', "'")}"`]
  if (column === 'resting heart rate' && /^\d+$/.test(text)) return [`${text} bpm`]
  return [text]
}
