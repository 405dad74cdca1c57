import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { KeyPage, keysKey, type ScreenKey, useKeyPage } from '../widgets/KeyPage.tsx'
import { type Key, useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

/** The rest of the choices comes when the first ones are drawn, and a key that was pressed meanwhile is taken. ms. */
const soon = 120

/** What can be opened: unfinished sessions first, then the days by their dates, then the samples. */
export function Today({ actions, picked: first, said: arrived }: Arrival & { actions: AppActions }) {
  const [choices, setChoices] = useState(() => actions.firstChoices())
  const [picked, setPicked] = useState(first)
  const [notice, setNotice] = useState(arrived ?? '')
  /** Which key was pressed once, on which session: the same again closes or deletes it. */
  const [doomed, setDoomed] = useState<string | null>(null)
  const [flashed, setFlashed] = useState(false)
  const [due] = useState(() => actions.due())
  const [damage] = useState(() => actions.damage())
  const page = useKeyPage()
  const { columns, lines } = useTerminalSize()
  const index = Math.max(
    0,
    choices.findIndex((choice) => keyOf(choice) === picked),
  )
  const chosen = choices[index]
  const again = (said: string) => {
    setChoices(actions.choices())
    setNotice(said)
  }
  const move = (by: number) => {
    const to = choices[Math.max(0, Math.min(choices.length - 1, index + by))]
    if (to) setPicked(keyOf(to))
  }

  const isPart = choices.every((choice) => choice.kind === 'unfinished') && choices.length > 0
  useEffect(() => {
    if (!isPart) return
    const timer = setTimeout(() => setChoices(actions.choices()), soon)
    return () => clearTimeout(timer)
  }, [actions, isPart])

  const isFree = chosen?.kind === 'unfinished' && chosen.recordedBy === null
  useKeys((key) => {
    if (page.takes(key)) return true
    const name = nameOf(key)
    setNotice('')
    if (name !== 'c' && name !== 'd') setDoomed(null)
    setFlashed(name === 't')
    if (name === 't') actions.ring()
    if (name === 'up') move(-1)
    if (name === 'down') move(1)
    if (name === 'q') actions.leave()
    if (name === 'h') setNotice(actions.history() ?? '')
    if (name === 'g') setNotice(actions.progress() ?? '')
    if (name === 'w') actions.week(setNotice)
    if (name === 'm') setNotice(actions.morning() ?? '')
    if (name === 'n') setNotice(actions.newDay() ?? '')
    if (name === 'e' && chosen) setNotice(actions.edit(chosen) ?? '')
    if ((name === 'enter' || name === ' ') && chosen) setNotice(actions.open(chosen) ?? '')
    if (isFree && (name === 'c' || name === 'd')) {
      const isAgain = doomed === `${name} ${chosen.id}`
      setDoomed(isAgain ? null : `${name} ${chosen.id}`)
      if (name === 'c') {
        if (isAgain) again(actions.closeAsItIs(chosen.id) ?? 'closed as it was')
        else setNotice('c again closes this session; what is not recorded counts as not done')
      } else if (isAgain) again(actions.deleteSession(chosen.id) ?? 'deleted')
      else setNotice('d again deletes this session for good')
    }
    return true
  })

  const keys = keysOf(chosen, isFree)
  if (page.isOpen) return <KeyPage keys={keys} columns={columns} lines={lines} />
  const said = screenLinesUpTo(3, notice !== '' ? notice : (damage ?? ''), columns)
  const body = lines - 3 - said.length
  const room = Math.max(1, Math.floor(body / 2))
  const start = Math.max(0, Math.min(choices.length - room, index - Math.floor(room / 2)))
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
        {choices.length === 0 && <Text>No day is in the logbook yet: n writes one.</Text>}
      </Box>
      {(flashed ? [' go ', ...said.slice(1).map(() => ' ')] : said).map((line, row) => (
        <Text key={row} wrap="truncate" bold inverse={flashed && row === 0}>
          {line || ' '}
        </Text>
      ))}
      <KeyLine columns={columns} hints={keys.filter(({ key }) => key !== '↑ ↓' && key !== 't')} />
    </Box>
  )
}

