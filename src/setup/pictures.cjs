const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { openStill } = require('./pseudoTerminal.cjs')

/* The pictures of README: the built program in a real pseudo-terminal, driven through a sample day by keys,
 * with a clock that is set by hand. */

const day = 'sample-sessions/short-track-and-cluster.txt'
const size = { columns: 100, rows: 26 }

/** Seconds that pass, then what is typed, then what the screen shows. */
const untilTheRest = [
  // Enter the meal before the day first, as prescribed.
  [1, '\r', 'leg swings >'],
  [200, '\r', 'recorded done'],
  [1, 'f', 'prep is closed'],
  [300, '5:01\r', 'split 1 of 5'],
  [620, '2:04 2:03.5 2:03 2:02.8 2:02.5\r', 'these results'],
  [0, '\r', 'run 3 of 5'],
  [800, '1:50.1 1:49.4 1:48.2\r', 'these results'],
  [0, '\r', 'run 5 of 5'],
  [300, '5:02\r', 'warm-up set 1 of'],
  [5, 'f', 'how hard was the run'],
  [2, '8\r', 'minutes >'],
  [2, '38\r', 'run: track, effort 8, 38 min'],
  // Wait for something that was not on the screen before the key, or the clock moves on before the key is read.
  [540, ' ', 'Space done'],
  [20, ' ', /60 kg x 5[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [12, ' ', /75 kg x 3[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [10, ' ', /85 kg x 1[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [5, ' ', /front squat 1[\s\S]*Space begin/],
  [84, ' ', 'group 1 of 3'],
  [4, ' ', 'pause'],
  [20, '', /group 2 of 3[\s\S]* go\n/],
  [4, ' ', 'pause'],
  [20, '', /group 3 of 3[\s\S]* go\n/],
  [5, ' ', '1 result to enter'],
  [6, '@7.5\r', 'recorded'],
  // The first row of 1:02.
  [82, '', /rest\n *┌───┐ {11}┌─{15}┐ {3}┌─{15}┐/],
]
const untilItIsOver = [[120, '', 'rest, over']]
const untilTheNextSet = [
  [0, ' ', 'group 1 of 3'],
  [3, '', 'group 1 of 3'],
]
const untilTheSummary = [
  [0, '1+1+1 @8\r', 'set 3 of 3 >'],
  [0, '1+1+1 @8.5\r', 'pull-up, set 1 of 2 >'],
  [300, '6 @8\r', 'dip, set 1 of 2 >'],
  [20, '8\r', 'pull-up, set 2 of 2 >'],
  [120, '5! @9.5\r', 'dip, set 2 of 2 >'],
  [20, '8 @9\r', 'all recorded'],
  [0, 'f', 'how hard was the lift'],
  [0, '7\r', 'minutes >'],
  // Fuel is done: it closes with the lift, and the summary follows.
  [0, '22\r', 'session load'],
]

/** By the name of its file: the SVG of a picture. */
exports.pictures = async function pictures() {
  const program = await openStill(readFileSync(join(root, day), 'utf8'), size)
  const walk = async (steps) => {
    for (const [seconds, typed, shown] of steps) await program.step(seconds, typed, shown)
    return linesOf(program.terminal)
  }
  try {
    const rest = await walk(untilTheRest)
    const recorder = svgOf(program.terminal, 'The recorder in the rest between two cluster sets')
    const over = await walk(untilItIsOver)
    const work = await walk(untilTheNextSet)
    await walk(untilTheSummary)
    program.resize(80, 52)
    await program.waitFor(/fuel\n[\s\S]*c copy/)
    await program.waitForNo('more below')
    await program.whole()
    const summary = svgOf(program.terminal, 'The summary of the day')
    return {
      'recorder.svg': recorder,
      'summary.svg': summary,
      'three-metres.svg': sideBySide([work, rest, over], size),
      'run-through.svg': await runThrough(),
    }
  } finally {
    await program.close()
  }
}

/* The run-through at the top of README: a cluster set and two repeats in the built program, its screens as the frames
 * of one animated SVG. A screen line that does not change is in the file once. */

const runThroughDay = `Thursday: a cluster set, two five hundreds

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

const runThroughSize = { columns: 80, rows: 23 }

/** @returns its SVG */
async function runThrough() {
  const program = await openStill(runThroughDay, runThroughSize)
  try {
    const frames = []
    for (const [seconds, typed, shown, stands] of beats) {
      await program.step(seconds, typed, shown)
      frames.push({ lines: linesOf(program.terminal), stands })
    }
    return framed(
      runThroughSize,
      'A cluster set and two repeats in the recorder, then the summary',
      moving(frames),
    )
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

/* A terminal's screen as an SVG picture: characters of equal width, drawn in a font of the reader's; block
 * characters, which form the big digits, as rectangles, because fonts leave gaps between them. */

const cell = { width: 9, height: 20, baseline: 15 }
const margin = 12
const ground = '#fbfaf6'
const ink = '#24292e'
/** The sixteen colours, dark enough for the ground. */
const palette = [
  ...['#24292e', '#a4262c', '#2b6a30', '#7a5c00', '#1f4f99', '#7a3b8f', '#0b6e75', '#6a6f75'],
  ...['#50565c', '#c4373d', '#37803d', '#8f6d00', '#2f64b8', '#9450ab', '#0f838b', '#3a3f44'],
]

/** @param terminal an xterm.js terminal, @param title describes the picture for those who cannot see it */
function svgOf(terminal, title) {
  const { cols, rows } = terminal
  const lines = linesOf(terminal).filter((line) => line !== '')
  return framed({ columns: cols, rows }, title, lines.join('\n'))
}

/** The shapes of each line of the screen, as one text per line. */
function linesOf({ cols, rows, buffer }) {
  return Array.from({ length: rows }, (_, row) =>
    rowOf(buffer.active.getLine(buffer.active.baseY + row), row, cols).join('\n'),
  )
}

/** Small grey screens, as seen from three metres: work, a rest, a rest that is over.
 * @param screens their lines; @param size of each, in characters */
function sideBySide(screens, { columns, rows }) {
  const scale = 0.4
  const [width, height] = [columns * cell.width + 2 * margin, rows * cell.height + 2 * margin]
  const drawn = screens.map(
    (lines, index) =>
      `<g transform="translate(${index * width * scale} 0) scale(${scale})"><rect width="${width}" height="${height}" fill="${ground}" stroke="#d5d2c8"/>
${lines.filter((line) => line !== '').join('\n')}
</g>`,
  )
  const [wide, high] = [Math.ceil(screens.length * width * scale), Math.ceil(height * scale)]
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${high}" viewBox="0 0 ${wide} ${high}" role="img" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">
<title>Work, a rest, and a rest that is over, in grey</title>
<filter id="grey"><feColorMatrix type="saturate" values="0"/></filter>
<g filter="url(#grey)">
${drawn.join('\n')}
</g>
</svg>
`
}

/** @param size of the terminal, in characters; @param shapes what is drawn on it */
function framed({ columns, rows }, title, shapes) {
  const width = columns * cell.width + 2 * margin
  const height = rows * cell.height + 2 * margin
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">
<title>${escaped(title)}</title>
<rect width="${width}" height="${height}" rx="6" fill="${ground}" stroke="#d5d2c8"/>
${shapes}
</svg>
`
}

function rowOf(line, row, columns) {
  const shapes = []
  const bars = createBars()
  const y = margin + row * cell.height
  let run = null
  const end = () => {
    if (run !== null && run.text.trim() !== '') shapes.push(textOf(run, y))
    run = null
  }
  for (let column = 0; column < columns; column++) {
    const at = line?.getCell(column)
    if (!at || at.getWidth() === 0) continue
    const characters = at.getChars() || ' '
    const look = lookOf(at)
    const x = margin + column * cell.width
    if (look.ground !== null) bars.add(x, y, cell.width, cell.height, look.ground)
    const block = blocks[characters]
    if (block) {
      end()
      const [left, top, right, bottom] = block
      bars.add(
        x + left * cell.width,
        y + top * cell.height,
        (right - left) * cell.width,
        (bottom - top) * cell.height,
        look.ink,
      )
    } else if (run !== null && run.ink === look.ink && run.isBold === look.isBold) {
      run.text += characters
      run.columns += at.getWidth()
    } else {
      end()
      run = { ...look, x, text: characters, columns: at.getWidth() }
    }
  }
  end()
  return [...bars.drawn(), ...shapes]
}

/** Rectangles of one line; merges those that touch and look alike. */
function createBars() {
  const bars = []
  return {
    add: (x, y, width, height, fill) => {
      const last = bars.findLast((bar) => bar.y === y && bar.height === height && bar.fill === fill)
      if (last && last.x + last.width === x) last.width += width
      else bars.push({ x, y, width, height, fill })
    },
    drawn: () => bars.map(({ x, y, width, height, fill }) => rectangle(x, y, width, height, fill)),
  }
}

/** The part of the cell that a character fills: left, top, right, bottom. */
const blocks = {
  '█': [0, 0, 1, 1],
  '▀': [0, 0, 1, 0.5],
  '▄': [0, 0.5, 1, 1],
  '▌': [0, 0, 0.5, 1],
  '▐': [0.5, 0, 1, 1],
}

function lookOf(at) {
  const front = at.isFgPalette() ? palette[at.getFgColor()] : ink
  const back = at.isBgPalette() ? palette[at.getBgColor()] : null
  const isBold = at.isBold() !== 0
  return at.isInverse()
    ? { ink: back ?? ground, ground: front, isBold }
    : { ink: front, ground: back, isBold }
}

/** Gives the text a fixed length, so that columns line up in any font. */
function textOf({ text, x, columns, ink: fill, isBold }, y) {
  const lead = text.length - text.trimStart().length
  const shown = text.trim()
  const length = (columns - (text.length - shown.length)) * cell.width
  const bold = isBold ? ' font-weight="bold"' : ''
  return `<text x="${x + lead * cell.width}" y="${y + cell.baseline}" textLength="${length}" lengthAdjust="spacingAndGlyphs" xml:space="preserve" fill="${fill}"${bold}>${escaped(shown)}</text>`
}

function rectangle(x, y, width, height, fill) {
  return `<rect x="${x}" y="${y}" width="${width}" height="${height}" fill="${fill}" shape-rendering="crispEdges"/>`
}

function escaped(text) {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
}
