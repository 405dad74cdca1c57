import { fileOfLine, isLineOf } from './digestLine.ts'

/** Finds the last line of each file among the lines of a digest; null where there is none.
 *
 * A digest that was just rewritten has its lines in the order in which the files are asked for, and those that
 * were added since behind them: then ten thousand lines are found without a table of them all. In any other
 * order they are found just the same, only later. */
export function lineFinder(lines: readonly string[]): (file: string) => string | null {
  const end = endOfOrder(lines)
  const added = tableOf(lines, end, lines.length)
  let table: Map<string, string> | null = null
  let next = 0
  return (file) => {
    const line = lines[next]
    const isNext = next < end && line !== undefined && isLineOf(line, file)
    if (isNext) next += 1
    const later = added.size === 0 ? undefined : added.get(file)
    if (later !== undefined) return later
    if (isNext) return line
    table ??= tableOf(lines, 0, end)
    return table.get(file) ?? null
  }
}

/** How many lines stand at the beginning, each of an earlier file than the one before it. */
function endOfOrder(lines: readonly string[]): number {
  let before: string | null = null
  for (let index = 0; index < lines.length; index += 1) {
    const file = fileOfLine(lines[index] ?? '')
    if (file === null || (before !== null && file >= before)) return index
    before = file
  }
  return lines.length
}

/** A later line supersedes an earlier one. */
function tableOf(lines: readonly string[], from: number, to: number): Map<string, string> {
  const table = new Map<string, string>()
  for (let index = from; index < to; index += 1) {
    const line = lines[index] ?? ''
    const file = fileOfLine(line)
    if (file !== null) table.set(file, line)
  }
  return table
}
