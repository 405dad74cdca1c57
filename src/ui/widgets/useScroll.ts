import { useState } from 'react'
import { movedBy } from '../../recorder/modes/mode.ts'
import type { ScreenKey } from './KeyPage.tsx'

/** Scrolls `count` lines in a window of `room`. */
export function useScroll(count: number, room: number) {
  const [top, setTop] = useState(0)
  const last = Math.max(0, count - room)
  const scroll = (by: number) => setTop((before) => movedBy(Math.min(last, before), by, last + 1))
  const acts = {
    up: () => scroll(-1),
    down: () => scroll(1),
    pageUp: () => scroll(-room),
    pageDown: () => scroll(room),
    ' ': () => scroll(room),
  }
  const keys: ScreenKey[] =
    last > 0 ? [{ key: '↑ ↓', label: 'scroll', does: 'scroll by a line; Space by a page', acts }] : []
  return {
    /** The first line shown. */
    from: Math.min(top, last),
    isMoreBelow: last > top,
    keys,
    toTop: () => setTop(0),
  }
}
