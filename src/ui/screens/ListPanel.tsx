import { Box } from 'ink'
import type { Panel } from '../../recorder/model.ts'
import type { RecorderView } from '../../recorder/view.ts'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { type Look, useLook } from '../widgets/look.ts'
import { cellsOf, hanging, screenLines, wrappedItems, wrappedLine } from '../widgets/wrapped.ts'
import { ClockLines, clockLines } from './NowPanel.tsx'

interface Room {
  columns: number
  height: number
}

/** A question, a list to pick from, or the page of keys, shown below a small clock instead of the current step.
 * @param top the first visible line, where nothing can be picked */
export function ListPanel(props: { view: RecorderView; panel: Panel; top: number } & Room) {
  const { view, panel, top, columns, height } = props
  const clock = clockAbove(view, { columns, height }, useLook())
  const room = height - clock.length
  const { title, lines, selected } = panel
  const heading = screenLines(title, columns)
  return (
    <Box flexDirection="column" width={columns} height={height} overflow="hidden">
      <ClockLines lines={clock} columns={columns} isTurned={view.go || view.clock.isEnding} />
      {selected === null ? (
        <Page panel={panel} top={top} columns={columns} height={room} />
      ) : (
        <>
          <Lines lines={heading} bold />
          <PickList
            rows={lines.map((line) => wrappedLine(line, columns - 2))}
            picked={selected}
            room={Math.max(1, room - heading.length)}
          />
        </>
      )}
    </Box>
  )
}

/** Three rows, and a fourth for the bar of a rest if there is room. */
function clockAbove(view: RecorderView, { columns, height }: Room, look: Look): string[] {
  return view.clock.label === 'ready' ? [] : clockLines(view, { columns, rows: height >= 12 ? 4 : 3 }, look)
}

/** How many lines of a question or a page do not fit: the arrows scroll to them. */
export function hiddenLines(view: RecorderView, room: Room, look: Look): number {
  if (view.panel === null || view.panel.selected !== null) return 0
  const height = room.height - clockAbove(view, room, look).length
  return pageOf(view.panel, { ...room, height }).hidden
}

/** Dots at the end say that more follows. */
function Page({ panel, top, columns, height }: { panel: Panel; top: number } & Room) {
  const { lines, title, hidden } = pageOf(panel, { columns, height })
  const start = Math.min(top, hidden)
  const shown = lines.slice(start, start + height)
  const titleLeft = Math.max(0, title - start)
  if (start < hidden) shown.push(`${shown.pop()?.slice(0, columns - 2)} …`)
  return (
    <>
      <Lines lines={shown.slice(0, titleLeft)} bold />
      <Lines lines={shown.slice(titleLeft)} />
    </>
  )
}

/** The lines of a panel from which nothing is picked; one after the other where they do not fit below each other.
 * `title`: how many of them are its title; `hidden`: how many do not fit. */
function pageOf(panel: Panel, { columns, height }: Room): { lines: string[]; title: number; hidden: number } {
  const title = screenLines(panel.title, columns)
  const whole = panel.lines.flatMap((line) => linesOf(line, panel.hang, columns))
  const isLong = title.length + whole.length > height
  const items = panel.lines.map((line) => line.trim().replace(/ {2,}/g, ' '))
  const body = isLong && !panel.isWholePage ? wrappedItems(items, columns) : whole
  const lines = [...title, ...body]
  return { lines, title: title.length, hidden: Math.max(0, lines.length - Math.max(1, height)) }
}

function linesOf(line: string, hang: number, columns: number): string[] {
  return cellsOf(line) <= columns ? [line] : hanging(line.slice(0, hang), line.slice(hang), hang, columns)
}
