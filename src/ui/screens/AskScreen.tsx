import { Box } from 'ink'
import { useState } from 'react'
import { EntryLine } from '../widgets/EntryLine.tsx'
import { Frame, useNotice } from '../widgets/KeyedScreen.tsx'
import { nameOf, useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { screenLines } from '../widgets/wrapped.ts'

export interface AskContent {
  label: string
  /** What is known so far, updated after each accepted line. */
  words: () => string
  /** How to write it, in a line or two. */
  hint: string
  /** What Enter does with nothing typed. */
  placeholder: string
  /** Stores what was typed; returns a message if it is refused. */
  take: (typed: string) => string | null
  /** What Enter and Escape do with nothing typed. */
  leave: { label: string; act: () => void }
}

/** One field that takes any number of lines: a morning, or an answer of the first start. */
export function AskScreen({ label, words, hint, placeholder, take, leave }: AskContent) {
  const [draft, setDraft] = useState('')
  const { say, lines, columns, room } = useNotice(3)
  useKeys((key) => {
    const name = nameOf(key)
    if (name === 'escape' && draft !== '') setDraft('')
    else if (name === 'escape' || (name === 'enter' && draft.trim() === '')) {
      leave.act()
    } else if (name === 'enter') {
      const problem = take(draft)
      say(problem ?? 'saved')
      if (problem === null) setDraft('')
    } else return false
    return true
  })
  const text = [...screenLines(words(), columns), '', ...screenLines(hint, columns)]
  const body = Math.max(1, room - 1)
  const hints =
    draft === ''
      ? [{ key: 'Enter or Esc', label: leave.label }]
      : [
          { key: 'Enter', label: draft.trim() === '' ? leave.label : 'save' },
          { key: 'Esc', label: 'clear' },
        ]
  return (
    <Frame notice={lines} hints={hints}>
      <Box flexDirection="column" height={body}>
        <Lines lines={text.slice(0, body)} />
      </Box>
      <EntryLine label={label} value={draft} onChange={setDraft} placeholder={placeholder} />
    </Frame>
  )
}
