import { morningsKind } from '../logbook/mornings.ts'
import { type OwnText, ownTexts } from '../logbook/ownTexts.ts'
import { morningFormat, readObject } from '../logbook/text.ts'
import { type Morning, printMorning, readMorning } from '../plan/morning.ts'
import type { MorningEvent } from '../plan/morningModel.ts'
import { type Diagnostic, errorAt, mostDiagnostics } from '../prescription/diagnostic.ts'
import { shownOf } from '../prescription/lines.ts'
import { cellText, type Table } from './importTable.ts'
import { problemsError } from './prescriptionRead.ts'

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

/** Writes a morning as a line of NDJSON; no key is ever missing. */
export function morningLine({ date, sleepSeconds, restingHeartRate, bodyMass, soreness, note }: Morning) {
  return {
    morning: {
      date,
      sleepSeconds: sleepSeconds ?? null,
      restingHeartRate: restingHeartRate ?? null,
      bodyMass: bodyMass ?? null,
      soreness: soreness ?? [],
      note: note ?? null,
    },
  }
}

/** What `export` writes as NDJSON. */
export interface ExportedLines {
  mornings: Table
  files: { name: OwnText; text: string }[]
  /** How many summaries of sessions are beside them. */
  sessions: number
}

/** Mornings and the athlete's own texts in NDJSON; null for any other text.
 * @throws CommandError `bad_table` with every line that is neither, nor a session */
export function linesOfExport(text: string, path: string): ExportedLines | null {
  if (!text.trimStart().startsWith('{')) return null
  const table: Table = { names: [...morningColumns], rows: [] }
  const problems: Diagnostic[] = []
  const files: ExportedLines['files'] = []
  let sessions = 0
  for (const [index, each] of text.split(/\r?\n/).entries()) {
    if (each.trim() === '' || problems.length > mostDiagnostics) continue
    const read = readObject(each)
    const morning = typeof read === 'string' ? null : morningIn(read)
    if (morning !== null) {
      const [row] = morningRows([morning])
      table.rows.push({ cells: morningColumns.map((name) => row?.[name] ?? ''), line: index + 1 })
      continue
    }
    const file = typeof read === 'string' ? null : fileIn(read)
    if (file !== null) files.push(file)
    else if (typeof read !== 'string' && Object.hasOwn(read, 'session')) sessions += 1
    else {
      const message =
        'This line is not a morning. Example: {"morning":{"date":"2026-11-26","restingHeartRate":48}}'
      const shown = shownOf(each)
      problems.push({ ...errorAt(index + 1, 1, message, shown), length: shown.length })
    }
  }
  if (problems.length === 0) return { mornings: table, files, sessions }
  throw problemsError('bad_table', 'table', path, problems, 'Nothing was stored; correct the file.')
}

function fileIn({ file }: Record<string, unknown>): ExportedLines['files'][number] | null {
  if (typeof file !== 'object' || file === null || !('name' in file) || !('text' in file)) return null
  const name = ownTexts.find((each) => each === file.name)
  return name === undefined || typeof file.text !== 'string' ? null : { name, text: file.text }
}

/** Null unless it has the form of a morning. Values are checked later, for every kind of table. */
function morningIn({ morning }: Record<string, unknown>): Morning | null {
  if (typeof morning !== 'object' || morning === null || !('date' in morning)) return null
  const said = Object.entries(morning).filter(([key, value]) => key !== 'date' && value !== null)
  const { date } = morning
  const values = Object.fromEntries(said.filter(([, value]) => !Array.isArray(value) || value.length > 0))
  const event = { type: 'typed', at: '2000-01-01T00:00:00Z', date, values }
  const read = morningsKind.read({ format: morningFormat, events: [event] })
  const [first] = 'value' in read ? read.value : []
  return first?.type === 'typed' ? { date: first.date, ...first.values } : null
}

/** Whether a table has a date and otherwise only figures of a morning. */
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
): { events: MorningEvent[]; problems: Diagnostic[] } {
  const events: MorningEvent[] = []
  const problems: Diagnostic[] = []
  const before = new Map(known.map((morning) => [morning.date, JSON.stringify(morningRows([morning]))]))
  for (const { cells, line } of rows) {
    const pieces = names.flatMap((name, index) => pieceOf(columnOf(name), cells[index] ?? ''))
    const problem = (message: string) => {
      const text = cells.join(', ')
      problems.push({ ...errorAt(line, 1, message, text), length: text.length })
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
  const text = cellText(cell)
  if (text === '') return []
  if (column === 'note') return [`"${text.replaceAll('"', "'")}"`]
  if (column === 'resting heart rate' && /^\d+$/.test(text)) return [`${text} bpm`]
  return [text]
}
