/** Text in big characters of five or three rows, all of one width: digits and `:` `.` `+` `-` `x`; in three rows of
 * blocks also the capitals of WORK, SET, REPEAT and `MAX`. Null for a text with any other character.
 * @param isUnicode false uses only ASCII characters
 * @param isThin three rows of strokes, which ASCII draws heavier otherwise */
export function bigTextOf(text: string, size: 5 | 3, isUnicode: boolean, isThin = false): string[] | null {
  const inStrokes = size === 3 && (isThin || !isUnicode)
  const shapes = size === 5 ? fiveRows : inStrokes ? threeRowsOfStrokes : threeRows
  const blank = Array.from({ length: size }, () => '  ')
  const drawn = [...text].map((character) => {
    const shape = shapes.get(character) ?? shapes.get(character.toLowerCase())
    return character === ' ' ? blank : shape
  })
  if (drawn.includes(undefined)) return null
  const rows = blank.map((_, row) => drawn.map((shape) => shape?.[row]).join(size === 5 ? '  ' : ' '))
  if (isUnicode || isThin) return rows
  return rows.map((row) => row.replace(/[█▀▄_|/\\-]/g, '#'))
}

/* The shapes of the big characters, drawn for Pausebook: five rows with strokes two cells wide, three rows of
 * half blocks, and three rows of ASCII strokes. */

const five = `
0|▄████▄|██  ██|██  ██|██  ██|▀████▀
1| ▄██  |▀▀██  |  ██  |  ██  |██████
2|▄████▄|▀▀  ██| ▄▄██▀|██▀   |██████
3|▄████▄|    ██|  ███ |    ██|▀████▀
4|██  ██|██  ██|▀█████|    ██|    ██
5|██████|██    |▀████▄|    ██|▀████▀
6|▄████▄|██    |█████▄|██  ██|▀████▀
7|██████|   ▄█▀|  ▄█▀ | ▄█▀  | ██   
8|▄████▄|██  ██| ████ |██  ██|▀████▀
9|▄████▄|██  ██|▀█████|    ██|▀████▀
:|  |██|  |██|  
.|  |  |  |  |██
+|      |  ██  |██████|  ██  |      
-|    |    |████|    |    
x|      |██  ██| ▀██▀ |██  ██|      
`

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

function shapesOf(drawn: string, rows: number): Shapes {
  const lines = drawn.split('\n').filter((line) => line !== '')
  return new Map(
    lines.map((line) => {
      // All rows have the same width, so strokes may contain the bar between them.
      const width = (line.length - 1 - rows) / rows
      return [
        line.charAt(0),
        Array.from({ length: rows }, (_, row) =>
          line.slice(2 + row * (width + 1), 2 + row * (width + 1) + width),
        ),
      ]
    }),
  )
}

export const fiveRows = shapesOf(five, 5)
export const threeRows = shapesOf(three, 3)
export const threeRowsOfStrokes = shapesOf(strokes, 3)
