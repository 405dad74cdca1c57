const { readFileSync } = require('node:fs')
const { join } = require('node:path')
const { root } = require('./root.cjs')
const { openStill } = require('./pseudoTerminal.cjs')

/* The pictures of README, all from one walk: the built program in a real pseudo-terminal, driven through a sample day
 * by keys, with a clock that is set by hand. */

const size = { columns: 100, rows: 26 }

/** Seconds that pass, then what is typed, then what the screen shows, and for how many seconds the moving picture shows
 * it, if it does. A word is the name of the still picture taken there. */
const walk = [
  // Enter the meal before the day first, as prescribed.
  [1, '\r', 'leg swings >'],
  [200, '\r', 'recorded done'],
  [1, 'f', 'prep is closed'],
  [300, '5:01\r', 'split 1 of 5'],
  [620, '2:04 2:03.5 2:03 2:02.8 2:02.5\r', 'these results'],
  [0, '\r', 'run 3 of 5'],
  [300, ' ', 'Space next'],
  [250, ' ', 'Space done', 1],
  [60, '', /^repeat/m, 1],
  [48, '', /^repeat/m, 1],
  [1, ' ', '1 result to enter', 2],
  [3, '\r', /^recorded/m, 2],
  [40, '', /^jog/m, 1],
  [35, '', /^jog/m, 1],
  [1, ' ', 'Space done', 1],
  [107, '', /^repeat/m, 1],
  [1, ' ', '1 result to enter', 2],
  [3, '1:48.4 hr 176', '> 1:48.4 hr 176', 2],
  [1, '\r', /^recorded/m, 2.5],
  [200, '1:48.2\r', 'Save this time'],
  [0, '\r', 'run 5 of 5'],
  [300, '5:02\r', 'warm-up set 1 of'],
  [5, 'f', 'how hard was the run', 2],
  [2, '8\r', 'minutes >', 1],
  [2, '38\r', 'run: track, effort 8, 38 min', 2],
  // Wait for something that was not on the screen before the key, or the clock moves on before the key is read.
  [540, ' ', 'Space done'],
  [20, ' ', /60 kg x 5[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [12, ' ', /75 kg x 3[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [10, ' ', /85 kg x 1[\s\S]*Space begin/],
  [58, ' ', 'Space done'],
  [5, ' ', /front squat 1[\s\S]*Space begin/],
  [84, ' ', 'group 1 of 3', 1],
  [3, '', /^set/m, 1],
  'work',
  [1, ' ', 'pause', 1.5],
  [10, '', /pause[\s\S]*━╌/, 1],
  [7, '', /pause[\s\S]*━╌/, 1],
  [3, '', /group 2 of 3[\s\S]* go\n/, 1.5],
  [4, ' ', 'pause', 1],
  [17, '', /pause[\s\S]*━╌/, 1],
  [3, '', /group 3 of 3[\s\S]* go\n/, 1.5],
  [5, ' ', '1 result to enter', 2],
  [6, '1+1+1 @7.5', '> 1+1+1 @7.5', 2],
  [1, '\r', 'recorded', 2.5],
  // The first row of 1:02.
  [81, '', /rest\n *┌───┐ {11}┌─{15}┐ {3}┌─{15}┐/, 1.5],
  'rest',
  [120, '', 'rest, over', 1],
  'over',
  [0, '1+1+1 @8\r', 'set 3 of 3 >'],
  [0, '1+1+1 @8.5\r', 'pull-up, set 1 of 2 >'],
  [300, '6 @8\r', 'dip, set 1 of 2 >'],
  [20, '8\r', 'pull-up, set 2 of 2 >'],
  [120, '5! @9.5\r', 'dip, set 2 of 2 >'],
  [20, '8 @9\r', 'all recorded'],
  [0, 'f', 'how hard was the lift', 1],
  [0, '7\r', 'minutes >', 1],
  // Fuel is done: it closes with the lift, and the summary follows.
  [0, '22\r', 'session load', 6],
]

/** By the name of its file: the SVG of a picture. */
exports.pictures = async function pictures() {
  const day = readFileSync(join(root, 'sample-sessions', 'short-track-and-cluster.txt'), 'utf8')
  const program = await openStill(day, size)
  const frames = []
  const stills = {}
  try {
    for (const step of walk) {
      if (typeof step === 'string') stills[step] = linesOf(program.terminal)
      else {
        const [seconds, typed, shown, shownFor] = step
        await program.step(seconds, typed, shown)
        if (shownFor !== undefined) frames.push({ lines: linesOf(program.terminal), shownFor })
      }
    }
    const tall = { columns: 80, rows: 52 }
    program.resize(tall.columns, tall.rows)
    await program.waitFor(/fuel\n[\s\S]*c copy/)
    await program.waitForNo('more below')
    await program.whole()
    const { work, rest, over } = stills
    const small = { scale: 0.4, filter: 'grayscale(1)' }
    const moved = 'A cluster set and two repeats in the recorder, then the summary'
    return {
      'run-through.svg': picture(moved, size, [moving(frames)]),
      'three-metres.svg': picture(
        'Work, a rest, and a rest that is over, in grey',
        size,
        [work, rest, over],
        small,
      ),
      'recorder.svg': picture('The recorder in the rest between two cluster sets', size, [rest]),
      'summary.svg': picture('The summary of the day', tall, [linesOf(program.terminal)]),
    }
  } finally {
    await program.close()
  }
}

/** The frames one after the other, in an endless loop: each line of the screen as often as it changes, and once in
 * the file. */
function moving(frames) {
  const begins = []
  let whole = 0
  for (const { shownFor } of frames) {
    begins.push(whole)
    whole += shownFor
  }
  const rows = frames[0].lines.map((_, row) => {
    const shown = frames.map(({ lines }) => lines[row])
    return [...new Set(shown)].map((line) => {
      const changes = shown.flatMap((at, index) =>
        index === 0 || (at === line) !== (shown[index - 1] === line) ? [index] : [],
      )
      if (line === '' || changes.length === 1) return line
      const values = changes.map((index) => (shown[index] === line ? 'visible' : 'hidden'))
      const times = changes.map((index) => Number((begins[index] / whole).toFixed(4)))
      return `<g visibility="${values[0]}">${line}
<animate attributeName="visibility" dur="${whole}s" repeatCount="indefinite" calcMode="discrete" values="${values.join(';')}" keyTimes="${times.join(';')}"/></g>`
    })
  })
  return rows.flat()
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

/** Screens of one size beside each other.
 * @param title describes them for those who cannot see them
 * @param terminal its size in characters
 * @param screens the shapes of their lines
 * @param look their `scale`, and a CSS `filter` for all of them */
function picture(title, terminal, screens, { scale = 1, filter = 'none' } = {}) {
  const width = terminal.columns * cell.width + 2 * margin
  const height = terminal.rows * cell.height + 2 * margin
  const drawn = screens.map(
    (lines, index) => `<g transform="translate(${index * width})">
<rect width="${width}" height="${height}" rx="6" fill="${ground}" stroke="#d5d2c8"/>
${lines.filter((line) => line !== '').join('\n')}
</g>`,
  )
  const whole = screens.length * width
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${Math.ceil(whole * scale)}" height="${Math.ceil(height * scale)}" viewBox="0 0 ${whole} ${height}" role="img" style="filter:${filter}" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">
<title>${escaped(title)}</title>
${drawn.join('\n')}
</svg>
`
}

/** The shapes of each line of the screen, as one text per line. */
function linesOf({ cols, rows, buffer: { active } }) {
  return Array.from({ length: rows }, (_, row) => {
    const line = active.getLine(active.baseY + row)
    const cells = Array.from({ length: cols }, (_, column) => cellOf(line.getCell(column), column))
    return shapesOf(
      cells.filter(({ columns }) => columns > 0),
      margin + row * cell.height,
    ).join('\n')
  })
}

function cellOf(at, column) {
  const front = at.isFgPalette() ? palette[at.getFgColor()] : ink
  const back = at.isBgPalette() ? palette[at.getBgColor()] : null
  const look = at.isInverse() ? { ink: back ?? ground, ground: front } : { ink: front, ground: back }
  return { ...look, column, columns: at.getWidth(), text: at.getChars() || ' ', isBold: at.isBold() !== 0 }
}

/** From where to where these characters fill their cell, top to bottom. */
const blocks = { '█': [0, 1], '▀': [0, 0.5], '▄': [0.5, 1] }

/** Grounds, blocks and texts of one line. */
function shapesOf(cells, y) {
  const grounds = runsOf(cells, (at) => at.ground).map((run) => rectangle(run, blocks['█'], y, run.ground))
  const bars = runsOf(cells, ({ text, ink }) => (text in blocks ? `${text}${ink}` : null)).map((run) =>
    rectangle(run, blocks[run.text[0]], y, run.ink),
  )
  const texts = runsOf(cells, ({ text, ink, isBold }) => (text in blocks ? null : `${ink}${isBold}`))
    .filter(({ text }) => text.trim() !== '')
    .map((run) => textOf(run, y))
  return [...grounds, ...bars, ...texts]
}

/** Cells that follow each other and have the same key, as one; those without a key are left out. */
function runsOf(cells, keyOf) {
  const runs = []
  for (const at of cells) {
    const key = keyOf(at)
    const last = runs.at(-1)
    if (last?.key === key) {
      last.text += at.text
      last.columns += at.columns
    } else runs.push({ ...at, key })
  }
  return runs.filter(({ key }) => key !== null)
}

function rectangle({ column, columns }, [top, bottom], y, fill) {
  return `<rect x="${margin + column * cell.width}" y="${y + top * cell.height}" width="${columns * cell.width}" height="${(bottom - top) * cell.height}" fill="${fill}" shape-rendering="crispEdges"/>`
}

/** Gives the text a fixed length, so that columns line up in any font. */
function textOf({ text, column, columns, ink: fill, isBold }, y) {
  const lead = text.length - text.trimStart().length
  const shown = text.trim()
  const length = (columns - (text.length - shown.length)) * cell.width
  const bold = isBold ? ' font-weight="bold"' : ''
  return `<text x="${margin + (column + lead) * cell.width}" y="${y + cell.baseline}" textLength="${length}" lengthAdjust="spacingAndGlyphs" xml:space="preserve" fill="${fill}"${bold}>${escaped(shown)}</text>`
}

function escaped(text) {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
}
