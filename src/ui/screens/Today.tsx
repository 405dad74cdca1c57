import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { movedBy, windowStart } from '../../recorder/list.ts'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { KeyPage, keysKey, type ScreenKey, useKeyPage } from '../widgets/KeyPage.tsx'
import { nameOf, useKeys } from '../widgets/keys.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

/** Milliseconds until the other choices are loaded, so that the first ones are drawn and a key is handled before. */
const soon = 120

/** Lists what can be opened: unfinished sessions first, then the days by their dates, then the samples. */
export function Today({ actions, picked: first, said: arrived }: Arrival & { actions: AppActions }) {
  const [choices, setChoices] = useState(() => actions.firstChoices())
  const [picked, setPicked] = useState(first)
  const [notice, setNotice] = useState(arrived ?? '')
  /** A key that was pressed once, and its session: pressing it again closes or deletes that session. */
  const [pressedOnce, setPressedOnce] = useState<string | null>(null)
  const [flashed, setFlashed] = useState(false)
  const [due] = useState(() => actions.due())
  const [pains] = useState(() => actions.pains())
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
    const to = choices[movedBy(index, by, choices.length)]
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
    if (name !== 'c' && name !== 'd') setPressedOnce(null)
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
      const isAgain = pressedOnce === `${name} ${chosen.id}`
      setPressedOnce(isAgain ? null : `${name} ${chosen.id}`)
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
  const hurting = pains.length === 0 ? [' '] : screenLinesUpTo(2, pains.join('   '), columns)
  const body = lines - 2 - hurting.length - said.length
  const room = Math.max(1, Math.floor(body / 2))
  const start = windowStart(index, choices.length, room)
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <Text wrap="truncate">
        <Text bold>Pausebook</Text>
        {due === null ? '' : `   ${due}`}
      </Text>
      {hurting.map((line, row) => (
        <Text key={row} bold wrap="truncate">
          {line}
        </Text>
      ))}
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

/** Columns in front of the title: `Sat 28 Nov`. */
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

/** A choice of the first screen; `when`: its date in a few characters. */
export type Choice =
  /** An unfinished session: `detail` says when it was left and where. */
  | { kind: 'unfinished'; id: string; when: string; title: string; detail: string; recordedBy: string | null }
  /** A written day; `date`: YYYY-MM-DD. */
  | {
      kind: 'day'
      path: string
      when: string
      date: string | null
      title: string
      detail: string
      sample: boolean
    }

/** How the first screen opens. */
export interface Arrival {
  /** The picked choice, a path or an id; null for the first. */
  picked: string | null
  said: string | null
}

/** What the app can do besides recording, passed to the screens. Most functions return a message if they
 * fail. */
export interface AppActions {
  choices(): Choice[]
  /** The choices that need no day to be read: the unfinished sessions if there are any, else all. */
  firstChoices(): Choice[]
  /** Resumes a session, or shows a day expanded. */
  open(choice: Choice): string | null
  /** Lets the user pick an earlier day as a model, or none, and edit the new day. */
  newDay(): string | null
  edit(choice: Choice): string | null
  /** The damage found in the logbook so far; null if there is none. */
  damage(): string | null
  /** The kind of day that is due by the rotation; null without one. */
  due(): string | null
  /** The places that hurt lately, with their days. */
  pains(): string[]
  /** Sounds the long signal. */
  ring(): void
  /** Closes an unfinished session as it is. */
  closeAsItIs(id: string): string | null
  deleteSession(id: string): string | null
  /** Shows the sessions there are. */
  history(): string | null
  /** Shows how everything has developed over the weeks. */
  progress(): string | null
  /** Opens the field for the morning. */
  morning(): string | null
  /** Shows the week; reports problems later. */
  week(say: (message: string) => void): void
  leave(): void
}
