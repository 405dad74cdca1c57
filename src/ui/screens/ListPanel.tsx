import { Box } from 'ink'
import { useContext } from 'react'
import type { Panel } from '../../recorder/modes/mode.ts'
import { AsciiContext, withoutArrows } from '../widgets/KeyLine.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { hanging, screenLines, wrappedItems, wrappedLine } from '../widgets/wrapped.ts'

interface Room {
  columns: number
  height: number
}

/** A question, a list to pick from, or the page of keys, shown instead of the current step.
 * @param top the first visible line, where nothing can be picked */
export function ListPanel({ panel, top, columns, height }: { panel: Panel; top: number } & Room) {
  const { title, lines, selected } = panel
  if (selected === null) return <Page panel={panel} top={top} columns={columns} height={height} />
  const heading = screenLines(title, columns)
  const room = Math.max(1, height - heading.length)
  return (
    <Box flexDirection="column" width={columns} height={height} overflow="hidden">
      <Lines lines={heading} bold />
      <PickList rows={lines.map((line) => wrappedLine(line, columns - 2))} picked={selected} room={room} />
    </Box>
  )
}

/** Dots at the end say that more follows. */
function Page({ panel, top, columns, height }: { panel: Panel; top: number } & Room) {
  const page = pageOf(panel, { columns, height }, useContext(AsciiContext))
  const start = Math.min(top, page.hidden)
  const shown = page.lines.slice(start, start + height)
  const title = Math.max(0, page.title - start)
  if (start < page.hidden) shown.push(`${shown.pop()?.slice(0, columns - 2)} …`)
  return (
    <Box flexDirection="column" width={columns} height={height} overflow="hidden">
      <Lines lines={shown.slice(0, title)} bold />
      <Lines lines={shown.slice(title)} />
    </Box>
  )
}

/** The lines of a panel from which nothing is picked. `title`: how many of them are its title; `hidden`: how many have
 * no room. */
export function pageOf(
  panel: Panel,
  { columns, height }: Room,
  isAscii: boolean,
): { lines: string[]; title: number; hidden: number } {
  const title = screenLines(panel.title, columns)
  const isReworded = isAscii && panel.lines.some((line) => withoutArrows(line) !== line)
  const hang = isReworded ? panel.hang + 1 : panel.hang
  const worded = isReworded ? panel.lines.map((line) => withoutKeys(line, panel.hang)) : panel.lines
  const whole = worded.flatMap((line) => linesOf(line, hang, columns))
  const isLong = title.length + whole.length > height
  const own = isLong && panel.compact !== null ? wrappedItems(panel.compact, columns) : whole
  const lines = [...title, ...own]
  return { lines, title: title.length, hidden: Math.max(0, lines.length - Math.max(1, height)) }
}

function linesOf(line: string, hang: number, columns: number): string[] {
  return line.length <= columns ? [line] : hanging(line.slice(0, hang), line.slice(hang), hang, columns)
}

/** The key names for the arrows need one more cell in front. */
function withoutKeys(line: string, hang: number): string {
  return withoutArrows(line.slice(0, hang).trimEnd()).padEnd(hang + 1) + withoutArrows(line.slice(hang))
}
