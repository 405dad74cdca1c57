import { Box, Text } from 'ink'
import { useMemo, useReducer } from 'react'
import { windowStart } from '../../units/lists.ts'
import { Frame, useNotice } from '../widgets/KeyedScreen.tsx'
import { type Key, nameOf, useKeys } from '../widgets/keys.ts'
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
      {line.slice(from, column)}
      <Text inverse>{line[column] ?? ' '}</Text>
      {line.slice(column + 1, from + columns)}
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
  const line = lines[row] ?? ''
  switch (key.name) {
    case 'enter':
      return inserted(edited, `\n${/^\s*/.exec(line.slice(0, column))?.[0] ?? ''}`)
    case 'tab':
      return inserted(edited, '  ')
    case 'left':
      return column > 0 ? { ...edited, column: column - 1 } : at(edited, row - 1, Number.POSITIVE_INFINITY)
    case 'right':
      return column < line.length ? { ...edited, column: column + 1 } : at(edited, row + 1, 0)
    case 'up':
      return at(edited, row - 1, column)
    case 'down':
      return at(edited, row + 1, column)
    case 'pageUp':
      return at(edited, Math.max(0, row - page), column)
    case 'pageDown':
      return at(edited, Math.min(lines.length - 1, row + page), column)
    case 'home':
      return { ...edited, column: 0 }
    case 'end':
      return { ...edited, column: line.length }
    case 'backspace':
      return column > 0 || row > 0 ? erased(afterKey(edited, { kind: 'named', name: 'left' }, page)) : edited
    case 'delete':
      return erased(edited)
    case 'ctrl+u':
      return { ...edited, lines: withLine(lines, row, [line.slice(column)]), column: 0 }
    case 'ctrl+k':
      return { ...edited, lines: withLine(lines, row, [line.slice(0, column)]) }
    default:
      return edited
  }
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

/** Deletes the character at the cursor; at the end of a line, joins the next line to it. */
function erased(edited: EditedText): EditedText {
  const { lines, row, column } = edited
  const line = lines[row] ?? ''
  if (column < line.length)
    return { ...edited, lines: withLine(lines, row, [line.slice(0, column) + line.slice(column + 1)]) }
  const next = lines[row + 1]
  if (next === undefined) return edited
  return { ...edited, lines: [...lines.slice(0, row), line + next, ...lines.slice(row + 2)] }
}

function withLine(lines: readonly string[], row: number, newLines: readonly string[]): string[] {
  return [...lines.slice(0, row), ...newLines, ...lines.slice(row + 1)]
}
