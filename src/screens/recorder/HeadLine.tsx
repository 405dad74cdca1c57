import { Box, Text } from 'ink'
import type { RecorderView } from '../../recorder/view.ts'

/** Title, place, minutes, and whether all is saved. The title gives way first. */
export function HeadLine({ head, columns }: { head: RecorderView['head']; columns: number }) {
  const right = [columns >= 60 ? head.place : '', head.minutes, head.saved]
    .filter((text) => text !== '')
    .join('   ')
  return (
    <Box width={columns} justifyContent="space-between">
      <Box flexGrow={1} flexShrink={1} minWidth={0}>
        <Text bold wrap="truncate">
          {columns >= 60 ? head.title : head.isSaved ? head.place : ''}
        </Text>
      </Box>
      <Box flexShrink={head.isSaved ? 0 : 1} marginLeft={2}>
        <Text wrap="truncate" bold={!head.isSaved} inverse={!head.isSaved}>
          {head.isSaved ? right : head.saved}
        </Text>
      </Box>
    </Box>
  )
}
