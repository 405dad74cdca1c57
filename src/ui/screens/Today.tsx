import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { movedBy } from '../../recorder/modes/mode.ts'
import { KeyedScreen, type ScreenKey, useSaid } from '../widgets/KeyedScreen.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

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

/** What the first screen shows and does. */
export interface TodayGiven {
  /** The choices that need no day to be read: the unfinished sessions if there are any, else all. */
  firstChoices(): Choice[]
  choices(): Choice[]
  /** The kind of day that is due by the rotation, and where the day is in the plan; null without both. */
  due(): string | null
  /** The places that hurt lately, with their days. */
  pains(): string[]
  /** The damage found in the logbook so far; null if there is none. */
  damage(): string | null
  /** The keys that act on the chosen day or session, and those that lead to other screens. */
  keys(chosen: Choice | undefined, screen: OnToday): ScreenKey[]
}

/** What a key can do to the first screen itself. */
export interface OnToday {
  /** Says what comes of a key later. */
  say(text: string): void
  /** Reads the choices again. */
  reload(): void
}

/** Milliseconds until the other choices are loaded, so that the first ones are drawn and a key is handled before. */
const soon = 120

/** Lists what can be opened: unfinished sessions first, then the days by their dates, then the samples. */
export function Today({ given, picked: first, said: arrived }: Arrival & { given: TodayGiven }) {
  const [choices, setChoices] = useState(() => given.firstChoices())
  const [picked, setPicked] = useState(first)
  const [{ due, pains, damage }] = useState(() => ({
    due: given.due(),
    pains: given.pains(),
    damage: given.damage(),
  }))
  const said = useSaid(3, damage ?? '', arrived ?? '')
  const index = Math.max(0, choices.map(keyOf).indexOf(picked ?? ''))

  const isPart = choices.every((choice) => choice.kind === 'unfinished') && choices.length > 0
  const reload = () => setChoices(given.choices())
  useEffect(() => {
    if (!isPart) return
    const timer = setTimeout(() => setChoices(given.choices()), soon)
    return () => clearTimeout(timer)
  }, [given, isPart])

  const move = (by: number) => () => {
    const to = choices[movedBy(index, by, choices.length)]
    if (to) setPicked(keyOf(to))
  }
  const pick: ScreenKey = {
    key: '↑ ↓',
    label: 'pick',
    does: 'pick a day',
    isNamed: 'page',
    acts: { up: move(-1), down: move(1) },
  }
  const hurting = pains.length === 0 ? [' '] : screenLinesUpTo(2, pains.join('   '), said.columns)
  const body = Math.max(1, said.room - 1 - hurting.length)
  return (
    <KeyedScreen keys={[pick, ...given.keys(choices[index], { say: said.say, reload })]} said={said}>
      <Text wrap="truncate">
        <Text bold>Pausebook</Text>
        {due === null ? '' : `   ${due}`}
      </Text>
      <Lines lines={hurting} bold />
      <Box flexDirection="column" height={body}>
        <PickList rows={choices.map(linesOf)} picked={index} room={body} />
        {choices.length === 0 && <Text>No day is in the logbook yet: n writes one.</Text>}
      </Box>
    </KeyedScreen>
  )
}

function keyOf(choice: Choice): string {
  return choice.kind === 'unfinished' ? choice.id : choice.path
}

/** Columns in front of the title: `Sat 28 Nov`. */
const whenWidth = 12

function linesOf({ when, title, detail }: Choice): string[] {
  return [`${when.padEnd(whenWidth)}${title}`, `  ${detail}`]
}
