import { Box, Text } from 'ink'
import { useReducer } from 'react'
import { EntryLine } from '../widgets/EntryLine.tsx'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { KeyPage, keysKey, type NamedForPeople, useKeyPage } from '../widgets/KeyPage.tsx'
import { useKeys } from '../widgets/keys.ts'
import { Lines } from '../widgets/Lines.tsx'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { screenLines } from '../widgets/wrapped.ts'

interface Props {
  /** Paragraphs: what it is, and the cautions. */
  words: readonly string[]
  /** Tries what was typed; returns a message if it is refused. */
  takeUnits: (typed: string) => string | null
  takeBodyMass: (typed: string) => string | null
  /** Sounds the long signal. */
  ring: () => void
  done: () => void
}

interface Stage {
  asks: 'units' | 'mass'
  /** The first visible line: everything is shown before the first question. */
  top: number
  draft: string
  notice: string
  flashed: boolean
}

const keys: readonly NamedForPeople[] = [
  {
    key: 'Enter',
    label: 'go on',
    does: 'reads on; then takes what is typed, or with nothing typed what is offered',
  },
  { key: 't', label: 'test signal', does: 'in the empty field: what the signal sounds and looks like' },
  { key: 'Esc', label: 'clear', does: 'clears the field' },
  keysKey,
]

const first: Stage = { asks: 'units', top: 0, draft: '', notice: '', flashed: false }

/** Shown once: what the program is, the cautions, units and body mass, and what the signal sounds and looks like. */
export function FirstStart({ words, takeUnits, takeBodyMass, ring, done }: Props) {
  const [stage, change] = useReducer((before: Stage, to: Partial<Stage>) => ({ ...before, ...to }), first)
  const { columns, lines } = useTerminalSize()
  const text = words.flatMap((paragraph) => screenLines(paragraph, columns))
  const room = Math.max(1, lines - 4)
  const isRead = stage.top + room >= text.length
  const page = useKeyPage()
  useKeys((key) => {
    // Neither a unit nor a mass contains a question mark.
    if (page.takes(key)) return true
    if (key.kind === 'text' && key.text === 't' && stage.draft === '') {
      ring()
      change({ flashed: true })
      return true
    }
    if (key.kind === 'named' && key.name === 'escape') change({ draft: '', notice: '' })
    if (key.kind !== 'named' || key.name !== 'enter') return false
    if (!isRead) {
      change({ top: stage.top + room })
      return true
    }
    const problem = stage.asks === 'units' ? takeUnits(stage.draft) : takeBodyMass(stage.draft)
    change({ notice: problem ?? '' })
    if (problem !== null) return true
    change({ draft: '', asks: 'mass' })
    if (stage.asks === 'mass') done()
    return true
  })
  if (page.isOpen) return <KeyPage keys={keys} columns={columns} lines={lines} />
  const units = stage.asks === 'units'
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={room}>
        <Lines lines={text.slice(stage.top, stage.top + room)} />
      </Box>
      <Text wrap="truncate" inverse={stage.flashed} bold={stage.flashed}>
        {stage.flashed ? ' go ' : ' '}
      </Text>
      {isRead ? (
        <EntryLine
          label={units ? 'units' : 'body mass'}
          value={stage.draft}
          onChange={(draft) => change({ draft: draft.trimStart() })}
          placeholder={units ? 'Enter: km kg, or type mi lb' : 'Enter: skip, or type 68 kg'}
        />
      ) : (
        <Text> </Text>
      )}
      <Lines lines={[stage.notice]} bold />
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: isRead ? 'go on' : 'read on' },
          { key: 't', label: 'test signal' },
          keysKey,
        ]}
      />
    </Box>
  )
}
