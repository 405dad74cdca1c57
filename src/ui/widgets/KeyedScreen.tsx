import { Box } from 'ink'
import type { ReactNode } from 'react'
import { KeyLine } from './KeyLine.tsx'
import { KeyPage, keysKey, type ScreenKey, useKeyPage } from './KeyPage.tsx'
import { nameOf, useKeys } from './keys.ts'
import { Lines } from './Lines.tsx'
import { useTerminalSize } from './useTerminalSize.ts'

interface Props {
  /** The keys of this screen, before those that every such screen has. */
  keys: readonly ScreenKey[]
  /** Acts on a key by its name; any other key does nothing. */
  press: (name: string) => void
  /** What `q` and Escape do; `does` is the label unless given. */
  leave: { label: string; does?: string; act: () => void }
  /** Between the body and the key line. */
  said: readonly string[]
  children: ReactNode
}

/** A screen that only keys change, without a field: `?` opens the page of its keys, `q` and Escape leave it. */
export function KeyedScreen({ keys, press, leave, said, children }: Props) {
  const page = useKeyPage()
  const { columns, lines } = useTerminalSize()
  useKeys((key) => {
    if (page.takes(key)) return true
    const name = nameOf(key)
    press(name)
    if (name === 'q' || name === 'escape') leave.act()
    return true
  })
  const { label, does = label } = leave
  const all = [...keys, keysKey, { key: 'q', label, does: `${does}; Escape does the same` }]
  if (page.isOpen) return <KeyPage keys={all} columns={columns} lines={lines} />
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      {children}
      <Lines lines={said} bold />
      <KeyLine columns={columns} hints={all} />
    </Box>
  )
}
