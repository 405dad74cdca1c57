import { useState } from 'react'
import { movedBy, windowStart } from '../../units/lists.ts'
import { KeyedScreen, keysKey, leavingKey, type ScreenKey, useNotice } from '../widgets/KeyedScreen.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'

interface Props {
  title: string
  /** At least one. */
  rows: readonly { id: string; line: (columns: number) => string }[]
  /** Column headings above the rows; null without. */
  head: ((columns: number) => string) | null
  /** The row picked at first; null for the first one. */
  picked: string | null
  enter: { label: string; does: string }
  /** Opens a row; returns a message if that fails. */
  open: (id: string) => string | null
  leave: () => void
}

/** Rows to pick one from: the sessions of the history, the models for a new day. */
export function ListScreen({ title, rows, head, picked, enter, open, leave }: Props) {
  const [index, setIndex] = useState(() => Math.max(0, rows.map(({ id }) => id).indexOf(picked ?? '')))
  const notice = useNotice(3)
  const columns = notice.columns - 2
  const room = Math.max(1, notice.room - (head ? 2 : 1))
  const move = (by: number) => () => setIndex((before) => movedBy(before, by, rows.length))
  const chosen = rows[index]
  const start = windowStart(index, rows.length, room)
  const shown = rows.slice(start, start + room)
  const keys: ScreenKey[] = [
    { key: 'Enter', ...enter, acts: { enter: () => chosen && open(chosen.id) } },
    {
      key: '↑ ↓',
      label: 'pick',
      does: 'pick a line; Space and PageUp move by a page, Home and End to an end',
      acts: {
        up: move(-1),
        down: move(1),
        pageUp: move(-room),
        pageDown: move(room),
        ' ': move(room),
        home: move(-rows.length),
        end: move(rows.length),
      },
    },
    keysKey,
    leavingKey('back', leave),
  ]
  return (
    <KeyedScreen keys={keys} notice={notice}>
      <Lines lines={[`${title}: ${index + 1} of ${rows.length}`]} bold />
      {head && <Lines lines={[`  ${head(columns)}`]} />}
      <PickList rows={shown.map(({ line }) => [line(columns)])} picked={index - start} room={room} />
    </KeyedScreen>
  )
}
