import { Box, Text } from 'ink'
import { memo } from 'react'
import { type DayLine, dayWindow } from '../../recorder/dayLines.ts'
import { accent } from '../../widgets/colours.ts'

const marks = { done: '=', now: '>', ahead: ' ', skipped: '-', none: ' ' } as const

interface Props {
  lines: readonly DayLine[]
  width: number
  height: number
  ascii: boolean
}

/** Every item of the day; what is now is marked and in the middle third. Memoised: a day can have thousands of lines,
 * and the clock ticks every second. */
export const DayPanel = memo(function DayPanel({ lines, width, height, ascii }: Props) {
  const shown = dayWindow(lines, height)
  return (
    <Box flexDirection="column" width={width} height={height} paddingRight={2}>
      {shown.map((line, index) => (
        <Line key={index} line={line} ascii={ascii} />
      ))}
    </Box>
  )
})

function Line({ line, ascii }: { line: DayLine; ascii: boolean }) {
  if (line.kind === 'part')
    return (
      <Text bold wrap="truncate">
        {line.text}
      </Text>
    )
  const now = line.mark === 'now'
  const done = line.mark === 'done' && !ascii ? '✓' : marks[line.mark]
  const text = line.kind === 'results' ? `    ${line.text}` : ` ${done} ${line.text}`
  return (
    <Text wrap="truncate" color={now ? accent : undefined} bold={now}>
      {text}
    </Text>
  )
}
