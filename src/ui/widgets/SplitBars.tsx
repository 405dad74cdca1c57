import { Box, Text } from 'ink'
import { type SplitBar, splitBarsOf } from '../../summary/text.ts'

export interface LabelledSplit extends SplitBar {
  /** `3`, `500 m`. */
  label: string
  /** The value as text: `1:48.2`. */
  text: string
}

const marks = { fast: 'fast', in: '', slow: 'slow' } as const

/** Splits as bars with the range they are held against drawn in; one that is outside says so. The newest ones
 * when there are more than rows. */
export function SplitBars(props: { splits: readonly LabelledSplit[]; columns: number; rows: number }) {
  const splits = props.splits.slice(-props.rows)
  const widthOf = (text: (split: LabelledSplit) => string) =>
    Math.max(0, ...splits.map((split) => [...text(split)].length))
  const label = widthOf((split) => split.label)
  const text = widthOf((split) => split.text)
  const room = props.columns - label - text - '   '.length - marks.slow.length - '[]'.length
  const bars = room < 8 ? null : splitBarsOf(splits, Math.min(room, 40))
  return (
    <Box flexDirection="column">
      {splits.map((split, index) => (
        <Text key={index} wrap="truncate">
          {split.label.padStart(label)} {split.text.padStart(text)}
          {bars === null ? '' : ` ${bars[index]}`}
          {split.target === null || split.target === 'in' ? '' : ` ${marks[split.target]}`}
        </Text>
      ))}
    </Box>
  )
}
