import { stringify } from 'csv-stringify/sync'
import type { Logbook } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { ownTexts, readOwnText } from '../logbook/ownTexts.ts'
import { loadSession } from '../logbook/sessionFile.ts'
import { openLogbook } from '../logbook/store.ts'
import { replay } from '../session/replay.ts'
import { setColumns, setRows, splitColumns, splitRows } from '../summary/rows.ts'
import { type CommandInput, commandLineError, type ExitCode } from './command.ts'
import { morningColumns, morningLine, morningRows } from './morningTable.ts'
import { type ProgressLine, progressLine, reportDamages } from './sessionsRead.ts'

/** Everything in the logbook, the oldest first: a session's summary on each line, then a morning on each, then the
 * athlete's own texts, or a table of all sets, splits or mornings. Exit status 3 if a session could not be read, which
 * is named; all others are exported.
 * @throws CommandError for options that do not go together */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values } = input
  const { what } = values
  const format = values.format ?? (what === undefined ? 'ndjson' : 'csv')
  if (format === 'ndjson' && what !== undefined)
    throw commandLineError(
      'A line of NDJSON is a whole session or a morning, so --what cannot be chosen. Leave it out, or write --format csv.',
    )
  if (what === 'mornings') return mornings(input)
  const logbook = openLogbook(input.logbookDir)
  const progress = progressLine(io, 'reading session')
  if (format === 'csv') {
    rows(input, logbook, progress, what === 'splits' ? 'splits' : 'sets')
    progress.clear()
    return reportDamages(io, logbook)
  }
  summaries(input, logbook, progress)
  const { mornings: known, damages } = readMornings(input.logbookDir)
  for (const morning of known) io.out(`${JSON.stringify(morningLine(morning))}\n`)
  for (const name of ownTexts) {
    const text = readOwnText(input.logbookDir, name)
    if (text !== null) io.out(`${JSON.stringify({ file: { name, text } })}\n`)
  }
  return reportDamages(io, { damages: [...logbook.damages, ...damages] })
}

function mornings({ io, logbookDir }: CommandInput): ExitCode {
  const { mornings, damages } = readMornings(logbookDir)
  io.out(csvText(morningColumns, morningRows(mornings), true))
  return reportDamages(io, { damages })
}

function summaries({ io }: CommandInput, logbook: Logbook, progress: ProgressLine): void {
  const entries = logbook.index(progress.show).reverse()
  progress.clear()
  for (const entry of entries) {
    const summary = entry.summary()
    if (summary !== null) io.out(`${JSON.stringify(summary)}\n`)
  }
}

function rows({ io }: CommandInput, logbook: Logbook, progress: ProgressLine, what: 'sets' | 'splits'): void {
  const columns = what === 'sets' ? setColumns : splitColumns
  io.out(csvText(columns, [], true))
  const entries = logbook.index(progress.show).reverse()
  entries.forEach((entry, index) => {
    progress.show(index, entries.length)
    // Null if it was damaged after the index was read; reading the index reports the others.
    const { session } = loadSession(logbook.directory, entry)
    if (session === null) return
    const state = replay(session)
    const table = what === 'sets' ? setRows(state, entry.id) : splitRows(state, entry.id)
    io.out(csvText(columns, table, false))
  })
}

/** Writes rows as CSV (RFC 4180). Text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a
 * carriage return) gets an apostrophe before it; numbers stay as they are; null is an empty cell. */
function csvText(
  columns: readonly string[],
  rows: readonly Record<string, string | number | null>[],
  header: boolean,
): string {
  return stringify([...rows], {
    columns: [...columns],
    header,
    record_delimiter: 'windows',
    escape_formulas: true,
  })
}
