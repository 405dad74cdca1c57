import { Box, Text } from 'ink'
import { memo } from 'react'
import { type DayLine, dayWindow } from '../../recorder/view.ts'
import { cellsOf } from '../../summary/plain.ts'
import { accent } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

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
