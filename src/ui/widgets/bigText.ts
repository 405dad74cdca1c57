/* Characters of five rows, drawn for Pausebook. The clock scales them up; at their smallest two rows share one. */

const five = `
0 ### #.# #.# #.# ###
1 ..# ..# ..# ..# ..#
2 ### ..# ### #.. ###
3 ### ..# ### ..# ###
4 #.# #.# ### ..# ..#
5 ### #.. ### ..# ###
6 ### #.. ### #.# ###
7 ### ..# ..# ..# ..#
8 ### #.# ### #.# ###
9 ### #.# ### ..# ###
: . # . # .
. . . . . #
+ ... .#. ### .#. ...
- ... ... ### ... ...
x ... #.# .#. #.# ...
W #.#.# #.#.# #.#.# #.#.# #####
O ### #.# #.# #.# ###
R ### #.# ##. #.# #.#
K #..# #.#. ##.. #.#. #..#
S ### #.. ### ..# ###
E ### #.. ##. #.. ###
T ### .#. .#. .#. .#.
P ### #.# ### #.. #..
A ### #.# ### #.# #.#
M #...# ##.## #.#.# #...# #...#
I ##. .#. .#. .#. ###
`

const shapes: ReadonlyMap<string, readonly string[]> = new Map(
  five
    .trim()
    .split('\n')
    .map((line) => [line.charAt(0), line.slice(2).split(' ')]),
)

/** The five rows of a character, in which `#` is covered; undefined for one that is not drawn. */
export function shapeOf(character: string): readonly string[] | undefined {
  return shapes.get(character) ?? shapes.get(character.toLowerCase())
}

/** Text in characters three rows high: digits and `:` `.` `+` `-` `x`; in blocks also the capitals of WORK, SET, REPEAT
 * and `MAX`. Null for a text with any other character.
 * @param isThin draws strokes instead of blocks */
export function bigTextOf(text: string, isThin = false): string[] | null {
  const drawn = [...text].map((character) => {
    if (character === ' ') return ['  ', '  ', '  ']
    return isThin ? thinOf(character.toLowerCase()) : blocksOf(character)
  })
  if (drawn.includes(undefined)) return null
  return [0, 1, 2].map((row) => drawn.map((rows) => rows?.[row]).join(' '))
}

/** Half a block for each row, the lowest at the foot of its line: with ASCII a level stroke is then an underline, on
 * which the strokes above it stand. A 1 has its feet here: a bare stroke would be too dark for work beside a rest. */
function blocksOf(character: string): string[] | undefined {
  const shape = shapeOf(character === '1' ? 'I' : character)
  const half = (row: number, column: number) => (shape?.[row]?.[column] === '#' ? 1 : 0)
  return (
    shape &&
    [-1, 1, 3].map((row) =>
      [...(shape[0] ?? '')]
        .map((_, column) => ' ▄▀█'[2 * half(row, column) + half(row + 1, column)])
        .join(''),
    )
  )
}

const thinSigns: Readonly<Record<string, readonly string[]>> = {
  ':': [' ', '.', '.'],
  '.': [' ', ' ', '.'],
  '+': ['   ', ' | ', '-+-'],
  '-': ['  ', '--', '  '],
  x: ['   ', '\\ /', '/ \\'],
}

/** Strokes of ASCII: an outline of three rows has no room for the middle stroke, so 0, 6, 8 and 9 would look alike. */
function thinOf(character: string): readonly string[] | undefined {
  if (!/\d/.test(character)) return thinSigns[character]
  const at = (row: number, column: number, stroke: string) =>
    shapeOf(character)?.[row]?.[column] === '#' ? stroke : ' '
  return [
    ` ${at(0, 1, '_')} `,
    at(1, 0, '|') + at(2, 1, '_') + at(1, 2, '|'),
    at(3, 0, '|') + at(4, 1, '_') + at(3, 2, '|'),
  ]
}
