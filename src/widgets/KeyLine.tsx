import { Box, Text } from 'ink'
import { type KeyHint, keyHintsThatFit } from './keyLine.ts'

/** The foot of a screen: the keys that do something now, the most useful first, as many as fit. */
export function KeyLine({ hints, columns }: { hints: readonly KeyHint[]; columns: number }) {
  return (
    <Box columnGap={3} height={1} overflow="hidden">
      {keyHintsThatFit(hints, columns).map(({ key, label }) => (
        <Box key={key} flexShrink={0}>
          <Text bold>{key}</Text>
          <Text> {label}</Text>
        </Box>
      ))}
    </Box>
  )
}