/** The keys that do something now. */
function keysOf(chosen: Choice | undefined, isFree: boolean): ScreenKey[] {
  const isOwn = chosen?.kind === 'day' && !chosen.sample
  return [
    ...(chosen?.kind === 'day'
      ? [{ key: 'Enter', label: 'open', does: 'opens the day, laid out; Enter again begins it' }]
      : []),
    ...(isFree ? [{ key: 'Enter', label: 'go on', does: 'goes on with the unfinished session' }] : []),
    keysKey,
    ...(isFree
      ? [
          { key: 'c', label: 'close as it is', does: 'closes the session: what is not recorded is not done' },
          { key: 'd', label: 'delete', does: 'deletes the session, once it is pressed twice' },
        ]
      : []),
    { key: 'n', label: 'new', does: 'writes a new day, empty or like an earlier one' },
    ...(isOwn ? [{ key: 'e', label: 'edit', does: 'edits the chosen day' }] : []),
    { key: 'h', label: 'history', does: 'the sessions, each with its summary' },
    { key: 'g', label: 'progress', does: 'how lifts, running and load have gone over the weeks' },
    { key: 'w', label: 'week', does: 'what is done and what is ready this week' },
    { key: 'm', label: 'morning', does: 'takes sleep, resting heart rate, body mass, soreness' },
    { key: '↑ ↓', label: 'pick', does: 'pick a day' },
    { key: 't', label: 'test signal', does: 'sounds and shows the signal of the end of a rest' },
    { key: 'q', label: 'quit', does: 'quits' },
  ]
}

function keyOf(choice: Choice): string {
  return choice.kind === 'unfinished' ? choice.id : choice.path
}

function nameOf(key: Key): string {
  return key.kind === 'named' ? key.name : key.text
}

/** Columns of what stands before the title: `Sat 28 Nov`. */
const whenWidth = 12

function ChoiceLines({ choice, isChosen }: { choice: Choice; isChosen: boolean }) {
  return (
    <>
      <Text wrap="truncate" bold={isChosen} color={isChosen ? accent : undefined}>
        {`${isChosen ? '>' : ' '} ${choice.when.padEnd(whenWidth)}${choice.title}`}
      </Text>
      <Text wrap="truncate">{`    ${choice.detail}`}</Text>
    </>
  )
}

/** What can be opened from the first screen; `when`: its date in a few characters. */
export type Choice =
  /** A session that is not finished: `detail` says when it was left and where. */
  | { kind: 'unfinished'; id: string; when: string; title: string; detail: string; recordedBy: string | null }
  /** A day that is written down; `date`: YYYY-MM-DD. */
  | {
      kind: 'day'
      path: string
      when: string
      date: string | null
      title: string
      detail: string
      sample: boolean
    }

/** How the first screen comes. */
export interface Arrival {
  /** The choice that is picked, a path or an id; null for the first. */
  picked: string | null
  said: string | null
}

/** What the app can do besides recording, given to the screens from above. Most give back a message where it cannot be
 * done. */
export interface AppActions {
  choices(): Choice[]
  /** What can be said without reading every day: the unfinished sessions where there are any, else all. */
  firstChoices(): Choice[]
  /** Goes on with a session; lays a day out. */
  open(choice: Choice): string | null
  /** Lets an earlier day be picked as a model, or none, and the new day be edited. */
  newDay(): string | null
  edit(choice: Choice): string | null
  /** What of the logbook is damaged, as far as it was met; null when all is sound. */
  damage(): string | null
  /** Which kind of day is due by the rotation that is set; null without one. */
  due(): string | null
  /** Sounds the long signal. */
  ring(): void
  /** Closes an unfinished session as it stands. */
  closeAsItIs(id: string): string | null
  deleteSession(id: string): string | null
  /** Shows the sessions there are. */
  history(): string | null
  /** Shows how everything has gone over the weeks. */
  progress(): string | null
  /** Opens the field for the morning. */
  morning(): string | null
  /** Shows the week; what is in the way is said later. */
  week(say: (message: string) => void): void
  leave(): void
}
