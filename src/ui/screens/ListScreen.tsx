import { Box, Text } from 'ink'
import { useState } from 'react'
import { movedBy, windowStart } from '../../recorder/modes/mode.ts'
import { accent } from '../widgets/colours.ts'
import { KeyedScreen } from '../widgets/KeyedScreen.tsx'
import type { ScreenKey } from '../widgets/KeyPage.tsx'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'

interface Props {
  title: string
  /** At least one. */
  rows: readonly { id: string; line: (columns: number) => string }[]
  /** Column headings above the rows; null without. */
  head: ((columns: number) => string) | null
  /** The row picked at first; null for the first one. */
  picked: string | null
  enter: { label: string; does: string }
  /** Opens a row; returns a message if that fails. */
  open: (id: string) => string | null
  leave: () => void
}

/** Rows to pick one from: the sessions of the history, the models for a new day. */
export function ListScreen({ title, rows, head, picked, enter, open, leave }: Props) {
  const [index, setIndex] = useState(() =>
    Math.max(
      0,
      rows.findIndex(({ id }) => id === picked),
    ),
  )
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  const room = Math.max(1, lines - (head ? 4 : 3))
  const move = (by: number) => setIndex((before) => movedBy(before, by, rows.length))
  const chosen = rows[index]
  const keys: ScreenKey[] = [
    {
      key: 'Enter',
      ...enter,
      acts: { enter: () => setNotice(chosen === undefined ? '' : (open(chosen.id) ?? '')) },
    },
    {
      key: '↑ ↓',
      label: 'pick',
      does: 'pick a line; Space and PageUp move by a page, Home and End to an end',
      acts: {
        up: () => move(-1),
        down: () => move(1),
        pageUp: () => move(-room),
        pageDown: () => move(room),
        ' ': () => move(room),
        home: () => setIndex(0),
        end: () => setIndex(rows.length - 1),
      },
    },
  ]
  const start = windowStart(index, rows.length, room)
  return (
    <KeyedScreen
      keys={keys}
      beforeKey={() => setNotice('')}
      leave={{ label: 'back', act: leave }}
      said={[notice]}
    >
      <Text wrap="truncate" bold>{`${title}: ${index + 1} of ${rows.length}`}</Text>
      {head && <Text wrap="truncate">{`  ${head(columns - 2)}`}</Text>}
      <Box flexDirection="column" height={room}>
        {rows.slice(start, start + room).map(({ id, line }, offset) => {
          const isPicked = start + offset === index
          return (
            <Text key={id} wrap="truncate" bold={isPicked} color={isPicked ? accent : undefined}>
              {`${isPicked ? '>' : ' '} ${line(columns - 2)}`}
            </Text>
          )
        })}
      </Box>
    </KeyedScreen>
  )
}
