import { Box } from 'ink'
import { type ReactNode, useState } from 'react'
import type { Hint } from '../../recorder/model.ts'
import { KeyLine } from './KeyLine.tsx'
import { nameOf, useKeys } from './keys.ts'
import { Lines } from './Lines.tsx'
import { actOn, goText, type ScreenKey } from './screenKeys.ts'
import { useTerminalSize } from './terminalSize.ts'
import { hanging, noticeLines } from './wrapped.ts'

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
  const { columns, lines } = useTerminalSize()
  /** The first visible row of the page of keys; null while that is not open. */
  const [top, setTop] = useState<number | null>(null)
  const width = Math.max(...keys.map(({ key }) => [...key].length)) + 2
  const rows = keys.flatMap(({ key, does, acts }) =>
    hanging(key, 'escape' in acts ? `${does}; Escape does the same` : does, width, columns),
  )
  const room = lines - 2
  const next = top !== null && top + room < rows.length ? top + room : null
  useKeys((key) => {
    const name = nameOf(key)
    if (top !== null || name === '?') {
      const after = name === 'escape' ? null : next
      setTop(top === null ? 0 : after)
      return true
    }
    notice.say('')
    const said = actOn(keys, name, notice.text)
    const say = (message: unknown) => typeof message === 'string' && notice.say(message)
    if (said instanceof Promise) said.then(say)
    else say(said)
    return true
  })
  if (top === null)
    return (
      <Frame notice={notice.lines} hints={keys.filter(({ isOnPageOnly }) => !isOnPageOnly)}>
        {children}
      </Frame>
    )
  return (
    <Frame hints={[{ key: 'any key', label: next === null ? 'back' : 'more' }]}>
      <Box flexDirection="column" height={lines - 1}>
        <Lines lines={['keys']} bold />
        <Lines lines={rows.slice(top, top + room)} />
      </Box>
    </Frame>
  )
}
