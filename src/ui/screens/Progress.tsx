import { Box, Text } from 'ink'
import { useState } from 'react'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { KeyPage, keysKey, type ScreenKey, useKeyPage } from '../widgets/KeyPage.tsx'
import { useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'

interface Props {
  /** A subject: its name, and its lines at a width. At least one. */
  subjects: readonly { name: string; lines: (columns: number) => readonly string[] }[]
  leave: () => void
}

/** Shows how everything, the running, the load and each lift have developed, one at a time. */
export function Progress({ subjects, leave }: Props) {
  const [index, setIndex] = useState(0)
  const [top, setTop] = useState(0)
  const page = useKeyPage()
  const { columns, lines } = useTerminalSize()
  const shown = subjects[index]
  const all = shown?.lines(columns) ?? []
  const room = Math.max(1, lines - 3)
  const last = Math.max(0, all.length - room)
  const from = Math.min(top, last)
  const turn = (by: number) => {
    setIndex((before) => (before + by + subjects.length) % subjects.length)
    setTop(0)
  }
  const scroll = (by: number) => setTop((before) => Math.max(0, Math.min(last, Math.min(last, before) + by)))
  useKeys((key) => {
    if (page.takes(key)) return true
    const name = key.kind === 'named' ? key.name : key.text
    if (name === 'right' || name === 'tab') turn(1)
    if (name === 'left' || name === 'backTab') turn(-1)
    if (name === 'up') scroll(-1)
    if (name === 'down') scroll(1)
    if (name === 'pageUp') scroll(-room)
    if (name === 'pageDown' || name === ' ') scroll(room)
    if (name === 'q' || name === 'escape') leave()
    return true
  })
  const keys: ScreenKey[] = [
    { key: '← →', label: 'another', does: 'another subject; Tab does the same as →' },
    ...(last > 0 ? [{ key: '↑ ↓', label: 'scroll', does: 'scroll by a line; Space by a page' }] : []),
    keysKey,
    { key: 'q', label: 'back', does: 'back; Escape does the same' },
  ]
  if (page.isOpen) return <KeyPage keys={keys} columns={columns} lines={lines} />
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text wrap="truncate" bold>
        {`Progress: ${shown?.name ?? ''} (${index + 1} of ${subjects.length})`}
      </Text>
      <Box flexDirection="column" height={room}>
        {all.slice(from, from + room).map((line, offset) => (
          <Text key={offset} wrap="truncate">
            {line === '' ? ' ' : line}
          </Text>
        ))}
      </Box>
      <Text wrap="truncate" bold>
        {last > from ? 'more below' : ' '}
      </Text>
      <KeyLine columns={columns} hints={keys} />
    </Box>
  )
}
