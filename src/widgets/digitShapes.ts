/* The shapes of the big characters, drawn for Pausebook: five rows with strokes two cells wide, three rows of
 * half blocks, and three rows of the strokes that every terminal has. */

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
g|▄█████|██    |██ ███|██  ██|▀████▀
o|      |▄████▄|██  ██|██  ██|▀████▀
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
g|█▀▀|█ █|▀▀▀
o|▄▄▄|█ █|▀▀▀
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
g| _ ||  ||_|
o|   | _ ||_|
`

type Shapes = ReadonlyMap<string, readonly string[]>

function shapesOf(drawn: string, rows: number): Shapes {
  const lines = drawn.split('\n').filter((line) => line !== '')
  return new Map(
    lines.map((line) => {
      // Rows are of one width, so that strokes may contain the bar that stands between them.
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
