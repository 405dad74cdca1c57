/** Height in rows. */
type BigSize = 5 | 3

const gaps = { 5: '  ', 3: ' ' } as const

/** Text in big characters: digits and `:` `.` `+` `-` `x`. All rows have the same width; text with any other character
 * stays plain, one row high.
 * @param isUnicode false uses only ASCII characters */
export function bigTextOf(text: string, size: BigSize, isUnicode: boolean): string[] {
  const shapes = [...text].map((character) => shapeOf(character, size, isUnicode))
  if (shapes.some((shape) => shape === null)) return [text]
  return Array.from({ length: size }, (_, row) => shapes.map((shape) => shape?.[row] ?? '').join(gaps[size]))
}

function shapeOf(character: string, size: BigSize, isUnicode: boolean): readonly string[] | null {
  const blank = character === ' ' ? Array.from({ length: size }, () => '  ') : null
  if (size === 5) {
    const shape = fiveRows.get(character) ?? blank
    return isUnicode ? shape : (shape?.map((row) => row.replace(/[█▀▄]/g, '#')) ?? null)
  }
  return (isUnicode ? threeRows : threeRowsOfStrokes).get(character) ?? blank
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
