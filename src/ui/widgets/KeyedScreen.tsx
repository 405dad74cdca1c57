import { Box } from 'ink'
import type { ReactNode } from 'react'
import { KeyLine } from './KeyLine.tsx'
import { actOn, KeyPage, keysKey, type ScreenKey, useKeyPage } from './KeyPage.tsx'
import { useKeys } from './keys.ts'
import { Lines } from './Lines.tsx'
import { useTerminalSize } from './useTerminalSize.ts'

interface Props {
  /** The keys of this screen, before those that every such screen has. */
  keys: readonly ScreenKey[]
  /** Called for any key, before it acts. */
  beforeKey?: () => void
  /** What `q` and Escape do; `does` is the label unless given. */
  leave: { label: string; does?: string; act: () => void }
  /** Between the body and the key line. */
  said: readonly string[]
  children: ReactNode
}

/** A screen that only keys change, without a field: `?` opens the page of its keys, `q` and Escape leave it. */
export function KeyedScreen({ keys, beforeKey, leave, said, children }: Props) {
  const page = useKeyPage()
  const { columns, lines } = useTerminalSize()
  const { label, does = label, act } = leave
  const leaving = { key: 'q', label, does: `${does}; Escape does the same`, acts: { q: act, escape: act } }
  useKeys((key) => {
    if (page.takes(key)) return true
    beforeKey?.()
    actOn(key, [...keys, leaving])
    return true
  })
  const all = [...keys, keysKey, leaving]
  if (page.isOpen) return <KeyPage keys={all} columns={columns} lines={lines} />
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      {children}
      <Lines lines={said} bold />
      <KeyLine columns={columns} hints={all} />
    </Box>
  )
}
