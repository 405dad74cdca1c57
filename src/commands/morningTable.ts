import { type Morning, printMorning, readMorning, type TypedMorning, valuesNotIn } from '../plan/morning.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { MassUnit } from '../units/model.ts'
import { cellText, fieldsMeant, problemIn, type Row, type Table } from './importTable.ts'

/** What each column may be called. */
const headings = {
  date: ['date', 'day'],
  sleep: ['sleep'],
  'resting heart rate': ['resting heart rate', 'resting hr', 'rhr'],
  'body mass': ['body mass', 'bodyweight', 'weight'],
  soreness: ['soreness'],
  note: ['note', 'notes'],
}
type Column = keyof typeof headings
export const morningHeadings = Object.keys(headings).join()

/** Mornings as rows of a table that `import` reads again: each cell as it is typed, except that the note has no
 * quotes. */
export function morningRows(mornings: readonly Morning[]): Record<Column, string>[] {
  return mornings.map(({ date, sleepSeconds, restingHeartRate, bodyMass, soreness, note }) => ({
    date,
    sleep: printMorning({ sleepSeconds }),
    'resting heart rate': printMorning({ restingHeartRate }),
    'body mass': printMorning({ bodyMass }),
    soreness: printMorning({ soreness }),
    note: note ?? '',
  }))
}

/** Writes a morning as a line of NDJSON; no key is ever missing. */
export function morningLine({ date, ...words }: Morning) {
  const none = { sleepSeconds: null, restingHeartRate: null, bodyMass: null, soreness: [], note: null }
  return { morning: { date, ...none, ...words } }
}

/** A morning as one would type it, with its date, and its row in the file. */
export interface MorningLine {
  text: string
  row: Row
}

/** The rows of a table of mornings; null unless it has a date and otherwise only figures of a morning. */
export function morningLinesIn({ names, rows }: Table): MorningLine[] | null {
  const found = fieldsMeant(names, headings)
  if (found.length < 2 || !found.includes('date') || found.includes(null)) return null
  return rows.map((row) => ({
    text: found.flatMap((column, index) => pieceOf(column, cellText(row.cells[index] ?? ''))).join(', '),
    row,
  }))
}

function pieceOf(column: Column | null, cell: string): string[] {
  if (cell === '') return []
  if (column === 'note') return [`"${cell.replaceAll('"', "'")}"`]
  // A decimal comma would end the value.
  const text = cell.replace(/^(\d+),(\d)/, '$1.$2')
  // `sleep 6.5` needs no unit.
  return [column === 'date' || column === 'soreness' ? text : `${column} ${text}`]
}

/** What the logbook does not have yet, morning by morning. It keeps its own values, because a table may be older.
 * @param at when they are stored: local time with its offset
 * @param massUnit of a body mass without a unit */
export function morningsToStore(
  lines: readonly MorningLine[],
  known: readonly Morning[],
  at: string,
  massUnit: MassUnit,
): { events: TypedMorning[]; given: TypedMorning[]; problems: Diagnostic[] } {
  const given: TypedMorning[] = []
  const problems: Diagnostic[] = []
  const before = new Map(known.map(({ date, ...values }) => [date, values]))
  for (const { text, row } of lines) {
    const reading = readMorning(text, at.slice(0, 10), massUnit)
    const problem =
      'problem' in reading ? reading.problem : reading.date === null ? 'The date is missing.' : null
    if (problem !== null) problems.push(problemIn(row, problem))
    if ('problem' in reading || reading.date === null) continue
    given.push({ type: 'typed', at, date: reading.date, values: reading.values })
  }
  const events = given
    .map((event) => ({ ...event, values: valuesNotIn(before.get(event.date) ?? {}, event.values) }))
    .filter(({ values }) => Object.keys(values).length > 0)
  return { events, given, problems }
}
