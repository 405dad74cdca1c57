import { Box, Text } from 'ink'
import { useMemo, useReducer } from 'react'
import { type Key, lineAfter, nameOf } from '../../recorder/line.ts'
import { windowStart } from '../../recorder/modes/mode.ts'
import { WithCursor } from '../widgets/EntryLine.tsx'
import { Frame, useNotice } from '../widgets/KeyedScreen.tsx'
import { useKeys } from '../widgets/keys.ts'
import { accent, Lines } from '../widgets/Lines.tsx'

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
  const [edited, press] = useReducer(
    (before: EditedText, { key, page }: { key: Key; page: number }) => afterKey(before, key, page),
    null,
    () => {
      const edited = editedText(text)
      return isNew ? { ...edited, column: edited.lines[0]?.length ?? 0 } : edited
    },
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
      press({ key, page: room - 1 })
    }
    return true
  })
  const start = windowStart(edited.row, edited.lines.length, room)
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
        {edited.lines.slice(start, start + room).map((line, offset) => {
          const row = start + offset
          const isWrong = problem?.line === row + 1
          return row === edited.row ? (
            <CursorLine key={row} line={line} column={edited.column} columns={notice.columns} />
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
  return (
    <Text wrap="truncate">
      <WithCursor text={line.slice(from, from + columns)} column={column - from} />
    </Text>
  )
}

/** A text in a line editor, with its cursor. */
export interface EditedText {
  readonly lines: readonly string[]
  readonly row: number
  /** In characters, 0 before the first. */
  readonly column: number
}

/** The longest text that can be edited, in characters; more is cut off. */
const longest = 100_000

export function editedText(text: string): EditedText {
  return { lines: text.replace(/^\uFEFF/, '').split(/\r?\n/), row: 0, column: 0 }
}

/** The text as written to the file, with the byte-order mark and the line ends that it had before. */
export function textOf({ lines }: EditedText, before: string): string {
  const mark = before.startsWith('\uFEFF') ? '\uFEFF' : ''
  return mark + lines.join(before.includes('\r\n') ? '\r\n' : '\n')
}

/** The text after a key; the same object for a key without a meaning here. */
export function afterKey(edited: EditedText, key: Key, page: number): EditedText {
  if (key.kind !== 'named') return inserted(edited, key.text)
  const { lines, row, column } = edited
  const text = lines[row] ?? ''
  switch (key.name) {
    case 'enter':
      return inserted(edited, `\n${/^\s*/.exec(text.slice(0, column))?.[0] ?? ''}`)
    case 'tab':
      return inserted(edited, '  ')
    case 'up':
      return at(edited, row - 1, column)
    case 'down':
      return at(edited, row + 1, column)
    case 'pageUp':
      return at(edited, Math.max(0, row - page), column)
    case 'pageDown':
      return at(edited, Math.min(lines.length - 1, row + page), column)
  }
  if (key.name === 'left' && column === 0) return at(edited, row - 1, Number.POSITIVE_INFINITY)
  if (key.name === 'right' && column === text.length) return at(edited, row + 1, 0)
  if (key.name === 'backspace' && column === 0) return row > 0 ? joined(edited, row - 1) : edited
  if (key.name === 'delete' && column === text.length) return joined(edited, row)
  const line = lineAfter({ text, column }, key)
  return { ...edited, lines: withLine(lines, row, [line.text]), column: line.column }
}

/** Unchanged if there is no such row. */
function at(edited: EditedText, row: number, column: number): EditedText {
  const line = edited.lines[row]
  return line === undefined ? edited : { ...edited, row, column: Math.min(column, line.length) }
}

function inserted(edited: EditedText, text: string): EditedText {
  const { lines, row, column } = edited
  if (lines.join('\n').length + text.length > longest) return edited
  const line = lines[row] ?? ''
  const newLines = `${line.slice(0, column)}${text}`.split(/\r?\n/)
  const end = newLines.length - 1
  const last = newLines[end] ?? ''
  return {
    ...edited,
    lines: withLine(lines, row, [...newLines.slice(0, end), last + line.slice(column)]),
    row: row + end,
    column: last.length,
  }
}

/** Joins a line and the next one, with the cursor between them; unchanged on the last line. */
function joined(edited: EditedText, row: number): EditedText {
  const { lines } = edited
  const [line = '', next] = lines.slice(row)
  if (next === undefined) return edited
  const joined = [...lines.slice(0, row), line + next, ...lines.slice(row + 2)]
  return { ...edited, lines: joined, row, column: line.length }
}

function withLine(lines: readonly string[], row: number, newLines: readonly string[]): string[] {
  return [...lines.slice(0, row), ...newLines, ...lines.slice(row + 1)]
}
