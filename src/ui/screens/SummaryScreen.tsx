import { Box, Text } from 'ink'
import { useState } from 'react'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, wrappedLine } from '../widgets/wrapped.ts'

interface Props {
  /** The summary as text, short and whole. */
  text: (full: boolean) => string
  copy: () => void
  leave: () => void
}

/** What the session says, to be read and taken along. */
export function SummaryScreen({ text, copy, leave }: Props) {
  const [full, setFull] = useState(false)
  const [top, setTop] = useState(0)
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  const all = text(full)
    .trimEnd()
    .split('\n')
    .flatMap((line) => wrappedLine(line, columns))
  const said = noticeLines(notice, columns, 2)
  const room = lines - 1 - said.length
  const last = Math.max(0, all.length - room)
  useKeys((key) => {
    const name = key.kind === 'named' ? key.name : key.text
    if (name === 'c') {
      copy()
      setNotice('copied to the clipboard, where the terminal allows it; "pausebook summary" prints it')
    }
    if (name === 'm') setFull((before) => !before)
    if (name === 'up') setTop((before) => Math.max(0, Math.min(last, before) - 1))
    if (name === 'down') setTop((before) => Math.min(last, before + 1))
    if (name === 'pageUp') setTop((before) => Math.max(0, Math.min(last, before) - room))
    if (name === 'pageDown' || name === ' ') setTop((before) => Math.min(last, before + room))
    if (name === 'q' || name === 'escape') leave()
    return true
  })
  const from = Math.min(top, last)
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={room}>
        {all.slice(from, from + room).map((line, index) => (
          <Text key={index} wrap="truncate">
            {line === '' ? ' ' : line}
          </Text>
        ))}
      </Box>
      {said.map((line, index) => (
        <Text key={index} bold wrap="truncate">
          {notice === '' ? (last > from ? 'more below' : ' ') : line}
        </Text>
      ))}
      <KeyLine
        columns={columns}
        hints={[
          { key: 'c', label: 'copy' },
          { key: 'm', label: full ? 'less' : 'more' },
          ...(last > 0 ? [{ key: '↑ ↓', label: 'read on' }] : []),
          { key: 'q', label: 'leave' },
        ]}
      />
    </Box>
  )
}
