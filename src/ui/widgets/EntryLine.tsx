import { Box, Text } from 'ink'
import type { Line } from '../../recorder/line.ts'
import { accent } from './Lines.tsx'
import { useTerminalSize } from './look.ts'

interface Props {
  /** What to enter: `set 3 of 5`. */
  label: string
  /** Shown instead of the label where that and what Enter records do not both fit. */
  short?: string | undefined
  line: Line
  /** Shown while the field is empty: what Enter alone would record, in words. */
  placeholder: string
}

/** Cells reserved for the field, whatever the length of the label. */
const leastField = 16
/** Cells that a label keeps beside a long placeholder: `repeat 1 of 3:`. */
const leastLabel = 14

/** A single-line text field. A longer text shows its end, where the user is typing. */
export function EntryLine({ label, short = label, line, placeholder }: Props) {
  const { columns } = useTerminalSize()
  const room = Math.max(0, columns - leastField - 3)
  const beside = columns - placeholder.length - 5
  const isWhole = label.length <= Math.min(room, beside)
  const shown = (isWhole ? label : short)
    .slice(0, Math.min(room, Math.max(leastLabel, beside)))
    .replace(/[ :,+]+$/, '')
  const isEmpty = line.text === ''
  return (
    <Box>
      <Box flexShrink={0}>
        <Text bold color={accent}>
          {shown}
        </Text>
        <Text>{shown === '' ? '> ' : ' > '}</Text>
      </Box>
      <Text wrap={isEmpty ? 'truncate' : 'truncate-start'}>
        <WithCursor {...line} />
        {isEmpty && placeholder !== '' ? ` ${placeholder}` : ''}
      </Text>
    </Box>
  )
}

/** A text with the character at the cursor in reversed colours, inside a `Text`. */
export function WithCursor({ text, column }: Line) {
  const at = [...text.slice(column)][0] ?? ' '
  return (
    <>
      {text.slice(0, column)}
      <Text inverse>{at}</Text>
      {text.slice(column + at.length)}
    </>
  )
}
