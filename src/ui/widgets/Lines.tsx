import { Text } from 'ink'

/** Lines of text, each on its own row of the screen and cut at its end; an empty one keeps its row. */
export function Lines(props: { lines: readonly string[]; bold?: boolean; color?: string }) {
  const { lines, bold = false, color } = props
  return lines.map((line, index) => (
    <Text key={index} wrap="truncate" bold={bold} color={color}>
      {line || ' '}
    </Text>
  ))
}
