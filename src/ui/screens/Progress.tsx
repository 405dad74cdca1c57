import { Box, Text } from 'ink'
import { useState } from 'react'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { KeyPage, keysKey, type ScreenKey, useKeyPage } from '../widgets/KeyPage.tsx'
import { nameOf, useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { useScroll } from '../widgets/useScroll.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'

interface Props {
  /** A subject: its name, and its lines at a width. At least one. */
  subjects: readonly { name: string; lines: (columns: number) => readonly string[] }[]
  leave: () => void
}

/** Shows how everything, the running, the load and each lift have developed, one at a time. */
export function Progress({ subjects, leave }: Props) {
  const [index, setIndex] = useState(0)
  const page = useKeyPage()
  const { columns, lines } = useTerminalSize()
  const shown = subjects[index]
  const all = shown?.lines(columns) ?? []
  const room = Math.max(1, lines - 3)
  const scroll = useScroll(all.length, room)
  const turn = (by: number) => {
    setIndex((before) => (before + by + subjects.length) % subjects.length)
    scroll.toTop()
  }
  useKeys((key) => {
    if (page.takes(key)) return true
    const name = nameOf(key)
    if (name === 'right' || name === 'tab') turn(1)
    if (name === 'left' || name === 'backTab') turn(-1)
    scroll.press(name)
    if (name === 'q' || name === 'escape') leave()
    return true
  })
  const keys: ScreenKey[] = [
    { key: '← →', label: 'another', does: 'another subject; Tab does the same as →' },
    ...scroll.keys,
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
        <Lines lines={all.slice(scroll.from, scroll.from + room)} />
      </Box>
      <Lines lines={[scroll.isMoreBelow ? 'more below' : '']} bold />
      <KeyLine columns={columns} hints={keys} />
    </Box>
  )
}
