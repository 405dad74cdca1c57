import { useState } from 'react'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { TextScreen } from './TextScreen.tsx'

interface Props {
  /** The summary as text, short and in full, in lines of at most this many columns. */
  text: (full: boolean, columns: number) => string
  copy: () => void
  /** Opens the decisions about the next day like it; returns a message if there are none. */
  next: () => string | null
  leave: () => void
}

export function SummaryScreen({ text, copy, next, leave }: Props) {
  const [full, setFull] = useState(false)
  const { columns } = useTerminalSize()
  const copied = () => {
    copy()
    return 'copied to the clipboard, where the terminal allows it; "pausebook summary" prints it'
  }
  const turned = () => {
    setFull((before) => !before)
    return null
  }
  return (
    <TextScreen
      text={text(full, columns)}
      keys={[
        { key: 'c', label: 'copy', does: 'copies the summary to the clipboard', act: copied },
        { key: 'n', label: 'next', does: 'decides about the next day like it, line by line', act: next },
        { key: 'm', label: full ? 'less' : 'more', does: 'shows all figures, or fewer', act: turned },
      ]}
      leave={{ label: 'quit', act: leave }}
    />
  )
}
