const { openStill } = require('./stillProgram.cjs')

/* The run-through at the top of README: a cluster set and two repeats in the built program, its screens as the frames
 * of one animated SVG. A screen line that does not change is in the file once. */

const day = `Thursday: a cluster set, two five hundreds

lift: legs
  front squat: 1 x (1+1+1) @ 92.5 kg, pause 20 s

run: track
  2 x 500 m in 1:45-1:52, jog 200 m
`

/** Seconds that pass, then what is typed, then what the screen shows, and for how long the frame is shown, in seconds. */
const beats = [
  [0, '', 'Space begin', 3],
  [0, ' ', 'group 1 of 3', 1],
  [3, '', /^set/m, 1],
  [1, ' ', 'pause', 1.5],
  [10, '', /pause[\s\S]*━╌/, 1],
  [7, '', /pause[\s\S]*━╌/, 1],
  [3, '', 'group 2 of 3', 1.5],
  [4, ' ', 'pause', 1],
  [17, '', /pause[\s\S]*━╌/, 1],
  [3, '', 'group 3 of 3', 1.5],
  [5, ' ', '1 result to enter', 2],
  [6, '1+1+1 @8.5', '> 1+1+1 @8.5', 2],
  [1, '\r', 'recorded', 2.5],
  [90, '', /since the/, 1.5],
  [0, ' ', 'Space done', 1],
  [60, '', /^repeat/m, 1],
  [48, '', /^repeat/m, 1],
  [1, ' ', '1 result to enter', 2],
  [3, '\r', 'recorded', 2],
  [40, '', /^jog/m, 1],
  [35, '', /^jog/m, 1],
  [1, ' ', 'Space done', 1],
  [107, '', /^repeat/m, 1],
  [1, ' ', '1 result to enter', 2],
  [3, '1:48.4 hr 176', '> 1:48.4 hr 176', 2],
  [1, '\r', 'recorded', 2.5],
  [2, 'f', 'how hard was the run', 2],
  [2, '8\r', 'minutes >', 1.5],
  // Not only the name of the part, which is already on the day panel.
  [1, '\r', 'run: track, effort 8', 1],
  [1, 'f', 'how hard was the lift', 1],
  [1, '7\r', 'minutes >', 1],
  [1, '5\r', 'session load', 6],
]

const size = { columns: 80, rows: 23 }

/** @param parts `linesOf` and `framed`, which draw a screen
 * @returns the SVG */
exports.runThrough = async function runThrough({ linesOf, framed }) {
  const program = await openStill(day, size)
  try {
    const frames = []
    for (const [seconds, typed, shown, stands] of beats) {
      await program.step(seconds, typed, shown)
      frames.push({ lines: linesOf(program.terminal), stands })
    }
    return framed(size, 'A cluster set and two repeats in the recorder, then the summary', moving(frames))
  } finally {
    await program.close()
  }
}

/** The frames one after the other, for ever: each line of the screen as often as it changes. */
function moving(frames) {
  const whole = frames.reduce((sum, { stands }) => sum + stands, 0)
  const begins = frames.map((_, index) => frames.slice(0, index).reduce((sum, { stands }) => sum + stands, 0))
  const rows = frames[0].lines.map((_, row) => {
    const variants = new Map()
    frames.forEach(({ lines }, index) => {
      if (lines[row] === '') return
      variants.set(lines[row], [...(variants.get(lines[row]) ?? []), index])
    })
    return [...variants].map(([shapes, shown]) => {
      if (shown.length === frames.length) return shapes
      const changes = frames.flatMap((_, index) => {
        const isShown = shown.includes(index)
        const isChange = index === 0 || isShown !== shown.includes(index - 1)
        return isChange ? [{ at: begins[index] / whole, isShown }] : []
      })
      const values = changes.map(({ isShown }) => (isShown ? 'visible' : 'hidden'))
      const times = changes.map(({ at }) => Number(at.toFixed(4)))
      return `<g visibility="${values[0]}">${shapes}
<animate attributeName="visibility" dur="${whole}s" repeatCount="indefinite" calcMode="discrete" values="${values.join(';')}" keyTimes="${times.join(';')}"/></g>`
    })
  })
  return rows.flat().join('\n')
}
