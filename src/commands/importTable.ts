import { type CsvError, parse } from 'csv-parse/sync'
import { CommandError } from './port.ts'

/** A table with its headings, and for each row the line of the file on which it ends. */
export interface Table {
  names: string[]
  rows: { cells: string[]; line: number }[]
  delimiter: string
}

/** Reads CSV as RFC 4180 has it, with commas, semicolons or tabs: whichever its first line has most of. Rows
 * without anything in them are left out.
 * @throws CommandError `bad_csv` for quotes that do not close, and rows of another length than the headings */
export function readTable(text: string): Table {
  const delimiter = delimiterOf(text)
  let records: { record: string[]; info: { lines: number } }[]
  try {
    records = parse(text, {
      bom: true,
      delimiter,
      info: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as typeof records
  } catch (error) {
    const { code, lines } = error as CsvError & { lines?: number }
    if (typeof code !== 'string') throw error
    const at = typeof lines === 'number' ? ` near line ${lines}` : ''
    const why =
      code === 'CSV_RECORD_INCONSISTENT_FIELDS_LENGTH'
        ? 'a row has more or fewer cells than the headings'
        : 'a quote is not closed, or stands where none can'
    throw new CommandError(
      'bad_csv',
      `The table cannot be read${at}: ${why}. Nothing was stored; correct the file.`,
    )
  }
  const [head, ...rows] = records
  if (head === undefined || rows.length === 0) {
    const message =
      'The table has no rows. Give a CSV file with headings in its first line and a set or a split on each line below.'
    throw new CommandError('bad_csv', message)
  }
  return {
    names: head.record,
    rows: rows
      .map(({ record, info }) => ({ cells: record, line: info.lines }))
      .filter(({ cells }) => cells.some((cell) => cell !== '')),
    delimiter,
  }
}

function delimiterOf(text: string): string {
  const [first = ''] = text.split(/\r?\n/, 1)
  const counts = [',', ';', '\t'].map((delimiter) => ({ delimiter, count: first.split(delimiter).length }))
  return counts.reduce((most, each) => (each.count > most.count ? each : most)).delimiter
}
