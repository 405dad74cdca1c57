import { Box, Text } from 'ink'
import { useState } from 'react'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'

interface Props {
  /** Newest first. */
  sessions: readonly { id: string; line: (columns: number) => string }[]
  /** Above the lines: what stands in their columns. */
  head: (columns: number) => string
  /** The session that is picked at first; null for the newest. */
  picked: string | null
  /** Shows its summary; a message where that cannot be done. */
  open: (id: string) => string | null
  leave: () => void
}

/** The sessions, one a line, with the summary behind Enter. */
export function History({ sessions, head, picked, open, leave }: Props) {
  const [index, setIndex] = useState(() =>
    Math.max(
      0,
      sessions.findIndex(({ id }) => id === picked),
    ),
  )
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  const room = Math.max(1, lines - 4)
  const last = sessions.length - 1
  const move = (by: number) => setIndex((before) => Math.max(0, Math.min(last, before + by)))
  useKeys((key) => {
    const name = key.kind === 'named' ? key.name : key.text
    setNotice('')
    if (name === 'up') move(-1)
    if (name === 'down') move(1)
    if (name === 'pageUp') move(-room)
    if (name === 'pageDown' || name === ' ') move(room)
    if (name === 'home') setIndex(0)
    if (name === 'end') setIndex(last)
    const chosen = sessions[index]
    if (name === 'enter' && chosen !== undefined) setNotice(open(chosen.id) ?? '')
    if (name === 'q' || name === 'escape') leave()
    return true
  })
  const start = Math.max(0, Math.min(sessions.length - room, index - Math.floor(room / 2)))
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text wrap="truncate" bold>{`History: ${index + 1} of ${sessions.length}`}</Text>
      <Text wrap="truncate">{`  ${head(columns - 2)}`}</Text>
      <Box flexDirection="column" height={room}>
        {sessions.slice(start, start + room).map(({ id, line }, offset) => {
          const isPicked = start + offset === index
          return (
            <Text key={id} wrap="truncate" bold={isPicked} color={isPicked ? accent : undefined}>
              {`${isPicked ? '>' : ' '} ${line(columns - 2)}`}
            </Text>
          )
        })}
      </Box>
      <Text wrap="truncate" bold>
        {notice === '' ? ' ' : notice}
      </Text>
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: 'its summary' },
          { key: '↑ ↓', label: 'pick' },
          { key: 'q', label: 'back' },
        ]}
      />
    </Box>
  )
}
