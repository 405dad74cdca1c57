import { Box } from 'ink'
import { useState } from 'react'
import { EntryLine } from '../widgets/EntryLine.tsx'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, screenLines } from '../widgets/wrapped.ts'

interface Props {
  label: string
  /** What is known so far, updated after each accepted line. */
  words: () => string
  /** How to write it, in a line or two. */
  hint: string
  /** Stores what was typed; returns a message if it is refused. */
  take: (typed: string) => string | null
  leave: () => void
}

/** One field that takes any number of lines: the morning. */
export function AskScreen({ label, words, hint, take, leave }: Props) {
  const [draft, setDraft] = useState('')
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  useKeys((key) => {
    const name = key.kind === 'named' ? key.name : ''
    if (name === 'escape' && draft !== '') setDraft('')
    else if (name === 'escape' || (name === 'enter' && draft.trim() === '')) leave()
    else if (name === 'enter') {
      const problem = take(draft)
      setNotice(problem ?? 'saved')
      if (problem === null) setDraft('')
    } else return false
    return true
  })
  const said = noticeLines(notice, columns, 3)
  const text = [...screenLines(words(), columns), '', ...screenLines(hint, columns)]
  const room = Math.max(1, lines - said.length - 2)
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={room}>
        <Lines lines={text.slice(0, room)} />
      </Box>
      <EntryLine label={label} value={draft} onChange={setDraft} placeholder="Enter: back" />
      <Lines lines={said} bold />
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: draft.trim() === '' ? 'back' : 'save' },
          { key: 'Esc', label: draft === '' ? 'back' : 'clear' },
        ]}
      />
    </Box>
  )
}
