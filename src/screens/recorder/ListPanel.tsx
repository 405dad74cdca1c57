import { Box, Text } from 'ink'
import type { RecorderView } from '../../recorder/view.ts'
import { accent } from '../../widgets/colours.ts'

type Panel = NonNullable<RecorderView['panel']>

/** A question, a list to pick from, or the page of keys, in the place of what is now. */
export function ListPanel({ panel, columns, height }: { panel: Panel; columns: number; height: number }) {
  const room = Math.max(1, height - 2)
  const wanted = panel.selected === null ? panel.top : panel.selected - Math.floor(room / 2)
  const start = Math.max(0, Math.min(panel.lines.length - room, wanted))
  return (
    <Box flexDirection="column" width={columns} height={height}>
      <Text bold wrap="wrap">
        {panel.title}
      </Text>
      {panel.lines.slice(start, start + room).map((line, index) => {
        const now = panel.selected === start + index
        return (
          <Text key={index} wrap="truncate" color={now ? accent : undefined} bold={now}>
            {panel.selected === null ? line : `${now ? '>' : ' '} ${line}`}
          </Text>
        )
      })}
    </Box>
  )
}
