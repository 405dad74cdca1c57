import { Box } from 'ink'
import { type ReactNode, useState } from 'react'
import type { Hint } from '../../recorder/modes/mode.ts'
import { KeyLine, withoutArrows } from './KeyLine.tsx'
import { nameOf, useKeys } from './keys.ts'
import { goText, Lines } from './Lines.tsx'
import { useLook, useTerminalSize } from './look.ts'
import { hanging, noticeLines } from './wrapped.ts'

/** A key of a screen without a field. */
export interface ScreenKey {
  /** As shown to people: `Enter`, `↑ ↓`. */
  key: string
  /** A word or two for the key line. */
  label: string
  /** One line for the page of keys. */
  does: string
  /** What it does, by the names of the keyboard (`nameOf`): those it stands for, and those that do the same. A returned
   * text is said. */
  acts: Readonly<Record<string, () => unknown>>
  /** Said first: the key acts only if it is pressed again at once. */
  asks?: string
  /** `page`: only the page of keys names it; `nowhere`: it says why it does nothing now. */
  isNamed?: 'page' | 'nowhere'
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

/** What a screen says above its key line, and the size of what is left. */
export interface Said {
  text: string
  say(text: string): void
  /** At least one. */
  lines: readonly string[]
  columns: number
  /** Lines above. */
  room: number
}

/** @param most lines that may be said
 * @param usual what is said while there is nothing else
 * @param first what is said until the first key */
export function useSaid(most: number, usual = '', first = ''): Said {
  const [text, say] = useState(first)
  const { columns, lines } = useTerminalSize()
  const said = text === goText ? [text] : noticeLines(text || usual, columns, most)
  return { text, say, lines: said, columns, room: Math.max(1, lines - 1 - said.length) }
}

/** The whole screen: a body, what is said, and the key line. */
export function Frame(props: { said?: readonly string[]; hints: readonly Hint[]; children: ReactNode }) {
  const { said = [], hints, children } = props
  const { columns, lines } = useTerminalSize()
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      {children}
      <Lines lines={said} bold />
      <KeyLine columns={columns} hints={hints} />
    </Box>
  )
}

/** A screen that only keys change, without a field. */
export function KeyedScreen(props: { keys: readonly ScreenKey[]; said: Said; children: ReactNode }) {
  const { keys, said, children } = props
  const [isPage, setPage] = useState(false)
  useKeys((key) => {
    const name = nameOf(key)
    setPage(!isPage && name === '?')
    if (isPage || name === '?') return true
    said.say('')
    const row = keys.find(({ acts }) => Object.hasOwn(acts, name))
    const isAsked = row?.asks !== undefined && said.text !== row.asks
    const told = isAsked ? row.asks : row?.acts[name]?.()
    if (typeof told === 'string') said.say(told)
    return true
  })
  const named = keys.filter(({ isNamed }) => isNamed !== 'nowhere')
  if (isPage) return <KeyPage keys={named} />
  return (
    <Frame said={said.lines} hints={named.filter(({ isNamed }) => isNamed !== 'page')}>
      {children}
    </Frame>
  )
}

function KeyPage({ keys }: { keys: readonly ScreenKey[] }) {
  const { columns, lines } = useTerminalSize()
  const { isUnicode } = useLook()
  const named = keys.map((each) => ({ ...each, key: isUnicode ? each.key : withoutArrows(each.key) }))
  const width = Math.max(...named.map(({ key }) => [...key].length)) + 2
  const rows = named.flatMap(({ key, does }) => hanging(key, does, width, columns))
  return (
    <Frame hints={[{ key: 'any key', label: 'back' }]}>
      <Box flexDirection="column" height={lines - 1}>
        <Lines lines={['keys']} bold />
        <Lines lines={rows.slice(0, lines - 2)} />
      </Box>
    </Frame>
  )
}
