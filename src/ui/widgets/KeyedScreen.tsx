import { Box } from 'ink'
import { type ReactNode, useState } from 'react'
import type { Hint } from '../../recorder/model.ts'
import { KeyLine } from './KeyLine.tsx'
import { nameOf, useKeys } from './keys.ts'
import { goText, Lines } from './Lines.tsx'
import { useTerminalSize } from './look.ts'
import { hanging, noticeLines } from './wrapped.ts'

/** A key of a screen without a field. */
export interface ScreenKey {
  /** As shown to people: `Enter`, `↑ ↓`. */
  key: string
  /** A word or two for the key line. */
  label: string
  /** One line for the page of keys. */
  does: string
  /** What it does, by key name (`nameOf`): for the keys it stands for, and for others that do the same. A returned
   * text is shown above the key line. */
  acts: Readonly<Record<string, () => unknown>>
  /** Shown first: the key acts only if it is pressed again right away. */
  asks?: string
  /** The key line does not name it. */
  isOnPageOnly?: true
}

/** A letter that does one thing. */
export function letterKey(key: string, label: string, does: string, act: () => unknown): ScreenKey {
  return { key, label, does, acts: { [key]: act } }
}

/** It opens the page of keys, which any key closes. */
export const keysKey: ScreenKey = { key: '?', label: 'keys', does: 'this page', acts: {} }

/** `q` and Escape. */
export function leavingKey(label: string, act: () => unknown, does = label): ScreenKey {
  return { key: 'q', label, does: `${does}; Escape does the same`, acts: { q: act, escape: act } }
}

/** Sounds and shows the long signal. */
export function signalKey(ring: () => void): ScreenKey {
  const sound = () => {
    ring()
    return goText
  }
  return letterKey('t', 'test signal', 'sounds and shows the signal of the end of a rest', sound)
}

/** The notice above the key line, and the size of what is left. */
export interface Notice {
  text: string
  say(text: string): void
  /** At least one. */
  lines: readonly string[]
  columns: number
  /** Lines above. */
  room: number
}

/** @param most the lines that a notice may take
 * @param usual shown while there is nothing else to say
 * @param first shown until the first key */
export function useNotice(most: number, usual = '', first = ''): Notice {
  const [text, say] = useState(first)
  const { columns, lines } = useTerminalSize()
  const notice = text === goText ? [text] : noticeLines(text || usual, columns, most)
  return { text, say, lines: notice, columns, room: Math.max(1, lines - 1 - notice.length) }
}

/** The whole screen: a body, the notice, and the key line. */
export function Frame(props: { notice?: readonly string[]; hints: readonly Hint[]; children: ReactNode }) {
  const { notice = [], hints, children } = props
  const { columns, lines } = useTerminalSize()
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      {children}
      <Lines lines={notice} bold />
      <KeyLine columns={columns} hints={hints} />
    </Box>
  )
}

/** A screen that only keys change, without a field. */
export function KeyedScreen(props: { keys: readonly ScreenKey[]; notice: Notice; children: ReactNode }) {
  const { keys, notice, children } = props
  const [isPage, setPage] = useState(false)
  useKeys((key) => {
    const name = nameOf(key)
    setPage(!isPage && name === '?')
    if (isPage || name === '?') return true
    notice.say('')
    const row = keys.find(({ acts }) => Object.hasOwn(acts, name))
    const isAsked = row?.asks !== undefined && notice.text !== row.asks
    const message = isAsked ? row.asks : row?.acts[name]?.()
    if (typeof message === 'string') notice.say(message)
    return true
  })
  if (isPage) return <KeyPage keys={keys} />
  return (
    <Frame notice={notice.lines} hints={keys.filter(({ isOnPageOnly }) => !isOnPageOnly)}>
      {children}
    </Frame>
  )
}

function KeyPage({ keys }: { keys: readonly ScreenKey[] }) {
  const { columns, lines } = useTerminalSize()
  const width = Math.max(...keys.map(({ key }) => [...key].length)) + 2
  const rows = keys.flatMap(({ key, does }) => hanging(key, does, width, columns))
  return (
    <Frame hints={[{ key: 'any key', label: 'back' }]}>
      <Box flexDirection="column" height={lines - 1}>
        <Lines lines={['keys']} bold />
        <Lines lines={rows.slice(0, lines - 2)} />
      </Box>
    </Frame>
  )
}
