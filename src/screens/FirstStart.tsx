import { Box, Text } from 'ink'
import { useState } from 'react'
import { EntryLine } from '../widgets/EntryLine.tsx'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { useKeys } from '../widgets/useKeys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'

interface Props {
  /** Tries what was typed; a message where it cannot be taken. */
  takeUnits: (typed: string) => string | null
  takeBodyMass: (typed: string) => string | null
  /** Sounds the long signal. */
  ring: () => void
  done: () => void
}

const said = [
  'Pausebook walks you through the day on your whiteboard, keeps the rests, takes down what you did,',
  'and says what it was worth. Space moves on, Enter records, ? shows all keys.',
  'It is no coach, physician or dietitian. Get cleared before hard training if you are in doubt.',
  'Stop for chest pain, faintness, unusual breathlessness or sharp pain. Use collars, safeties or a spotter.',
  'An estimated maximum is not an attempt to make. Nutrition ranges are for healthy adults.',
]

/** Shown once: what it is, the cautions, units and body mass, and what the signal sounds and looks like. */
export function FirstStart({ takeUnits, takeBodyMass, ring, done }: Props) {
  const [stage, setStage] = useState<'units' | 'mass'>('units')
  const [draft, setDraft] = useState('')
  const [notice, setNotice] = useState('')
  const [flashed, setFlashed] = useState(false)
  const { columns, lines } = useTerminalSize()
  useKeys((key) => {
    if (key.kind === 'text' && key.text === 't' && draft === '') {
      ring()
      setFlashed(true)
      return true
    }
    if (key.kind !== 'named' || key.name !== 'enter') return false
    const problem = stage === 'units' ? takeUnits(draft) : takeBodyMass(draft)
    setNotice(problem ?? '')
    if (problem !== null) return true
    setDraft('')
    if (stage === 'units') setStage('mass')
    else done()
    return true
  })
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Box flexDirection="column" height={lines - 4} overflow="hidden">
        {said.map((line) => (
          <Text key={line} wrap="wrap">
            {line}
          </Text>
        ))}
      </Box>
      <Text wrap="truncate" inverse={flashed} bold={flashed}>
        {flashed ? ' go ' : ' '}
      </Text>
      <EntryLine
        label={stage === 'units' ? 'units' : 'body mass'}
        value={draft}
        onChange={setDraft}
        placeholder={stage === 'units' ? 'Enter: km kg, or type mi lb' : 'Enter: not said, or type 68 kg'}
      />
      <Text bold wrap="truncate">
        {notice === '' ? ' ' : notice}
      </Text>
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: 'go on' },
          { key: 't', label: 'test the signal' },
        ]}
      />
    </Box>
  )
}
