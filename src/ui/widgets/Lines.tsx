import { Box, Text } from 'ink'
import { windowStart } from '../../recorder/modes/mode.ts'

/** https://no-color.org: a non-empty value turns colours off; FORCE_COLOR, which chalk reads, takes precedence. */
const isColourful = !process.env.NO_COLOR || process.env.FORCE_COLOR !== undefined

/** The one colour with a meaning: what to do now. It is one of the terminal's own sixteen, so its user has chosen the
 * shade. A mark or a word always says the same. Without colour, bold and reversed text remain. */
export const accent = isColourful ? 'cyan' : undefined

/** What the long signal looks like: the word turned over. */
export const goText = ' go '

/** Lines of text, each on its own row of the screen and cut at its end; an empty one keeps its row. */
export function Lines(props: { lines: readonly string[]; bold?: boolean; color?: string | undefined }) {
  const { lines, bold = false, color } = props
  return lines.map((line, index) => (
    <Text key={index} wrap="truncate" bold={bold} color={color} inverse={line === goText}>
      {line || ' '}
    </Text>
  ))
}

/** Rows to pick one from, each of one or more lines, in a window that shows all of the picked one. */
export function PickList(props: { rows: readonly (readonly string[])[]; picked: number; room: number }) {
  const { rows, picked, room } = props
  const before = rows.slice(0, picked).flat().length
  const own = rows[picked]?.length ?? 0
  const middle = windowStart(before, rows.flat().length, room)
  const from = Math.min(before, Math.max(middle, before + own - room))
  let top = 0
  let first = 0
  while (top < from) top += rows[first++]?.length ?? 1
  let left = room
  return (
    <Box flexDirection="column" height={room} overflow="hidden">
      {rows.slice(first).map((row, index) => {
        // The last row may show only its first lines.
        const shown = row.slice(0, Math.max(0, left))
        left -= row.length
        const isPicked = first + index === picked
        const mark = isPicked ? '>' : ' '
        const lines = shown.map((line, at) => `${at === 0 ? mark : ' '} ${line}`)
        return (
          <Lines key={first + index} lines={lines} bold={isPicked} color={isPicked ? accent : undefined} />
        )
      })}
    </Box>
  )
}
