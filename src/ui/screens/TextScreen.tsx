import { Box } from 'ink'
import { useState } from 'react'
import { movedBy } from '../../units/lists.ts'
import { KeyedScreen, useNotice } from '../widgets/KeyedScreen.tsx'
import { Lines } from '../widgets/Lines.tsx'
import { actsOf, enterKey, keysKey, leavingKey, type ScreenKey } from '../widgets/screenKeys.ts'
import { wrappedPage } from '../widgets/wrapped.ts'

export interface TextContent {
  /** Above the text, in bold; absent without one. */
  title?: string
  /** Lines of any length, which are wrapped; given the width of the screen. */
  text: (columns: number) => string
  keys: readonly ScreenKey[]
  /** Enter shows all of the text before it acts. */
  isReadFirst?: boolean
  /** What `q` and Escape do. */
  leave: { label: string; act: () => void }
}

/** Shows a text with a few keys: an expanded day, a week, a summary. */
export function TextScreen({ title, text, keys, isReadFirst = false, leave }: TextContent) {
  const notice = useNotice(2)
  const [top, setTop] = useState(0)
  const { columns } = notice
  const lines = wrappedPage(text(columns).trimEnd(), columns)
  const room = notice.room - (title === undefined ? 0 : 1)
  const last = Math.max(0, lines.length - room)
  const from = Math.min(top, last)
  const scroll = (by: number) => () => setTop((before) => movedBy(Math.min(last, before), by, last + 1))
  const scrolls: ScreenKey = {
    key: '↑ ↓',
    label: 'scroll',
    does: 'scroll by a line; Space by a page',
    acts: actsOf(scroll, room),
  }
  const readOn = enterKey('read on', 'shows what is below', scroll(room))
  const isReading = isReadFirst && from < last
  const shownKeys = keys.map((each) => (isReading && each.key === 'Enter' ? readOn : each))
  const all = [...shownKeys, ...(last > 0 ? [scrolls] : []), keysKey, leavingKey(leave.label, leave.act)]
  const isMoreBelow = notice.text === '' && from < last
  return (
    <KeyedScreen keys={all} notice={isMoreBelow ? { ...notice, lines: ['more below'] } : notice}>
      {title !== undefined && <Lines lines={[title]} bold />}
      <Box flexDirection="column" height={room}>
        <Lines lines={lines.slice(from, from + room)} />
      </Box>
    </KeyedScreen>
  )
}
