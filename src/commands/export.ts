import { stringify } from 'csv-stringify/sync'
import { readMornings } from '../logbook/mornings.ts'
import { ownTexts, readOwnText } from '../logbook/ownTexts.ts'
import { loadSession } from '../logbook/sessionFile.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { type Row, setColumns, setRows, splitColumns, splitRows } from '../summary/rows.ts'
import { type CommandInput, commandLineError, type ExitCode } from './command.ts'
import { contextOf, reportDamages } from './context.ts'
import { withProgress } from './io.ts'
import { morningColumns, morningLine, morningRows } from './morningTable.ts'

/** Everything in the logbook, the oldest first: a session's summary on each line, then a morning on each, then the
 * athlete's own texts, or a table of all sets, splits or mornings. Exit status 3 if a session could not be read, which
 * is named; all others are exported.
 * @throws CommandError for options that do not go together */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { what, format = what === undefined ? 'ndjson' : 'csv' } = input.values
  if (format === 'ndjson' && what !== undefined)
    throw commandLineError(
      'A line of NDJSON is a whole session or a morning, so --what cannot be chosen. Leave it out, or write --format csv.',
    )
  if (format === 'ndjson') return lines(input)
  if (what === 'mornings') return mornings(input)
  return what === 'splits' ? table(input, splitColumns, splitRows) : table(input, setColumns, setRows)
}

function lines(input: CommandInput): ExitCode {
  const { io, logbookDir } = input
  const { logbook, entries } = contextOf(input)
  for (const entry of entries.toReversed()) {
    const summary = entry.summary()
    if (summary !== null) io.out(`${JSON.stringify(summary)}\n`)
  }
  const { mornings, damages } = readMornings(logbookDir)
  for (const morning of mornings) io.out(`${JSON.stringify(morningLine(morning))}\n`)
  for (const name of ownTexts) {
    const text = readOwnText(logbookDir, name)
    if (text !== null) io.out(`${JSON.stringify({ file: { name, text } })}\n`)
  }
  return reportDamages(io, { damages: [...logbook.damages, ...damages] })
}

function mornings({ io, logbookDir }: CommandInput): ExitCode {
  const { mornings, damages } = readMornings(logbookDir)
  io.out(csvText(morningColumns, morningRows(mornings), true))
  return reportDamages(io, { damages })
}

function table(
  input: CommandInput,
  columns: readonly string[],
  rowsOf: (state: SessionState, id: string) => Row[],
): ExitCode {
  const { io, logbookDir } = input
  const context = contextOf(input)
  io.out(csvText(columns, [], true))
  const entries = context.entries.toReversed()
  withProgress(io, 'reading session', (show) => {
    for (const [index, entry] of entries.entries()) {
      show(index, entries.length)
      // Null if it was damaged after the index was read; reading the index reports the others.
      const { value: session } = loadSession(logbookDir, entry)
      if (session !== null) io.out(csvText(columns, rowsOf(replay(session), entry.id), false))
    }
  })
  return reportDamages(io, context.logbook)
}

/** Writes rows as CSV (RFC 4180). Text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a
 * carriage return) gets an apostrophe before it; numbers stay as they are; null is an empty cell. */
function csvText(columns: readonly string[], rows: readonly Row[], header: boolean): string {
  return stringify([...rows], {
    columns: [...columns],
    header,
    record_delimiter: 'windows',
    escape_formulas: true,
  })
}
