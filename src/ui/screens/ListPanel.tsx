import { Box } from 'ink'
import { useContext } from 'react'
import type { Panel } from '../../recorder/modes/mode.ts'
import { AsciiContext, withoutArrows } from '../widgets/KeyLine.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { hanging, screenLines, wrappedItems, wrappedLine } from '../widgets/wrapped.ts'

/** A question, a list to pick from, or the page of keys, shown instead of the current step. */
export function ListPanel({ panel, columns, height }: { panel: Panel; columns: number; height: number }) {
  const title = screenLines(panel.title, columns)
  const room = Math.max(1, height - title.length)
  const { lines, selected } = panel
  return (
    <Box flexDirection="column" width={columns} height={height} overflow="hidden">
      <Lines lines={title} bold />
      {selected === null ? (
        <Page panel={panel} columns={columns} room={room} />
      ) : (
        <PickList rows={lines.map((line) => wrappedLine(line, columns - 2))} picked={selected} room={room} />
      )}
    </Box>
  )
}

/** Nothing can be picked here, so each item may wrap; dots at the end say that more follows. */
function Page({ panel, columns, room }: { panel: Panel; columns: number; room: number }) {
  const isAscii = useContext(AsciiContext)
  const isReworded = isAscii && panel.lines.some((line) => withoutArrows(line) !== line)
  const hang = isReworded ? panel.hang + 1 : panel.hang
  const worded = isReworded ? panel.lines.map((line) => withoutKeys(line, panel.hang)) : panel.lines
  const written = worded.map((line) => linesOf(line, hang, columns))
  const all = written.flat()
  const lines = all.length > room && panel.compact !== null ? wrappedItems(panel.compact, columns) : all
  const start = Math.max(0, Math.min(lines.length - room, written.slice(0, panel.top).flat().length))
  const shown = lines.slice(start, start + room)
  const isCut = start + room < lines.length
  const last = `${shown.at(-1)?.slice(0, columns - 2)} …`
  return <Lines lines={isCut ? [...shown.slice(0, -1), last] : shown} />
}

function linesOf(line: string, hang: number, columns: number): string[] {
  return line.length <= columns ? [line] : hanging(line.slice(0, hang), line.slice(hang), hang, columns)
}

/** The key names for the arrows need one more cell in front. */
function withoutKeys(line: string, hang: number): string {
  return withoutArrows(line.slice(0, hang).trimEnd()).padEnd(hang + 1) + withoutArrows(line.slice(hang))
}
