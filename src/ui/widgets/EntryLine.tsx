import { Box, Text } from 'ink'
import TextInput from 'ink-text-input'
import { useState } from 'react'
import { keptBy } from '../../recorder/spelling.ts'
import { useKeys } from './keys.ts'
import { accent } from './Lines.tsx'
import { useTerminalSize } from './terminalSize.ts'
import { characterAt } from './wrapped.ts'

export interface EntryLineProps {
  /** What to enter: `set 3 of 5`. */
  label: string
  /** Shown instead of the label where that and what Enter records do not both fit. */
  short?: string | undefined
  value: string
  /** Called with the field's new text. The field keeps it only if `value` becomes that text. */
  onChange: (value: string) => void
  /** Shown while the field is empty: what Enter alone would record, in words. */
  placeholder: string
}

/** Cells reserved for the field, whatever the length of the label. */
const leastField = 16
/** Cells that a label keeps beside a long placeholder: `repeat 1 of 3:`. */
const leastLabel = 14

/** A single-line text field. A longer text shows its end, where the user is typing. */
export function EntryLine({ label, short = label, value, onChange, placeholder }: EntryLineProps) {
  // The field keeps its own cursor, which is right only for text it made itself. When the text changes from outside
  // (a letter that was a command, a draft that came back), a new field starts with the cursor at the end.
  const [field, setField] = useState({ ownText: value, number: 0 })
  if (field.ownText !== value) setField({ ownText: value, number: field.number + 1 })
  const changed = (ownText: string) => {
    const text = fieldTextOf(value, ownText)
    setField({ ...field, ownText })
    if (text !== value) onChange(text)
  }
  useKeys((key) => {
    const kept = key.kind === 'named' ? keptBy(key.name, value) : null
    if (kept !== null && kept !== value) onChange(kept)
    return kept !== null
  })
  const { columns } = useTerminalSize()
  const room = Math.max(0, columns - leastField - 3)
  const beside = columns - placeholder.length - 5
  const isWhole = label.length <= Math.min(room, beside)
  const shown = (isWhole ? label : short)
    .slice(0, Math.min(room, Math.max(leastLabel, beside)))
    .replace(/[ :,+]+$/, '')
  return (
    <Box>
      <Box flexShrink={0}>
        <Text bold color={accent}>
          {shown}
        </Text>
        <Text>{shown === '' ? '> ' : ' > '}</Text>
      </Box>
      <Text wrap={value === '' ? 'truncate' : 'truncate-start'}>
        <TextInput key={field.number} value={value} onChange={changed} />
        {value === '' && placeholder !== '' ? ` ${placeholder}` : ''}
      </Text>
    </Box>
  )
}

/** The text after a change: one line, without what is left of a character that was cut in two. The field itself deletes
 * a code unit of it, and inserts between two. */
function fieldTextOf(before: string, changed: string): string {
  if (changed.length !== before.length - 1) return changed.replace(/[\r\n\t]+/g, ' ').replace(/\p{Cs}/gu, '')
  let at = 0
  while (at < changed.length && changed[at] === before[at]) at++
  const { from, to } = characterAt(before, at)
  return before.slice(0, from) + before.slice(to)
}
