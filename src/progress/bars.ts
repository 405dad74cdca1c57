/** A row of bars: its label, and a segment for each value. */
export interface BarRow {
  label: string
  /** Printed after the bar. */
  text: string
  /** Drawn one after the other. */
  stretches: { value: number; mark: string }[]
  /** A value that `|` marks on the bar's scale; null without one. */
  line?: number | null
}

/** Bars with fewer cells than this cannot be compared. */
const fewestCells = 5

/** Bars from 0 in plain characters, all on one scale. A value above 0 is at least one cell long.
 * @param columns of a whole row; where they are too few the bars are left out
 * @returns as many lines as rows, without spaces at their ends */
export function barLines(rows: readonly BarRow[], columns: number): string[] {
  const widest = (of: (row: BarRow) => string) => Math.max(0, ...rows.map((row) => of(row).length))
  const [label, text] = [widest((row) => row.label), widest((row) => row.text)]
  const most = Math.max(0, ...rows.map(({ stretches, line }) => Math.max(sumOf(stretches), line ?? 0)))
  const room = columns - label - text - 4
  const width = room < fewestCells ? 0 : room
  return rows.map((row) => {
    const bar = row.stretches.map(({ value, mark }) => mark.repeat(cells(value, most, width))).join('')
    const drawn = withLine(bar, cells(row.line ?? 0, most, width))
    return `${row.label.padEnd(label)}  ${row.text.padStart(text)}  ${drawn}`.trimEnd()
  })
}

/** @param cell from 1; 0 for none */
function withLine(bar: string, cell: number): string {
  return cell === 0 ? bar : `${bar.slice(0, cell - 1).padEnd(cell - 1)}|${bar.slice(cell)}`
}

function sumOf(stretches: BarRow['stretches']): number {
  return stretches.reduce((sum, { value }) => sum + value, 0)
}

function cells(value: number, most: number, width: number): number {
  if (value <= 0 || most <= 0 || width === 0) return 0
  return Math.max(1, Math.round((value / most) * width))
}

/** A table as lines: the first column to the left, the others to the right, two spaces between.
 * @param head a heading for each column
 * @param rows with as many cells each */
export function columnLines(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const all = [head, ...rows]
  const widths = head.map((_, column) => Math.max(...all.map((cells) => cells[column]?.length ?? 0)))
  return all.map((cells) =>
    widths
      .map((width, column) => {
        const cell = cells[column] ?? ''
        return column === 0 ? cell.padEnd(width) : cell.padStart(width)
      })
      .join('  ')
      .trimEnd(),
  )
}
