import { useState } from 'react'
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
  const copied = () => {
    copy()
    return 'copied to the clipboard, where the terminal allows it; "pausebook summary" prints it'
  }
  const turned = () => setFull(!full)
  return (
    <TextScreen
      text={(columns) => text(full, columns)}
      keys={[
        { key: 'c', label: 'copy', does: 'copies the summary to the clipboard', acts: { c: copied } },
        {
          key: 'n',
          label: 'next',
          does: 'decides about the next day like it, line by line',
          acts: { n: next },
        },
        { key: 'm', label: full ? 'less' : 'more', does: 'shows all figures, or fewer', acts: { m: turned } },
      ]}
      leave={{ label: 'quit', act: leave }}
    />
  )
}
