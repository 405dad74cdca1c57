import type { ClockText } from '../../recorder/clockText.ts'
import { bigTextOf, shapeOf } from './bigText.ts'

/* The clock as read from three metres: work in solid digits below its word, a rest in outlined digits over a
 * bar that empties, a rest that is over in solid digits with a wide bar of another texture. Otherwise
 * the digits are outlined, without a bar. */

export interface BigClock {
  kind: ClockText['kind']
  /** `1:47`, `+0:12`. */
  text: string
  /** WORK, SET or REPEAT; drawn beside work alone. */
  word: string
  /** Reps and load or a target time, `8 x 60`; null without one. */
  number: string | null
  /** The share of a rest that is left, or the share of its length that has passed again since it was over, 0 to 1. */
  share: number
}

const sizes = [14, 10, 7, 5, 3] as const
type Size = (typeof sizes)[number]

/** Width of a digit, of an upright and of a level stroke, in cells; digits of 3 rows are those of `bigTextOf`. */
const solidForms = { 14: [17, 5, 3], 10: [12, 4, 2], 7: [8, 3, 1], 5: [6, 2, 1] } as const
const thinForms = { 14: [17, 5, 3], 10: [12, 4, 2], 7: [7, 1, 1], 5: [5, 1, 1] } as const

/** At most `rows` lines of at most `columns` cells, digits of at least `least` rows; null if the text does not fit in
 * large characters. */
export function bigClockOf(
  clock: BigClock,
  room: { columns: number; rows: number; least?: number },
): string[] | null {
  const { least = 3, rows: most } = room
  for (const size of sizes.filter((rows) => rows <= most && rows >= least)) {
    const digits = digitsOf(clock, size)
    if (digits === null || widthOf(digits) > room.columns) continue
    const lines =
      clock.kind === 'over'
        ? overBar(digits, clock.share, room)
        : clock.kind === 'rest'
          ? restBar(digits, clock, room)
          : withWords(digits, clock, room)
    if (lines !== null && lines.length <= room.rows) return lines.map((line) => line.trimEnd())
  }
  return null
}

function digitsOf({ kind, text }: BigClock, size: Size): string[] | null {
  if (!/^[\d:+.-]+$/.test(text)) return null
  const isThin = kind === 'rest' || kind === 'idle'
  if (size === 3) return bigTextOf(text, isThin)
  const form = (isThin ? thinForms : solidForms)[size]
  const shapes = [...text].map((character) => cellsOf(character, size, form))
  const drawn = shapes.map((cells) => (isThin ? outlined(cells) : filled(cells)))
  return drawn.slice(1).reduce((left, right) => beside(left, right, size > 7 ? 3 : 2), drawn[0] ?? [])
}

type Cells = boolean[][]

/** Which cells the strokes of a character cover. */
function cellsOf(
  character: string,
  rows: number,
  [width, upright, level]: readonly [number, number, number],
): Cells {
  const shape = shapeOf(character) ?? []
  const middle = Math.floor((rows - level) / 2)
  const heights = [level, middle - level, level, rows - middle - 2 * level, level]
  const side = character === '+' ? Math.floor((width - upright) / 2) : upright
  const widths = [side, width - 2 * side, side]
  return shape.flatMap((row, y) => {
    const cells = [...row].flatMap((cell, x) => Array<boolean>(widths[x] ?? 0).fill(cell === '#'))
    return Array<boolean[]>(heights[y] ?? 0).fill(cells)
  })
}

function filled(cells: Cells): string[] {
  return cells.map((row) => row.map((cell) => (cell ? '█' : ' ')).join(''))
}

/** The character for each set of connected neighbours: up 8, down 4, left 2, right 1. */
const boxLines = '·╶╴─╷┌┐┬╵└┘┴│├┤┼'

/** Draws the outline of the covered cells; strokes one cell wide become lines. */
function outlined(cells: Cells): string[] {
  const at = (x: number, y: number) => cells[y]?.[x] ?? false
  const isJoined = (x: number, y: number, dx: number, dy: number) => {
    if (!at(x, y) || !at(x + dx, y + dy)) return false
    const isEdge = (side: number) =>
      !at(x + dy * side, y + dx * side) || !at(x + dx + dy * side, y + dy + dx * side)
    return isEdge(1) || isEdge(-1)
  }
  return cells.map((row, y) =>
    row
      .map((cell, x) => {
        if (!cell) return ' '
        const mask =
          (isJoined(x, y - 1, 0, 1) ? 8 : 0) +
          (isJoined(x, y, 0, 1) ? 4 : 0) +
          (isJoined(x - 1, y, 1, 0) ? 2 : 0) +
          (isJoined(x, y, 1, 0) ? 1 : 0)
        const isInside = at(x - 1, y) && at(x + 1, y) && at(x, y - 1) && at(x, y + 1)
        return mask === 0 && isInside ? ' ' : boxLines[mask]
      })
      .join(''),
  )
}

