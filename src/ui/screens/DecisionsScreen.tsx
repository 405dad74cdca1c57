import { useState } from 'react'
import { movedBy } from '../../units/lists.ts'
import { KeyedScreen, keysKey, leavingKey, type ScreenKey, useNotice } from '../widgets/KeyedScreen.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

/** The lines to decide about, and how the accepted ones become a day. */
export interface Decisions {
  rows: readonly { id: string; text: string }[]
  /** The offered date, moved by this many days; negative: earlier. */
  dateText: (days: number) => string
  /** The least number of days by which the offered date can be moved. */
  earliest: number
  /** Saves the day with these rows accepted; returns a message if it cannot be saved. */
  save: (accepted: ReadonlySet<string>, days: number) => string | null
}

interface Props extends Decisions {
  leave: () => void
}

/** What a session says about the next one like it: each line is accepted or rejected, and Save writes the day. */
export function DecisionsScreen({ rows, dateText, earliest, save, leave }: Props) {
  const [index, setIndex] = useState(0)
  const [marks, setMarks] = useState<Readonly<Record<string, '+' | '-'>>>({})
  const [days, setDays] = useState(0)
  const row = rows[index]
  const notice = useNotice(3, row ? '' : 'lines you do not accept stay as they are')
  const move = (by: number) => setIndex((before) => movedBy(before, by, rows.length + 1))
  const mark = (id: string, as: '+' | '-') => {
    setMarks((before) => ({ ...before, [id]: as }))
    move(1)
  }
  const moveDate = (by: number) => setDays((before) => Math.max(earliest, before + by))
  const saved = () => {
    const accepted = rows.filter(({ id }) => marks[id] === '+').map(({ id }) => id)
    return save(new Set(accepted), days)
  }
  const enter: ScreenKey = row
    ? {
        key: 'Enter',
        label: 'accept',
        does: 'accepts the line; on the last line saves the day',
        acts: { enter: () => mark(row.id, '+') },
      }
    : { key: 'Enter', label: 'save', does: 'saves the day among the prescriptions', acts: { enter: saved } }
  const keys: ScreenKey[] = [
    enter,
    {
      key: 'Space',
      label: 'reject',
      does: 'rejects the line, which stays in the day as it was',
      acts: { ' ': () => row && mark(row.id, '-') },
    },
    {
      key: '← →',
      label: 'date',
      does: 'move the date of the new day by a day',
      acts: { left: () => moveDate(-1), right: () => moveDate(1) },
    },
    { key: '↑ ↓', label: 'pick', does: 'pick a line', acts: { up: () => move(-1), down: () => move(1) } },
    keysKey,
    leavingKey('back', leave, 'back without a new day'),
  ]
  const room = Math.max(1, notice.room - 1)
  const lines = (text: string) => screenLinesUpTo(room, text, notice.columns - 4)
  const blocks = rows.map(({ id, text }) =>
    lines(text).map((line, at) => `${(at === 0 && marks[id]) || ' '} ${line}`),
  )
  return (
    <KeyedScreen keys={keys} notice={notice}>
      <Lines lines={['Next time: + accepted, - rejected']} bold />
      <PickList rows={[...blocks, lines(`save for ${dateText(days)}`)]} picked={index} room={room} />
    </KeyedScreen>
  )
}
