import { Box, Text } from 'ink'
import { useState } from 'react'
import { KeyedScreen } from '../widgets/KeyedScreen.tsx'
import type { ScreenKey } from '../widgets/KeyPage.tsx'
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
  const { columns, lines } = useTerminalSize()
  const shown = subjects[index]
  const all = shown?.lines(columns) ?? []
  const room = Math.max(1, lines - 3)
  const scroll = useScroll(all.length, room)
  const turn = (by: number) => {
    setIndex((before) => (before + by + subjects.length) % subjects.length)
    scroll.toTop()
  }
  const keys: ScreenKey[] = [
    {
      key: '← →',
      label: 'another',
      does: 'another subject; Tab does the same as →',
      acts: { right: () => turn(1), tab: () => turn(1), left: () => turn(-1), backTab: () => turn(-1) },
    },
    ...scroll.keys,
  ]
  const said = [scroll.isMoreBelow ? 'more below' : '']
  return (
    <KeyedScreen keys={keys} leave={{ label: 'back', act: leave }} said={said}>
      <Text wrap="truncate" bold>
        {`Progress: ${shown?.name ?? ''} (${index + 1} of ${subjects.length})`}
      </Text>
      <Box flexDirection="column" height={room}>
        <Lines lines={all.slice(scroll.from, scroll.from + room)} />
      </Box>
    </KeyedScreen>
  )
}
