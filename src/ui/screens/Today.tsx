import { Box, Text } from 'ink'
import { useEffect, useState } from 'react'
import { movedBy } from '../../units/lists.ts'
import { KeyedScreen, type ScreenKey, useNotice } from '../widgets/KeyedScreen.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

interface Listed {
  id: string
  /** Its date in a few characters. */
  when: string
  title: string
  /** What a day holds; of a session, when it was left and where. */
  detail: string
}

/** A choice of the first screen: an unfinished session, which another program may be recording, or a written day, whose
 * id is the path of its file. */
export type Choice =
  | (Listed & { kind: 'unfinished'; mayResume: boolean })
  | (Listed & { kind: 'day'; date: string | null; sample: boolean })

interface Props {
  unfinished: readonly Choice[]
  /** Reads the days, which takes a moment if there are many. */
  days: () => readonly Choice[]
  /** The kind of day that is due by the rotation, and where the day is in the plan; empty without both. */
  due: string
  /** The places that hurt lately, with their days. */
  pains: readonly string[]
  /** The damage found in the logbook so far; null if there is none. */
  damage: string | null
  /** The keys that act on the chosen day or session, and those that lead to other screens. */
  keys: (chosen: Choice | undefined) => ScreenKey[]
  /** The id of the choice picked at first; null for the first one. */
  picked: string | null
  notice: string | null
}

/** Milliseconds until the days are listed below unfinished sessions, which are drawn first and already take keys. */
const soon = 120

/** Lists what can be opened: unfinished sessions first, then the days by their dates, then the samples. */
export function Today({ unfinished, days, due, pains, damage, keys, ...first }: Props) {
  const [choices, setChoices] = useState(() => (unfinished.length > 0 ? unfinished : days()))
  const [picked, setPicked] = useState(first.picked)
  const notice = useNotice(3, damage ?? '', first.notice ?? '')
  const index = Math.max(0, choices.map(({ id }) => id).indexOf(picked ?? ''))

  useEffect(() => {
    if (unfinished.length === 0) return
    const timer = setTimeout(() => setChoices([...unfinished, ...days()]), soon)
    return () => clearTimeout(timer)
  }, [unfinished, days])

  const move = (by: number) => () => {
    const to = choices[movedBy(index, by, choices.length)]
    if (to) setPicked(to.id)
  }
  const pick: ScreenKey = {
    key: '↑ ↓',
    label: 'pick',
    does: 'pick a day',
    isOnPageOnly: true,
    acts: { up: move(-1), down: move(1) },
  }
  const name = 'Pausebook'
  const head = screenLinesUpTo(2, due === '' ? name : `${name}   ${due}`, notice.columns)
  const space = head.length === 1 ? [' '] : []
  const hurting = pains.length === 0 ? space : screenLinesUpTo(2, pains.join('   '), notice.columns)
  const body = Math.max(1, notice.room - head.length - hurting.length)
  return (
    <KeyedScreen keys={[pick, ...keys(choices[index])]} notice={notice}>
      <Text wrap="truncate">
        <Text bold>{name}</Text>
        {head[0]?.slice(name.length)}
      </Text>
      <Lines lines={head.slice(1)} />
      <Lines lines={hurting} bold />
      <Box flexDirection="column" height={body}>
        <PickList rows={choices.map(linesOf)} picked={index} room={body} />
        {choices.length === 0 && <Text>No day is in the logbook yet: n writes one.</Text>}
      </Box>
    </KeyedScreen>
  )
}

/** Columns in front of the title: `Sat 28 Nov`. */
const whenWidth = 12

function linesOf({ when, title, detail }: Choice): string[] {
  return [`${when.padEnd(whenWidth)}${title}`, `  ${detail}`]
}
