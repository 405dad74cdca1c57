import { Box, Text } from 'ink'
import { useState } from 'react'
import { movedBy } from '../../recorder/modes/mode.ts'
import { accent } from '../widgets/colours.ts'
import { KeyedScreen } from '../widgets/KeyedScreen.tsx'
import type { ScreenKey } from '../widgets/KeyPage.tsx'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, screenLinesUpTo } from '../widgets/wrapped.ts'

interface Props {
  rows: readonly { id: string; text: string }[]
  /** The offered date, moved by this many days; negative: earlier. */
  dateText: (days: number) => string
  /** The least number of days by which the offered date can be moved. */
  earliest: number
  /** Saves the day with these rows accepted; returns a message if it cannot be saved. */
  save: (taken: ReadonlySet<string>, days: number) => string | null
  leave: () => void
}

/** What a session says about the next one like it: each line is accepted or rejected, and Save writes the day. */
export function DecisionsScreen({ rows, dateText, earliest, save, leave }: Props) {
  const [index, setIndex] = useState(0)
  const [marks, setMarks] = useState<Readonly<Record<string, '+' | '-'>>>({})
  const [days, setDays] = useState(0)
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  const row = rows[index]
  const move = (by: number) => setIndex((before) => movedBy(before, by, rows.length + 1))
  const mark = (id: string, as: '+' | '-') => {
    setMarks((before) => ({ ...before, [id]: as }))
    move(1)
  }
  const moveDate = (by: number) => setDays((before) => Math.max(earliest, before + by))
  const saved = () => {
    const taken = rows.filter(({ id }) => marks[id] === '+').map(({ id }) => id)
    setNotice(save(new Set(taken), days) ?? '')
  }
  const keys: ScreenKey[] = [
    row
      ? {
          key: 'Enter',
          label: 'accept',
          does: 'accepts the line; on the last line saves the day',
          acts: { enter: () => mark(row.id, '+') },
        }
      : {
          key: 'Enter',
          label: 'save',
          does: 'saves the day among the prescriptions',
          acts: { enter: saved },
        },
    {
      key: 'Space',
      label: 'reject',
      does: 'rejects the line, which stays in the day as it was',
      acts: { ' ': () => row && mark(row.id, '-') },
    },
    {
      key: '← →',
      label: 'date',
      does: 'move the date of the new day by a day',
      acts: { left: () => moveDate(-1), right: () => moveDate(1) },
    },
    { key: '↑ ↓', label: 'pick', does: 'pick a line', acts: { up: () => move(-1), down: () => move(1) } },
  ]
  const said = notice === '' && row ? [] : noticeLines(notice || 'lines not accepted stay', columns, 3)
  const shown = [...rows.map(({ id, text }) => `${marks[id] ?? ' '} ${text}`), `save for ${dateText(days)}`]
  const room = Math.max(1, lines - 2 - said.length)
  const blocks = shown.map((text, at) => blockOf(`${at === index ? '>' : ' '} ${text}`, columns, room))
  const start = firstShown(
    blocks.map(({ length }) => length),
    index,
    room,
  )
  return (
    <KeyedScreen
      keys={keys}
      beforeKey={() => setNotice('')}
      leave={{ label: 'back', does: 'back without a new day', act: leave }}
      said={said}
    >
      <Text wrap="truncate" bold>
        Next time: + accepted, - rejected
      </Text>
      <Box flexDirection="column" height={room}>
        {blocks
          .flatMap((block, at) => block.map((text) => ({ text, isPicked: at === index })))
          .slice(start, start + room)
          .map(({ text, isPicked }, at) => (
            <Text key={start + at} wrap="truncate" color={isPicked ? accent : undefined}>
              {text}
            </Text>
          ))}
      </Box>
    </KeyedScreen>
  )
}

/** A row broken into lines, its further lines below the text of the first. */
function blockOf(row: string, columns: number, most: number): string[] {
  const indent = 4
  return screenLinesUpTo(most, row.slice(indent), columns - indent).map(
    (line, at) => (at === 0 ? row.slice(0, indent) : ' '.repeat(indent)) + line,
  )
}

/** The first line shown, so that all lines of the picked row are, with as many before as after it. */
function firstShown(heights: readonly number[], index: number, room: number): number {
  const sum = (some: readonly number[]) => some.reduce((total, each) => total + each, 0)
  const before = sum(heights.slice(0, index))
  const own = heights[index] ?? 1
  return Math.max(0, Math.min(sum(heights) - room, before - Math.floor((room - own) / 2)))
}
