import { useEffect, useState } from 'react'
import { movedBy, pickedIndex } from '../../units/lists.ts'
import { KeyedScreen, useNotice } from '../widgets/KeyedScreen.tsx'
import { Lines, PickList } from '../widgets/Lines.tsx'
import { actsOf, pickKey, type ScreenKey } from '../widgets/screenKeys.ts'

export interface ListContent {
  /** The lines above the rows, at a width; `index` of the picked row. */
  head: (columns: number, index: number) => readonly string[]
  rows: readonly ListRow[]
  /** The rows below the picked one take a moment to read, so they follow the first frame. */
  isSlow?: boolean
  /** The keys while a row is picked; the arrows where `pickKey` is. */
  keys: (index: number) => readonly ScreenKey[]
  /** The row picked at first; null for the first one. */
  picked: string | null
  /** Shown until the first key. */
  notice?: string
  /** Shown while there is nothing else to say. */
  usual?: (index: number) => string
  /** Called every minute with the id of the picked row. */
  eachMinute?: (picked: string | null) => void
}

export interface ListRow {
  id: string
  /** Its lines at a width, at least one. */
  lines: (columns: number) => readonly string[]
}

/** Milliseconds after which slow rows are read: the picked one is drawn by then and takes keys. */
const soon = 120

/** Rows to pick one from: the days of the first screen, the sessions of the history, decisions. */
export function ListScreen({
  head,
  rows,
  isSlow = false,
  keys,
  picked,
  notice: first,
  usual,
  eachMinute,
}: ListContent) {
  const [isWhole, setIsWhole] = useState(!isSlow)
  useEffect(() => {
    if (isWhole) return
    const timer = setTimeout(() => setIsWhole(true), soon)
    return () => clearTimeout(timer)
  }, [isWhole])
  const [index, setIndex] = useState(() => pickedIndex(rows, ({ id }) => id === picked))
  const pickedId = rows[index]?.id ?? null
  useEffect(() => {
    const timer = eachMinute && setInterval(() => eachMinute(pickedId), 60_000)
    return () => clearInterval(timer)
  }, [eachMinute, pickedId])
  const notice = useNotice(3, usual?.(index), first)
  const above = head(notice.columns, index)
  const room = Math.max(1, notice.room - above.length)
  const move = (by: number) => () => setIndex((before) => movedBy(before, by, rows.length))
  const acts = { ...actsOf(move, room), home: move(-rows.length), end: move(rows.length) }
  // Those further away are not on the screen.
  const from = Math.max(0, index - room)
  const near = rows.slice(from, isWhole ? index + room : index + 1)
  return (
    <KeyedScreen
      keys={keys(index).map((key) => (key.key === pickKey.key ? { ...key, acts } : key))}
      notice={notice}
    >
      <Lines lines={above} bold />
      <PickList rows={near.map(({ lines }) => lines(notice.columns - 2))} picked={index - from} room={room} />
    </KeyedScreen>
  )
}
