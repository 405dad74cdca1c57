import { Box, Text } from 'ink'
import { useState } from 'react'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { nameOf, useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, screenLines } from '../widgets/wrapped.ts'

interface Props {
  title: string
  /** A question that says when and where the unfinished session of this day was left. */
  question: string
  /** Opens the unfinished session; returns a message if that fails. */
  resume: () => string | null
  startOver: () => void
  quit: () => void
}

/** Asks before a day begins that has an unfinished session. */
export function ResumeQuestion({ title, question, resume, startOver, quit }: Props) {
  const [notice, setNotice] = useState('')
  const { columns, lines } = useTerminalSize()
  useKeys((key) => {
    const name = nameOf(key)
    if (name === 'enter') setNotice(resume() ?? '')
    else if (name === 'n') startOver()
    else if (name === 'q' || name === 'escape') quit()
    else setNotice('Enter goes on, n starts over, q quits')
    return true
  })
  const said = noticeLines(notice, columns, 3)
  const text = ['', ...screenLines(`${question} Enter yes, n starts over`, columns)]
  const room = lines - said.length - 1
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={room}>
        <Text wrap="truncate">{title}</Text>
        <Lines lines={text.slice(0, room - 1)} bold />
      </Box>
      <Lines lines={said} />
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: 'go on' },
          { key: 'n', label: 'start over' },
          { key: 'q', label: 'quit' },
        ]}
      />
    </Box>
  )
}
