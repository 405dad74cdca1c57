import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { type Key, useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

/** The rest of the choices comes when the first ones are drawn, and a key that was pressed meanwhile is taken. ms. */
const soon = 120

/** The days to pick from: an unfinished session first, then those that lie ready, then the samples. */
export function Today({ actions }: { actions: AppActions }) {
  const [choices, setChoices] = useState(() => actions.firstChoices())
  const [index, setIndex] = useState(0)
  const [notice, setNotice] = useState('')
  /** Which key was pressed once, on which session: the same again closes it, or throws it away. */
  const [doomed, setDoomed] = useState<string | null>(null)
  const [flashed, setFlashed] = useState(false)
  const [due] = useState(() => actions.due())
  const [damage] = useState(() => actions.damage())
  const { columns, lines } = useTerminalSize()
  const chosen = choices[Math.min(index, choices.length - 1)]
  const again = (said: string) => {
    setChoices(actions.choices())
    setIndex(0)
    setNotice(said)
  }

  const isPart = choices.every((choice) => choice.kind === 'unfinished') && choices.length > 0
  useEffect(() => {
    if (!isPart) return
    const timer = setTimeout(() => setChoices(actions.choices()), soon)
    return () => clearTimeout(timer)
  }, [actions, isPart])

  useKeys((key) => {
    const name = nameOf(key)
    if (name !== 'c' && name !== 'd') setDoomed(null)
    setFlashed(name === 't')
    if (name === 't') actions.ring()
    if (name === 'up') setIndex((before) => Math.max(0, before - 1))
    if (name === 'down') setIndex((before) => Math.min(choices.length - 1, before + 1))
    if (name === 'q') actions.leave()
    if (name === 'h') setNotice(actions.history() ?? '')
    if (name === 'g') setNotice(actions.progress() ?? '')
    if ((name === 'enter' || name === ' ') && chosen) setNotice(actions.open(chosen).message ?? '')
    if (chosen?.kind === 'unfinished' && chosen.recordedBy === null) {
      const isAgain = doomed === `${name} ${chosen.id}`
      if (name === 'c' || name === 'd') setDoomed(isAgain ? null : `${name} ${chosen.id}`)
      if (name === 'c') {
        if (isAgain) again(actions.closeAsItIs(chosen.id) ?? 'closed as it was')
        else setNotice('c again closes this session; what is not recorded counts as not done')
      }
      if (name === 'd') {
        if (isAgain) again(actions.throwAway(chosen.id) ?? 'thrown away')
        else setNotice('d again throws this session away for good')
      }
    }
    return true
  })

  const said = screenLinesUpTo(3, notice !== '' ? notice : (damage ?? ''), columns)
  const body = lines - 3 - said.length
  const room = Math.max(1, Math.floor((body - 1) / 2))
  const start = Math.max(0, Math.min(choices.length - room, index - Math.floor(room / 2)))
  const unfinished = chosen?.kind === 'unfinished' && chosen.recordedBy === null
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text wrap="truncate">
        <Text bold>Pausebook</Text>
        {due === null ? '' : `   ${due}`}
      </Text>
      <Text> </Text>
      <Box flexDirection="column" height={body}>
        {choices.slice(start, start + room).map((choice, offset) => (
          <ChoiceLines key={keyOf(choice)} choice={choice} isChosen={start + offset === index} />
        ))}
        {choices.length === 0 && <Text>No day lies ready.</Text>}
      </Box>
      {(flashed ? [' go ', ...said.slice(1).map(() => ' ')] : said).map((line, row) => (
        <Text key={row} wrap="truncate" bold inverse={flashed && row === 0}>
          {line || ' '}
        </Text>
      ))}
      <KeyLine
        columns={columns}
        hints={[
          { key: 'Enter', label: unfinished ? 'go on' : 'take it up' },
          { key: '↑ ↓', label: 'pick' },
          ...(unfinished
            ? [
                { key: 'c', label: 'close as it is' },
                { key: 'd', label: 'throw away' },
              ]
            : []),
          { key: 'h', label: 'history' },
          { key: 'g', label: 'progress' },
          { key: 't', label: 'test signal' },
          { key: 'q', label: 'leave' },
        ]}
      />
    </Box>
  )
}

function keyOf(choice: Choice): string {
  return choice.kind === 'unfinished' ? choice.id : choice.path
}

function nameOf(key: Key): string {
  return key.kind === 'named' ? key.name : key.text
}

function ChoiceLines({ choice, isChosen }: { choice: Choice; isChosen: boolean }) {
  const sample = choice.kind === 'day' && choice.sample ? 'sample: ' : ''
  return (
    <>
      <Text wrap="truncate" bold={isChosen} color={isChosen ? accent : undefined}>
        {`${isChosen ? '>' : ' '} ${sample}${choice.title}`}
      </Text>
      <Text wrap="truncate">{`    ${choice.detail}`}</Text>
    </>
  )
}

/** What can be taken up or begun when the app opens. */
export type Choice =
  /** A session that is not finished: `title` says when it was left and where. */
  | { kind: 'unfinished'; id: string; title: string; detail: string; recordedBy: string | null }
  /** A day that lies ready. */
  | { kind: 'day'; path: string; title: string; detail: string; sample: boolean }

/** What the app can do besides recording, given to the screens from above. */
export interface AppActions {
  choices(): Choice[]
  /** What can be said without reading every day: the unfinished sessions where there are any, else all. */
  firstChoices(): Choice[]
  /** Opens it in the recorder; a message where that cannot be done. */
  open(choice: Choice): { message: string } | { message: null }
  /** What of the logbook is damaged, as far as it was met; null when all is sound. */
  damage(): string | null
  /** Which kind of day is due by the rotation that is set; null without one. */
  due(): string | null
  /** Sounds the long signal. */
  ring(): void
  /** Closes an unfinished session as it stands; a message where that cannot be done. */
  closeAsItIs(id: string): string | null
  /** Throws an unfinished session away; a message where that cannot be done. */
  throwAway(id: string): string | null
  /** Shows the sessions there are; a message where there is none. */
  history(): string | null
  /** Shows how everything has gone over the weeks; a message where there is no session. */
  progress(): string | null
  leave(): void
}
