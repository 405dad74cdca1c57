import { Box, Text } from 'ink'
import { useContext } from 'react'
import { AsciiContext, withoutArrows } from './asciiText.ts'
import { type KeyHint, keyHintsThatFit } from './keyLine.ts'

/** The foot of a screen: the keys that do something now, the most useful first, as many as fit. */
export function KeyLine({ hints, columns }: { hints: readonly KeyHint[]; columns: number }) {
  const isAscii = useContext(AsciiContext)
  const written = isAscii ? hints.map((hint) => ({ ...hint, key: withoutArrows(hint.key) })) : hints
  return (
    <Box columnGap={3} height={1} overflow="hidden">
      {keyHintsThatFit(written, columns).map(({ key, label }) => (
        <Box key={key} flexShrink={0}>
          <Text bold>{key}</Text>
          <Text> {label}</Text>
        </Box>
      ))}
    </Box>
  )
}
