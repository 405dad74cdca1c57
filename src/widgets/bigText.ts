import { fiveRows, threeRows, threeRowsOfStrokes } from './digitShapes.ts'

/** Height in rows; 1 is plain text. */
export type BigSize = 5 | 3 | 1

const gaps = { 5: '  ', 3: ' ', 1: '' } as const

/** Text in big characters: digits and `:` `.` `+` `-` `x`, and the word `go`. Rows of one width; text with any
 * other character stays plain, one row high.
 * @param isUnicode false: only ASCII characters are used */
export function bigTextOf(text: string, size: BigSize, isUnicode: boolean): string[] {
  const shapes = [...text].map((character) => shapeOf(character, size, isUnicode))
  if (size === 1 || shapes.some((shape) => shape === null)) return [text]
  return Array.from({ length: size }, (_, row) => shapes.map((shape) => shape?.[row] ?? '').join(gaps[size]))
}

/** The largest size at which all texts fit side by side, with `gap` cells between them. */
export function bigSizeOf(
  texts: readonly string[],
  room: { columns: number; rows: number },
  gap = 4,
): BigSize {
  for (const size of [5, 3] as const) {
    const big = texts.map((text) => bigTextOf(text, size, true))
    const width = big.reduce((sum, rows) => sum + [...(rows[0] ?? '')].length, gap * (texts.length - 1))
    if (size <= room.rows && width <= room.columns && big.every((rows) => rows.length === size)) return size
  }
  return 1
}

function shapeOf(character: string, size: BigSize, isUnicode: boolean): readonly string[] | null {
  const blank = character === ' ' ? Array.from({ length: size }, () => '  ') : null
  if (size === 5) {
    const shape = fiveRows.get(character) ?? blank
    return isUnicode ? shape : (shape?.map((row) => row.replace(/[█▀▄]/g, '#')) ?? null)
  }
  return (isUnicode ? threeRows : threeRowsOfStrokes).get(character) ?? blank
}
