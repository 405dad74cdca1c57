import { Box } from 'ink'
import { useState } from 'react'
import { KeyedScreen } from '../widgets/KeyedScreen.tsx'
import type { NamedForPeople, ScreenKey } from '../widgets/KeyPage.tsx'
import { Lines } from '../widgets/Lines.tsx'
import { useScroll } from '../widgets/useScroll.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, wrappedLine } from '../widgets/wrapped.ts'

/** A key of a text screen, and what it does; a returned message is shown below the text. */
interface TextKey extends NamedForPeople {
  /** The keyboard's name for it, if it differs from `key`. */
  name?: string
  act: () => string | null
}

interface Props {
  /** Lines of any length, which are wrapped. */
  text: string
  keys: readonly TextKey[]
  /** What `q` and Escape do. */
  leave: { label: string; act: () => void }
}

/** Shows a text with a few keys: an expanded day, a week, a summary. */
export function TextScreen({ text, keys, leave }: Props) {
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  const all = text
    .trimEnd()
    .split('\n')
    .flatMap((line) => wrappedLine(line, columns))
  const said = noticeLines(notice, columns, 2)
  const room = lines - 1 - said.length
  const scroll = useScroll(all.length, room)
  const own = keys.map(({ act, name, ...named }): ScreenKey => {
    const acts = () => {
      const message = act()
      if (message !== null) setNotice(message)
    }
    return { ...named, acts: { [name ?? named.key]: acts } }
  })
  return (
    <KeyedScreen
      keys={[...own, ...scroll.keys]}
      leave={leave}
      said={notice === '' && scroll.isMoreBelow ? ['more below'] : said}
    >
      <Box flexDirection="column" height={room}>
        <Lines lines={all.slice(scroll.from, scroll.from + room)} />
      </Box>
    </KeyedScreen>
  )
}
