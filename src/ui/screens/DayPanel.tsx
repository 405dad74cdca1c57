import { sum } from 'd3-array'
import { Box, Text } from 'ink'
import { memo } from 'react'
import { type DayLine, dayWindow, type StripPart } from '../../recorder/view.ts'
import { accent } from '../widgets/Lines.tsx'
import { cellsOf, screenLinesUpTo } from '../widgets/wrapped.ts'

/** The width of the day beside the current step. */
export function widthOfDay(columns: number): number {
  return Math.min(60, Math.floor(columns * 0.42))
}

const marks = { done: '✓', now: '>', ahead: ' ', skipped: '-', none: ' ' } as const

/** Every item of the day, with the current one marked and in the middle third. Memoised: a day can have thousands of
 * lines, and the clock ticks every second. */
export const DayPanel = memo(function DayPanel(props: {
  lines: readonly DayLine[]
  width: number
  height: number
}) {
  const { lines, width, height } = props
  const wrapped = lines.flatMap((line) => wrappedLines(line, width - 6))
  return (
    <Box flexDirection="column" width={width} height={height} paddingRight={2}>
      {dayWindow(wrapped, height).map((line, index) => (
        <Line key={index} line={line} />
      ))}
    </Box>
  )
})

/** A long item wraps, so that its load stays visible. */
function wrappedLines(line: DayLine, columns: number): DayLine[] {
  if (line.kind === 'part' || cellsOf(line.text) <= columns) return [line]
  return screenLinesUpTo(3, line.text, columns).map((text, index) =>
    index === 0 ? { ...line, text } : { kind: 'below', mark: 'none', text },
  )
}

function Line({ line: { kind, mark, text } }: { line: DayLine }) {
  const isNow = mark === 'now'
  const indent = { part: '', item: ` ${marks[mark]} `, below: '    ' }[kind]
  return (
    <Text wrap="truncate" color={isNow ? accent : undefined} bold={isNow || kind === 'part'}>
      {indent + text}
    </Text>
  )
}

/** One line that shows how much of the day is done. */
export function DayStrip({ parts, columns }: { parts: readonly StripPart[]; columns: number }) {
  return (
    <Box columnGap={1} height={1} overflow="hidden">
      {dayStripOf(parts, columns).map(({ text, isNow }, index) => (
        <Box key={index} flexShrink={0}>
          <Text bold={isNow} color={isNow ? accent : undefined}>
            {text}
          </Text>
        </Box>
      ))}
    </Box>
  )
}

/** Lays out the day on one line: for each part a label and a bar with one cell per result. With little room the labels
 * are dropped first, then the bars get narrower.
 * @returns one piece per part, to be joined with a space */
export function dayStripOf(parts: readonly StripPart[], columns: number): { text: string; isNow: boolean }[] {
  const total = sum(parts, (part) => part.of)
  const labels = sum(parts, (part) => [...part.label].length + 1)
  const free = columns - Math.max(0, parts.length - 1)
  const isLabelled = free - labels >= parts.length
  const cells = Math.max(parts.length, Math.min(total, isLabelled ? free - labels : free))
  return parts.map((part) => {
    const width = cells >= total ? part.of : 1 + Math.floor(((cells - parts.length) * part.of) / total)
    const bar = barOf(part, width)
    return { text: isLabelled ? `${part.label} ${bar}` : bar, isNow: part.isNow }
  })
}

/** Full only if everything is done, and empty only if nothing is. */
function barOf(part: StripPart, width: number): string {
  const share = Math.round((width * part.done) / part.of)
  const full = part.done >= part.of ? width : Math.min(share, width - 1)
  const left = width - full
  return '█'.repeat(full) + (part.isNow && left > 0 ? '▒' : '') + '░'.repeat(left).slice(part.isNow ? 1 : 0)
}
