import { stringify } from 'csv-stringify/sync'

/** Rows as CSV (RFC 4180). A cell of text that a spreadsheet would take for a formula (it begins with = + - @, a
 * tab or a carriage return) gets an apostrophe before it; numbers stay as they are.
 * @param rows null is an empty cell */
export function csvText(
  columns: readonly string[],
  rows: readonly Record<string, string | number | null>[],
  hasHeader: boolean,
): string {
  return stringify([...rows], {
    columns: [...columns],
    header: hasHeader,
    record_delimiter: 'windows',
    escape_formulas: true,
  })
}
