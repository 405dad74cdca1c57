import { sum } from 'd3-array'
import { Box, Text } from 'ink'
import { useMemo, useState } from 'react'
import { windowStart } from '../../units/lists.ts'
import { Frame, useNotice } from '../widgets/KeyedScreen.tsx'
import { type Key, nameOf, useKeys } from '../widgets/keys.ts'
import { accent, Lines } from '../widgets/Lines.tsx'
import { characterAt } from '../widgets/wrapped.ts'

export interface EditorContent {
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
export function DayEditor({ title, text, isNew = false, problemOf, save, leave }: EditorContent) {
  const [edited, setEdited] = useState(() =>
    isNew ? afterKey(editedText(text), { kind: 'named', name: 'end' }, 0) : editedText(text),
  )
  const written = textOf(edited, text)
  const problem = useMemo(() => problemOf(written), [problemOf, written])
  const notice = useNotice(2, problem === null ? '' : `line ${problem.line}: ${problem.message}`)
  const room = Math.max(1, notice.room - 1)
  useKeys((key) => {
    const name = nameOf(key)
    if (name === 'escape' && (written === textOf(editedText(text), text) || notice.text === unsaved)) leave()
    else if (name === 'escape') notice.say(unsaved)
    else if (name === 'ctrl+s') notice.say(save(written) ?? '')
    else {
      notice.say('')
      setEdited((before) => afterKey(before, key, room - 1))
    }
    return true
  })
  const lines = edited.text.split('\n')
  const cursor = placeOf(edited)
  const start = windowStart(cursor.row, lines.length, room)
  return (
    <Frame
      notice={notice.lines}
      hints={[
        { key: 'ctrl-s', label: 'save' },
        { key: 'Esc', label: 'cancel' },
      ]}
    >
      <Lines lines={[title]} bold />
      <Box flexDirection="column" height={room}>
        {lines.slice(start, start + room).map((line, offset) => {
          const row = start + offset
          const isWrong = problem?.line === row + 1
          return row === cursor.row ? (
            <CursorLine key={row} line={line} column={cursor.column} columns={notice.columns} />
          ) : (
            <Lines key={row} lines={[line]} color={isWrong ? accent : undefined} />
          )
        })}
      </Box>
    </Frame>
  )
}

const unsaved = 'not saved: ctrl-s saves, Esc again discards the changes'

/** The line with the cursor, scrolled so that the cursor is visible. */
function CursorLine({ line, column, columns }: { line: string; column: number; columns: number }) {
  const from = Math.max(0, column - columns + 1)
  const { to } = characterAt(line, column)
  return (
    <Text wrap="truncate">
      {line.slice(from, column)}
      <Text inverse>{line.slice(column, to) || ' '}</Text>
      {line.slice(to, from + columns)}
    </Text>
  )
}

/** A text in a line editor, with its cursor. */
export interface EditedText {
  /** Its lines end with a line feed. */
  readonly text: string
  /** The code units before the cursor, which is never inside a character. */
  readonly at: number
}

/** The longest text that can be edited, in characters; more is not inserted. */
const longest = 100_000

export function editedText(text: string): EditedText {
  return { text: text.replace(/^\uFEFF/, '').replaceAll('\r\n', '\n'), at: 0 }
}

/** The text as written to the file, with the byte-order mark and the line ends that it had before. */
export function textOf({ text }: EditedText, before: string): string {
  const mark = before.startsWith('\uFEFF') ? '\uFEFF' : ''
  return mark + (before.includes('\r\n') ? text.replaceAll('\n', '\r\n') : text)
}

/** The row of the cursor and its column in it, from 0. */
function placeOf({ text, at }: EditedText): { row: number; column: number } {
  const lines = text.slice(0, at).split('\n')
  return { row: lines.length - 1, column: lines.at(-1)?.length ?? 0 }
}

/** The text after a key; the same object for a key without a meaning here. */
export function afterKey(edited: EditedText, key: Key, page: number): EditedText {
  const { text, at } = edited
  const { row, column } = placeOf(edited)
  const start = at - column
  const end = at + text.slice(at).search(/\n|$/)
  const before = characterAt(text, at - 1).from
  const after = characterAt(text, at).to
  const toRow = (to: number) => ({ text, at: characterAt(text, atRow(text, to, column)).from })
  if (key.kind !== 'named') return replaced(text, at, at, key.text)
  switch (key.name) {
    case 'enter':
      return replaced(text, at, at, `\n${/^\s*/.exec(text.slice(start, at))?.[0] ?? ''}`)
    case 'tab':
      return replaced(text, at, at, '  ')
    case 'backspace':
      return replaced(text, before, at, '')
    case 'delete':
      return replaced(text, at, after, '')
    case 'ctrl+u':
      return replaced(text, start, at, '')
    case 'ctrl+k':
      return replaced(text, at, end, '')
    case 'left':
      return { text, at: before }
    case 'right':
      return { text, at: after }
    case 'up':
      return toRow(row - 1)
    case 'down':
      return toRow(row + 1)
    case 'pageUp':
      return toRow(row - page)
    case 'pageDown':
      return toRow(row + page)
    case 'home':
      return { text, at: start }
    case 'end':
      return { text, at: end }
    default:
      return edited
  }
}

function replaced(text: string, from: number, to: number, by: string): EditedText {
  const inserted = by.replaceAll('\r\n', '\n')
  const changed = text.slice(0, from) + inserted + text.slice(to)
  return inserted !== '' && changed.length > longest
    ? { text, at: to }
    : { text: changed, at: from + inserted.length }
}

/** Where a column of a row is, or the row's end if it is shorter; beyond the first and the last row, of those. */
function atRow(text: string, row: number, column: number): number {
  const lines = text.split('\n')
  const before = lines.slice(0, Math.max(0, Math.min(row, lines.length - 1)))
  return sum(before, ({ length }) => length + 1) + Math.min(column, lines[before.length]?.length ?? 0)
}
