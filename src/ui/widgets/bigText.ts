/** Text in characters three rows high, all of one width: digits and `:` `.` `+` `-` `x`; in blocks also the capitals of
 * WORK, SET, REPEAT and `MAX`. Null for a text with any other character.
 * @param isThin draws strokes instead of blocks */
export function bigTextOf(text: string, isThin = false): string[] | null {
  const shapes = isThin ? threeRowsOfStrokes : threeRows
  const drawn = [...text].map((character) => {
    if (character === ' ') return blank
    return shapes.get(character) ?? shapes.get(character.toLowerCase())
  })
  if (drawn.includes(undefined)) return null
  return blank.map((_, row) => drawn.map((shape) => shape?.[row]).join(' '))
}

const blank = ['  ', '  ', '  ']

/* The shapes, drawn for Pausebook: half blocks, and ASCII strokes. */

const three = `
0|█▀█|█ █|▀▀▀
1|▀█ | █ |▀▀▀
2|▀▀█|█▀▀|▀▀▀
3|▀▀█| ▀█|▀▀▀
4|█ █|▀▀█|  ▀
5|█▀▀|▀▀█|▀▀▀
6|█▀▀|█▀█|▀▀▀
7|▀▀█|  █|  ▀
8|█▀█|█▀█|▀▀▀
9|█▀█|▀▀█|▀▀▀
:|▄|▄| 
.| | |▀
+| ▄ |▀█▀|   
-|  |▀▀|  
x|▄ ▄|▄▀▄|   
W|█ █ █|█ █ █|▀▀▀▀▀
O|█▀█|█ █|▀▀▀
R|█▀█|█▀▄|▀ ▀
K|█ ▄▀|█▀▄ |▀  ▀
S|█▀▀|▀▀█|▀▀▀
E|█▀▀|█▀ |▀▀▀
T|▀█▀| █ | ▀ 
P|█▀█|█▀▀|▀  
A|█▀█|█▀█|▀ ▀
M|█▄ ▄█|█ ▀ █|▀   ▀
`

const strokes = `
0| _ || |||_|
1|   |  ||  |
2| _ | _|||_ 
3| _ | _|| _|
4|   ||_||  |
5| _ ||_ | _|
6| _ ||_ ||_|
7| _ |  ||  |
8| _ ||_|||_|
9| _ ||_|| _|
:| |.|.
.| | |.
+|   | | |-+-
-|  |--|  
x|   |\\ /|/ \\
`

type Shapes = ReadonlyMap<string, readonly string[]>

function shapesOf(drawn: string): Shapes {
  const lines = drawn.split('\n').filter((line) => line !== '')
  return new Map(
    lines.map((line) => {
      // All rows have the same width, so strokes may contain the bar between them.
      const width = (line.length - 4) / 3
      const rowAt = (start: number) => line.slice(start, start + width)
      return [line.charAt(0), [rowAt(2), rowAt(3 + width), rowAt(4 + 2 * width)]]
    }),
  )
}

export const threeRows = shapesOf(three)
export const threeRowsOfStrokes = shapesOf(strokes)
