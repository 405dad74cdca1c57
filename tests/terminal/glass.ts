import xterm, { type Terminal } from '@xterm/headless'
import { InkOutput } from '../../src/terminal/inkStreams.ts'

/* A terminal's glass that InkOutput draws on. */

export interface Glass {
  output: InkOutput
  /** Everything it has been sent so far. */
  sent(): string
  /** What stands on it now, as `cellsOf` writes it. */
  cells(): Promise<string[]>
  resize(columns: number, rows: number): void
}

export function createGlass(columns: number, rows: number): Glass {
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true })
  let sent = ''
  const size = { columns, rows }
  const stream = {
    get columns() {
      return size.columns
    },
    get rows() {
      return size.rows
    },
    write: (data: string) => {
      sent += data
      terminal.write(data)
      return true
    },
  }
  // As on the alternate screen: long lines are not wrapped, the cursor is not shown.
  terminal.write('\x1b[?7l\x1b[?25l')
  return {
    output: new InkOutput(stream as unknown as NodeJS.WriteStream),
    sent: () => sent,
    cells: () => cellsOf(terminal),
    resize: (width, height) => {
      Object.assign(size, { columns: width, rows: height })
      terminal.resize(width, height)
    },
  }
}

/** The lines of a terminal, with `{colour, bold, inverse}` wherever that changes, once all is drawn. */
export async function cellsOf(terminal: Terminal): Promise<string[]> {
  await new Promise<void>((done) => terminal.write('', done))
  const buffer = terminal.buffer.active
  return Array.from({ length: terminal.rows }, (_, row) => {
    const line = buffer.getLine(buffer.baseY + row)
    let text = ''
    let style = '{}'
    for (let column = 0; column < terminal.cols; column++) {
      const cell = line?.getCell(column)
      const characters = cell?.getChars() || ' '
      const isSeen = characters !== ' ' || cell?.isInverse() !== 0
      const own = `{${cell?.isFgDefault() ? '' : cell?.getFgColor()}${cell?.isBold() ? 'b' : ''}${cell?.isInverse() ? 'i' : ''}}`
      if (isSeen && own !== style) {
        style = own
        text += own
      }
      if (cell?.getWidth() !== 0) text += characters
    }
    return text.trimEnd()
  })
}
