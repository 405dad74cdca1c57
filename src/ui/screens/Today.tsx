import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { movedBy, windowStart } from '../../recorder/modes/mode.ts'
import { accent } from '../widgets/colours.ts'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { actOn, KeyPage, keysKey, type ScreenKey, useKeyPage } from '../widgets/KeyPage.tsx'
import { useKeys } from '../widgets/keys.ts'
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

  const free = chosen?.kind === 'unfinished' && chosen.recordedBy === null ? chosen : null
  const say = (message: string | null) => setNotice(message ?? '')
  const { listed, others } = keysOf(chosen, free, actions, {
    say,
    move,
    flash: () => setFlashed(true),
    twice: (key, id, warning, act) => {
      const isAgain = pressedOnce === `${key} ${id}`
      setPressedOnce(isAgain ? null : `${key} ${id}`)
      say(isAgain ? act() : warning)
      if (isAgain) setChoices(actions.choices())
    },
  })
  useKeys((key) => {
    if (page.takes(key)) return true
    setNotice('')
    setPressedOnce(null)
    setFlashed(false)
    actOn(key, [...listed, ...others])
    return true
  })

  if (page.isOpen) return <KeyPage keys={listed} columns={columns} lines={lines} />
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
      <KeyLine columns={columns} hints={listed.filter(({ key }) => key !== '↑ ↓' && key !== 't')} />
    </Box>
  )
}

/** What a key can do to the screen itself. */
interface OnScreen {
  say(message: string | null): void
  move(by: number): void
  flash(): void
  /** Acts on a session only if its key is pressed again. */
  twice(key: string, id: string, warning: string, act: () => string): void
}

/** The keys of the first screen; `others` only say why they do nothing now.
 * @param free the chosen session, if it can be resumed */
function keysOf(
  chosen: Choice | undefined,
  free: { id: string } | null,
  actions: AppActions,
  screen: OnScreen,
): { listed: ScreenKey[]; others: ScreenKey[] } {
  const { say } = screen
  const open = () => chosen && say(actions.open(chosen))
  const opens = free
    ? { label: 'go on', does: 'goes on with the unfinished session' }
    : { label: 'open', does: 'opens the day, laid out; Enter again begins it' }
  const enter: ScreenKey = { key: 'Enter', ...opens, acts: { enter: open, ' ': open } }
  const edit: ScreenKey = {
    key: 'e',
    label: 'edit',
    does: 'edits the chosen day',
    acts: { e: () => chosen && say(actions.edit(chosen)) },
  }
  const listed: ScreenKey[] = [
    ...(free || chosen?.kind === 'day' ? [enter] : []),
    keysKey,
    ...(free ? keysOfLeft(free.id, actions, screen) : []),
    {
      key: 'n',
      label: 'new',
      does: 'writes a new day, empty or like an earlier one',
      acts: { n: () => say(actions.newDay()) },
    },
    ...(chosen?.kind === 'day' && !chosen.sample ? [edit] : []),
    {
      key: 'h',
      label: 'history',
      does: 'the sessions, each with its summary',
      acts: { h: () => say(actions.history()) },
    },
    {
      key: 'g',
      label: 'progress',
      does: 'how lifts, running and load have gone over the weeks',
      acts: { g: () => say(actions.progress()) },
    },
    {
      key: 'w',
      label: 'week',
      does: 'what is done and what is ready this week',
      acts: { w: () => actions.week(say) },
    },
    {
      key: 'm',
      label: 'morning',
      does: 'takes sleep, resting heart rate, body mass, soreness',
      acts: { m: () => say(actions.morning()) },
    },
    {
      key: '↑ ↓',
      label: 'pick',
      does: 'pick a day',
      acts: { up: () => screen.move(-1), down: () => screen.move(1) },
    },
    {
      key: 't',
      label: 'test signal',
      does: 'sounds and shows the signal of the end of a rest',
      acts: {
        t: () => {
          actions.ring()
          screen.flash()
        },
      },
    },
    { key: 'q', label: 'quit', does: 'quits', acts: { q: actions.leave } },
  ]
  return { listed, others: [enter, edit] }
}

function keysOfLeft(id: string, actions: AppActions, { twice }: OnScreen): ScreenKey[] {
  const close = () => actions.closeAsItIs(id) ?? 'closed as it was'
  const remove = () => actions.deleteSession(id) ?? 'deleted'
  const closes = 'c again closes this session; what is not recorded counts as not done'
  const deletes = 'd again deletes this session for good'
  return [
    {
      key: 'c',
      label: 'close as it is',
      does: 'closes the session: what is not recorded is not done',
      acts: { c: () => twice('c', id, closes, close) },
    },
    {
      key: 'd',
      label: 'delete',
      does: 'deletes the session, once it is pressed twice',
      acts: { d: () => twice('d', id, deletes, remove) },
    },
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
