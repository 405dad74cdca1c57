/* A terminal's screen as an SVG picture: characters of one width, as a font of the reader's draws them; block
 * characters, of which the big digits are made, as rectangles, for fonts leave gaps between them. */

const cell = { width: 9, height: 20, baseline: 15 }
const margin = 12
const ground = '#fbfaf6'
const ink = '#24292e'
/** The sixteen colours, dark enough for the ground. */
const palette = [
  ...['#24292e', '#a4262c', '#2b6a30', '#7a5c00', '#1f4f99', '#7a3b8f', '#0b6e75', '#6a6f75'],
  ...['#50565c', '#c4373d', '#37803d', '#8f6d00', '#2f64b8', '#9450ab', '#0f838b', '#3a3f44'],
]

/** @param terminal an xterm.js terminal, @param title what the picture shows, for those who do not see it */
exports.svgOf = function svgOf(terminal, title) {
  const { cols, rows, buffer } = terminal
  const width = cols * cell.width + 2 * margin
  const height = rows * cell.height + 2 * margin
  const shapes = Array.from({ length: rows }, (_, row) =>
    rowOf(buffer.active.getLine(buffer.active.baseY + row), row, cols),
  )
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">
<title>${escaped(title)}</title>
<rect width="${width}" height="${height}" rx="6" fill="${ground}" stroke="#d5d2c8"/>
${shapes.flat().join('\n')}
</svg>
`
}

function rowOf(line, row, columns) {
  const shapes = []
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
    if (look.ground !== null) shapes.push(rectangle(x, y, cell.width, cell.height, look.ground))
    const block = blocks[characters]
    if (block) {
      end()
      const [left, top, right, bottom] = block
      shapes.push(
        rectangle(
          x + left * cell.width,
          y + top * cell.height,
          (right - left) * cell.width,
          (bottom - top) * cell.height,
          look.ink,
        ),
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
  return shapes
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

/** Its length is given, so that columns stand below each other in any font. */
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
