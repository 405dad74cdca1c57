/** A big text: its lines, all equally wide. */
export interface BigText {
  lines: readonly string[]
  width: number
}

/** Draws text in digits of so many rows; null where a character has no such digit. */
export type DrawBig = (text: string, rows: 5 | 3) => BigText | null

/** How the clock and the number that matters are drawn: beside each other or one above the other, in the
 * largest digits that fit; as plain text where none do. */
export interface ClockLayout {
  rows: 5 | 3 | 1
  stacked: boolean
  clock: readonly string[]
  number: readonly string[]
}

const gap = 4

/** @param room columns, and lines that are left for both */
export function clockLayout(
  clock: string,
  number: string | null,
  room: { columns: number; lines: number },
  draw: DrawBig,
): ClockLayout {
  for (const rows of [5, 3] as const) {
    const big = draw(clock, rows)
    const beside = number === null ? { lines: [], width: 0 } : draw(number, rows)
    if (!big || big.width > room.columns || rows > room.lines) continue
    const clockLines = [...big.lines]
    if (number === null) return { rows, stacked: false, clock: clockLines, number: [] }
    if (beside && big.width + gap + beside.width <= room.columns)
      return { rows, stacked: false, clock: clockLines, number: [...beside.lines] }
    if (beside && beside.width <= room.columns && 2 * rows + 1 <= room.lines)
      return { rows, stacked: true, clock: clockLines, number: [...beside.lines] }
    if (rows === 3) return { rows, stacked: false, clock: clockLines, number: [number] }
  }
  return { rows: 1, stacked: false, clock: [clock], number: number === null ? [] : [number] }
}