/** Lays out work: its word and number beside the digits, else above them; as plain text if large ones do not fit. */
function withWords(
  digits: string[],
  { kind, word, number }: BigClock,
  room: { columns: number; rows: number },
): string[] | null {
  const wordRows = kind === 'work' ? lettersOf(word) : []
  const amount = number === null ? [] : lettersOf(number, kind === 'idle')
  const column = wordRows.length > 0 && amount.length > 0 ? [...wordRows, '', ...amount] : wordRows
  const alongside = beside(digits, column, 4)
  if (column.length > 0 && column.length <= digits.length && widthOf(alongside) <= room.columns)
    return alongside
  const strip = even(beside(wordRows, amount, 4))
  if (strip.length > 0 && widthOf(strip) <= room.columns && strip.length + 1 + digits.length <= room.rows)
    return [...strip, '', ...digits]
  if (digits.length > 3 && kind === 'work') return null
  const small = wordRows.length <= digits.length ? beside(digits, wordRows, 4) : digits
  const last = number === null || digits.length + 1 > room.rows ? [] : [number]
  return [...(widthOf(small) <= room.columns ? small : digits), ...last]
}

/** Lays out a rest: below the digits a bar across the whole width, with its remaining part drawn heavily. */
function restBar(
  digits: string[],
  { number, share }: BigClock,
  { columns, rows }: { columns: number; rows: number },
): string[] | null {
  const fits = digits.length + 1 <= rows
  if (!fits && digits.length > 3) return null
  const bar = barOf(share, columns, '━', '╌')
  const amount = number === null ? [] : lettersOf(number, true)
  const both = beside(digits, amount, 4)
  const isBeside = amount.length <= digits.length && widthOf(both) <= columns
  const below = number !== null && !isBeside && digits.length + 2 <= rows ? [number] : []
  return [...(isBeside ? both : digits), ...(fits ? [bar] : []), ...below]
}

/** A rest that is over: the bar fills all the room beside or below the digits. */
function overBar(
  digits: string[],
  share: number,
  { columns, rows }: { columns: number; rows: number },
): string[] | null {
  const below = Math.min(rows - digits.length, digits.length)
  // Large digits without a bar below them look like work.
  if (digits.length > 3 && below < 3) return null
  const bar = (width: number) => barOf(share, width, '█', '▓█')
  const free = columns - widthOf(digits) - 1
  const right = free < 4 ? [] : digits.map(() => bar(free))
  return [...beside(digits, right, 1), ...Array.from({ length: below }, () => bar(columns))]
}

/** @param share 0 to 1, drawn with `full`; the rest repeats `empty` */
function barOf(share: number, width: number, full: string, empty: string): string {
  const count = Math.round(width * Math.max(0, Math.min(1, share)))
  return full.repeat(count) + empty.repeat(width).slice(0, width - count)
}

/** Words and numbers in letters three rows high; `6 reps` and `40 m x 2x30` with what follows the number small where it
 * has no such letters, and one plain row when the number has none either. */
function lettersOf(text: string, isThin = false): string[] {
  const drawn = (part: string) => bigTextOf(part.toUpperCase(), isThin)
  const whole = drawn(text)
  if (whole !== null) return whole
  const [, number = '', word = ''] = /^(\S*\d\S*)( .+)$/.exec(text) ?? []
  const rows = drawn(number)
  if (number === '' || rows === null) return [text]
  return rows.map((row, at) => (at === rows.length - 1 ? row + word : row))
}

function beside(left: string[], right: string[], gap: number): string[] {
  if (left.length === 0) return right
  if (right.length === 0) return left
  const width = widthOf(left) + gap
  const rows = Array.from({ length: Math.max(left.length, right.length) })
  return even(rows.map((_, row) => (left[row] ?? '').padEnd(width) + (right[row] ?? '')))
}

function even(rows: readonly string[]): string[] {
  const width = widthOf(rows)
  return rows.map((row) => row.padEnd(width))
}

function widthOf(rows: readonly string[]): number {
  return Math.max(0, ...rows.map(({ length }) => length))
}
