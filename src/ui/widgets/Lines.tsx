import { Box, Text } from 'ink'
import { pickedIndex, windowStart } from '../../units/lists.ts'
import { goText } from './screenKeys.ts'

/** https://no-color.org: a non-empty value turns colours off; FORCE_COLOR, which chalk reads, takes precedence. */
const isColourful = !process.env.NO_COLOR || Boolean(process.env.FORCE_COLOR)

/** The one colour with a meaning: what to do now. It is one of the terminal's own sixteen, so its user has chosen the
 * shade. A mark or a word always says the same. Without colour, bold and reversed text remain. */
export const accent = isColourful ? 'cyan' : undefined

/** Lines of text, each on its own row of the screen and cut at its end; an empty one keeps its row. */
export function Lines(props: { lines: readonly string[]; bold?: boolean; color?: string | undefined }) {
  const { lines, bold = false, color } = props
  return lines.map((line, index) => (
    <Text key={index} wrap="truncate" bold={bold} color={color} inverse={line === goText}>
      {line || ' '}
    </Text>
  ))
}

/** Rows to pick one from, each of one or more lines, in a window that begins with a whole row and shows all of the
 * picked one. */
export function PickList(props: { rows: readonly (readonly string[])[]; picked: number; room: number }) {
  const { rows, picked, room } = props
  const lines = rows.flatMap((row, index) =>
    row.map((line, at) => {
      const isPicked = index === picked
      return { text: `${isPicked && at === 0 ? '>' : ' '} ${line}`, isFirst: at === 0, isPicked }
    }),
  )
  const before = pickedIndex(lines, ({ isPicked }) => isPicked)
  const pickedLines = rows[picked]?.length ?? 0
  const from = Math.min(
    before,
    Math.max(windowStart(before, lines.length, room), before + pickedLines - room),
  )
  const top = lines.findIndex(({ isFirst }, index) => isFirst && index >= from)
  return (
    <Box flexDirection="column" height={room} overflow="hidden">
      {lines.slice(top, top + room).map(({ text, isPicked }, index) => (
        <Lines key={index} lines={[text]} bold={isPicked} color={isPicked ? accent : undefined} />
      ))}
    </Box>
  )
}
