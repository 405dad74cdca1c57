import { Box, Text } from 'ink'
import { useMemo, useReducer, useState } from 'react'
import { windowStart } from '../../recorder/modes/mode.ts'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { type Key, useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { afterKey, editedText, textOf } from '../widgets/lineEditor.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines } from '../widgets/wrapped.ts'

interface Props {
  title: string
  text: string
  /** The cursor starts at the end of the first line, where the title of a new day is; else at its beginning. */
  isNew?: boolean
  /** The first problem of a day with this text: its line, from 1, and the message; null if the day reads. */
  problemOf: (text: string) => { line: number; message: string } | null
  /** Saves the text and leaves; returns a message if that fails. */
  save: (text: string) => string | null
  leave: () => void
}

/** The built-in editor of a day: lines, a cursor, and the first problem of the text. */
export function DayEditor({ title, text, isNew = false, problemOf, save, leave }: Props) {
  const { columns, lines } = useTerminalSize()
  const [notice, setNotice] = useState('')
  const [edited, press] = useReducer(
    (before: ReturnType<typeof editedText>, key: Key) => {
      return afterKey(before, key, lines - 4)
    },
    startOf(text, isNew),
  )
  const written = textOf(edited)
  const problem = useMemo(() => problemOf(written), [problemOf, written])
  useKeys((key) => {
    const name = key.kind === 'named' ? key.name : ''
    if (name === 'ctrl+s') setNotice(save(written) ?? '')
    else if (name !== 'escape') {
      setNotice('')
      press(key)
    } else if (written === textOf(editedText(text)) || notice === unsaved) leave()
    else setNotice(unsaved)
    return true
  })
  const wrong = problem === null ? '' : `line ${problem.line}: ${problem.message}`
  const said = noticeLines(notice === '' ? wrong : notice, columns, 2)
  const room = Math.max(1, lines - 2 - said.length)
  const start = windowStart(edited.row, edited.lines.length, room)
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text bold wrap="truncate">
        {title}
      </Text>
      <Box flexDirection="column" height={room}>
        {edited.lines.slice(start, start + room).map((written, offset) => {
          const row = start + offset
          const line = written.replace(/\r$/, '')
          const isWrong = problem?.line === row + 1
          return row === edited.row ? (
            <CursorLine key={row} line={line} column={edited.column} columns={columns} />
          ) : (
            <Text key={row} wrap="truncate" color={isWrong ? accent : undefined}>
              {line || ' '}
            </Text>
          )
        })}
      </Box>
      <Lines lines={said} bold />
      <KeyLine
        columns={columns}
        hints={[
          { key: 'ctrl-s', label: 'save' },
          { key: 'Esc', label: 'cancel' },
        ]}
      />
    </Box>
  )
}

function startOf(text: string, isNew: boolean) {
  const edited = editedText(text)
  return isNew ? afterKey(edited, { kind: 'named', name: 'end' }, 1) : edited
}

const unsaved = 'not saved: ctrl-s saves, Esc again discards the changes'

/** The line with the cursor, scrolled so that the cursor is visible. */
function CursorLine({ line, column, columns }: { line: string; column: number; columns: number }) {
  const from = Math.max(0, column - columns + 1)
  return (
    <Text wrap="truncate">
      {line.slice(from, column)}
      <Text inverse>{line[column] ?? ' '}</Text>
      {line.slice(column + 1, from + columns)}
    </Text>
  )
}
