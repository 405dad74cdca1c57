import { useState } from 'react'
import type { ScreenKey } from '../widgets/KeyedScreen.tsx'
import { TextScreen } from './TextScreen.tsx'

interface Props {
  /** A subject: its name, and its lines at a width. At least one. */
  subjects: readonly { name: string; lines: (columns: number) => readonly string[] }[]
  leave: () => void
}

/** Shows how everything, the running, the load and each lift have developed, one at a time. */
export function Progress({ subjects, leave }: Props) {
  const [index, setIndex] = useState(0)
  const shown = subjects[index]
  const turn = (by: number) => () => setIndex((before) => (before + by + subjects.length) % subjects.length)
  const another: ScreenKey = {
    key: '← →',
    label: 'another',
    does: 'another subject; Tab does the same as →',
    acts: { right: turn(1), tab: turn(1), left: turn(-1), backTab: turn(-1) },
  }
  return (
    <TextScreen
      key={index}
      title={`Progress: ${shown?.name ?? ''} (${index + 1} of ${subjects.length})`}
      text={(columns) => shown?.lines(columns).join('\n') ?? ''}
      keys={[another]}
      leave={{ label: 'back', act: leave }}
    />
  )
}
