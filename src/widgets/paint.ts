import { createContext } from 'react'

/** Cells of the screen: lines of one width below one another, with their colours, from this place on (both from 0). */
export interface Patch {
  row: number
  column: number
  lines: readonly string[]
}

/** Shows a patch at once, past Ink, and keeps it over whatever Ink draws until the next one or null comes.
 * False: it cannot be shown now, and what it says has to be drawn by Ink. */
export type Paint = (patch: Patch | null) => boolean

/** Where painting goes: `<PaintContext value={paint}>` around everything. Without, all is drawn by Ink. */
export const PaintContext = createContext<Paint>(() => false)
