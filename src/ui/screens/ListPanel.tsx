import { Box } from 'ink'
import type { RecorderView } from '../../recorder/view.ts'
import { cellsOf } from '../../summary/plain.ts'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { hanging, screenLines, wrappedItems, wrappedLine } from '../widgets/wrapped.ts'
import { ClockLines, clockLines, type ShownView } from './NowPanel.tsx'

interface Room {
  columns: number
  height: number
}

/** A question, a list to pick from, or the page of keys, at a size. */
export interface PanelPage {
  /** Small, above the rest. */
  clock: string[]
  title: string[]
  /** Below the title, where nothing can be picked. */
  lines: string[]
  /** How many lines do not fit: the arrows scroll to them. */
  hidden: number
}

/** Null while the current step is shown. */
export function panelPage({ panel, ...view }: ShownView, room: Room): PanelPage | null {
  if (panel === null) return null
  const { columns, height } = room
  // Three rows, and a fourth for the bar of a rest if there is room.
  const rows = height >= 12 ? 4 : 3
  const clock = view.clock.label === 'ready' ? [] : clockLines(view, { columns, rows })
  const title = screenLines(panel.title, columns)
  if (panel.selected !== null) return { clock, title, lines: [], hidden: 0 }
  const left = Math.max(1, height - clock.length)
  const whole = panel.lines.flatMap((line) =>
    cellsOf(line) <= columns
      ? [line]
      : hanging(line.slice(0, panel.hang), line.slice(panel.hang), panel.hang, columns),
  )
  // As one paragraph if the screen has too few lines for a line each.
  const isLong = title.length + whole.length > height - clock.length && !panel.isWholePage
  const items = panel.lines.map((line) => line.trim().replace(/ {2,}/g, ' '))
  const lines = isLong ? wrappedItems(items, columns) : whole
  return { clock, title, lines, hidden: Math.max(0, title.length + lines.length - left) }
}

/** @param top the first visible line, where nothing can be picked */
export function ListPanel(props: { view: RecorderView; page: PanelPage; top: number } & Room) {
  const { view, page, top, columns, height } = props
  const { clock, title, lines, hidden } = page
  const { lines: rows = [], selected = null } = view.panel ?? {}
  const room = height - clock.length
  const shown = [...title, ...lines].slice(top, top + room)
  // Dots say that more follows.
  if (top < hidden) shown.push(`${shown.pop()?.slice(0, columns - 2)} …`)
  const titleLeft = selected === null ? Math.max(0, title.length - top) : title.length
  return (
    <Box flexDirection="column" width={columns} height={height} overflow="hidden">
      <ClockLines lines={clock} columns={columns} isTurned={view.go || view.clock.isEnding} />
      <Lines lines={shown.slice(0, titleLeft)} bold />
      {selected === null ? (
        <Lines lines={shown.slice(titleLeft)} />
      ) : (
        <PickList
          rows={rows.map((line) => wrappedLine(line, columns - 2))}
          picked={selected}
          room={Math.max(1, room - title.length)}
        />
      )}
    </Box>
  )
}
