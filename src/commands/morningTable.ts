import { morningsKind } from '../logbook/mornings.ts'
import { type OwnText, ownTexts } from '../logbook/ownTexts.ts'
import { morningFormat, readObject } from '../logbook/text.ts'
import { type Morning, printMorning, readMorning, type TypedMorning, valuesNotIn } from '../plan/morning.ts'
import { type Diagnostic, errorIn, mostDiagnostics, shownOf } from '../prescription/lines.ts'
import type { MassUnit } from '../units/model.ts'
import { isObject } from '../validate/faults.ts'
import { problemsError } from './command.ts'
import { cellText, type Table } from './importTable.ts'

/** The cells of a table of mornings: written as they are typed, except that the note has no quotes. */
const columns = {
  date: ({ date }: Morning) => date,
  sleep: ({ sleepSeconds }: Morning) => printMorning({ sleepSeconds }),
  'resting heart rate': ({ restingHeartRate }: Morning) => printMorning({ restingHeartRate }),
  'body mass': ({ bodyMass }: Morning) => printMorning({ bodyMass }),
  soreness: ({ soreness }: Morning) => printMorning({ soreness }),
  note: ({ note }: Morning) => note ?? '',
}
type Column = keyof typeof columns

export const morningColumns = Object.keys(columns) as Column[]

/** What else a heading may be called. */
const otherNames: Readonly<Record<string, Column>> = {
  day: 'date',
  'resting hr': 'resting heart rate',
  rhr: 'resting heart rate',
  bodyweight: 'body mass',
  weight: 'body mass',
  notes: 'note',
}

/** Mornings as rows of a table that `import` reads again. */
export function morningRows(mornings: readonly Morning[]): Record<string, string>[] {
  return mornings.map((morning) =>
    Object.fromEntries(morningColumns.map((column) => [column, columns[column](morning)])),
  )
}

/** Writes a morning as a line of NDJSON; no key is ever missing. */
export function morningLine({ date, ...words }: Morning) {
  const none = { sleepSeconds: null, restingHeartRate: null, bodyMass: null, soreness: [], note: null }
  return { morning: { date, ...none, ...words } }
}

/** A morning as one would type it, with its date, and where it is in the file. */
export interface MorningLine {
  text: string
  line: number
}

/** What `export` writes as NDJSON. */
export interface ExportedLines {
  mornings: MorningLine[]
  files: { name: OwnText; text: string }[]
  /** How many lines are summaries of sessions. */
  sessions: number
}

/** Mornings and the athlete's own texts in NDJSON; null for any other text.
 * @throws CommandError `bad_table` with every line that is neither, nor a session */
export function linesOfExport(text: string, path: string): ExportedLines | null {
  if (!text.trimStart().startsWith('{')) return null
  const found: ExportedLines = { mornings: [], files: [], sessions: 0 }
  const problems: Diagnostic[] = []
  for (const [index, each] of text.split(/\r?\n/).entries()) {
    if (each.trim() === '' || problems.length > mostDiagnostics) continue
    const read = readObject(each)
    const object = typeof read === 'string' ? {} : read
    const [morning, file] = [morningIn(object), fileIn(object)]
    if (morning !== null) found.mornings.push({ text: typedOf(morning), line: index + 1 })
    else if (file !== null) found.files.push(file)
    else if (Object.hasOwn(object, 'session')) found.sessions += 1
    else {
      const message =
        'This line is not a morning. Example: {"morning":{"date":"2026-11-26","restingHeartRate":48}}'
      const shown = shownOf(each)
      problems.push(errorIn({ number: index + 1, shown }, 0, shown.length, message))
    }
  }
  if (problems.length === 0) return found
  throw problemsError('bad_table', 'table', path, problems, 'Nothing was stored; correct the file.')
}

function typedOf({ date, note, ...words }: Morning): string {
  const text = printMorning({ ...words, ...(note === undefined ? {} : { note: withoutQuotes(note) }) })
  return text === '' ? date : `${date}, ${text}`
}

function fileIn({ file }: Record<string, unknown>): ExportedLines['files'][number] | null {
  const name = isObject(file) ? ownTexts.find((each) => each === file.name) : undefined
  return isObject(file) && name !== undefined && typeof file.text === 'string'
    ? { name, text: file.text }
    : null
}

/** Null unless it has the form of a morning. Values are checked later, for every kind of table. */
function morningIn({ morning }: Record<string, unknown>): Morning | null {
  if (!isObject(morning)) return null
  const { date, ...rest } = morning
  const isGiven = (value: unknown) => value !== null && !(Array.isArray(value) && value.length === 0)
  const values = Object.fromEntries(Object.entries(rest).filter(([, value]) => isGiven(value)))
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
  return morningColumns.find((column) => column === plain) ?? otherNames[plain] ?? null
}

/** The rows of a table of mornings. */
export function linesOfTable({ names, rows }: Table): MorningLine[] {
  return rows.map(({ cells, line }) => ({
    text: names.flatMap((name, index) => pieceOf(columnOf(name), cells[index] ?? '')).join(', '),
    line,
  }))
}

function pieceOf(column: Column | null, cell: string): string[] {
  const given = cellText(cell)
  if (given === '') return []
  if (column === 'note') return [`"${withoutQuotes(given)}"`]
  // A decimal comma would end the value.
  const text = given.replace(/^(\d+),(\d)/, '$1.$2')
  // `sleep 6.5` needs no unit.
  return [column === null || column === 'date' || column === 'soreness' ? text : `${column} ${text}`]
}

function withoutQuotes(note: string): string {
  return note.replaceAll('"', "'")
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
  for (const { text, line } of lines) {
    const reading = readMorning(text, at.slice(0, 10), massUnit)
    const problem =
      'problem' in reading ? reading.problem : reading.date === null ? 'The date is missing.' : null
    if (problem !== null) problems.push(errorIn({ number: line, shown: text }, 0, text.length, problem))
    if ('problem' in reading || reading.date === null) continue
    given.push({ type: 'typed', at, date: reading.date, values: reading.values })
  }
  const events = given
    .map((event) => ({ ...event, values: valuesNotIn(before.get(event.date) ?? {}, event.values) }))
    .filter(({ values }) => Object.keys(values).length > 0)
  return { events, given, problems }
}
