import { Box, Text } from 'ink'
import { accent } from './colours.ts'
import { dayStripOf, type StripPart } from './dayStrip.ts'

/** What is done of the day and what is left, on one line. */
export function DayStrip(props: { parts: readonly StripPart[]; columns: number; isUnicode: boolean }) {
  const pieces = dayStripOf(props.parts, props.columns, props.isUnicode)
  return (
    <Box columnGap={1} height={1} overflow="hidden">
      {pieces.map((piece, index) => (
        <Box key={index} flexShrink={0}>
          <Text bold={piece.isNow} {...(piece.isNow ? { color: accent } : {})}>
            {piece.text}
          </Text>
        </Box>
      ))}
    </Box>
  )
}
