/** A big text: its lines, all equally wide. */
export interface BigText {
  lines: readonly string[]
  width: number
}

/** Draws text in digits of so many rows; null where a character has no such digit. */
export type DrawBig = (text: string, rows: 5 | 3) => BigText | null

/** How the clock and the number that matters are drawn: beside each other or one above the other. */
export interface ClockLayout {
  stacked: boolean
  clock: readonly string[]
  number: readonly string[]
}

const gap = 4

/** The clock in the largest digits that fit, and the number beside or below it: in the same height where there is
 * room, else smaller, in the end as plain text.
 * @param room columns, and lines that are left for both */
export function clockLayout(
  clock: string,
  number: string | null,
  room: { columns: number; lines: number },
  draw: DrawBig,
): ClockLayout {
  for (const size of [5, 3, 1] as const) {
    const big = drawn(clock, size, draw)
    if (!big || big.width > room.columns || size > room.lines) continue
    if (number === null) return { stacked: false, clock: big.lines, number: [] }
    for (const numberSize of [5, 3, 1] as const) {
      const small = numberSize <= size ? drawn(number, numberSize, draw) : null
      if (!small) continue
      if (big.width + gap + small.width <= room.columns)
        return { stacked: false, clock: big.lines, number: small.lines }
      if (small.width <= room.columns && size + 1 + numberSize <= room.lines)
        return { stacked: true, clock: big.lines, number: small.lines }
    }
  }
  return { stacked: false, clock: [clock], number: number === null ? [] : [number] }
}

function drawn(text: string, rows: 5 | 3 | 1, draw: DrawBig): BigText | null {
  return rows === 1 ? { lines: [text], width: [...text].length } : draw(text, rows)
}
