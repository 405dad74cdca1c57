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
