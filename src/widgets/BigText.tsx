import { Box, Text } from 'ink'
import { type BigSize, bigTextOf } from './bigText.ts'
import { accent } from './colours.ts'

export interface BigTextProps {
  text: string
  size: BigSize
  isUnicode: boolean
  /** It is what is to be done now. */
  isAccented?: boolean
}

/** Text that can be read from three metres, as far as its size allows. */
export function BigText({ text, size, isUnicode, isAccented = false }: BigTextProps) {
  const rows = bigTextOf(text, size, isUnicode)
  return (
    <Box flexDirection="column" flexShrink={0}>
      {rows.map((row, index) => (
        <Text key={index} wrap="truncate" bold={rows.length === 1} {...(isAccented ? { color: accent } : {})}>
          {row}
        </Text>
      ))}
    </Box>
  )
}
