import { EventEmitter } from 'node:events'
import xterm, { type Terminal } from '@xterm/headless'

/* A terminal in this process: streams for `runScreens`, and a screen that shows what they send. */

export interface Glass {
  streams: { stdin: NodeJS.ReadStream & { fd: 0 }; stdout: NodeJS.WriteStream & { fd: 1 } }
  /** What it has received so far, one string for each call of `write`. */
  writes: string[]
  /** What it shows now, as `cellsOf` writes it. */
  cells(): Promise<string[]>
  /** Sends these bytes in one chunk, and waits until they have been handled. */
  type(text: string): Promise<void>
  resize(columns: number, rows: number): Promise<void>
}

/** Waits for what began in this turn of the event loop, and what React and the keyboard postponed to later ones. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < 3; turn++) await new Promise((done) => setImmediate(done))
}

export function createGlass(columns: number, rows: number): Glass {
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true })
  const writes: string[] = []
  const stdout = Object.assign(new EventEmitter(), {
    columns,
    rows,
    write: (data: string) => {
      writes.push(data)
      terminal.write(data)
      return true
    },
  })
  const stdin = Object.assign(new EventEmitter(), { setRawMode() {}, resume() {}, pause() {} })
  return {
    streams: { stdin, stdout } as unknown as Glass['streams'],
    writes,
    cells: () => cellsOf(terminal),
    type: (text) => {
      stdin.emit('data', Buffer.from(text))
      return settled()
    },
    resize: (width, height) => {
      Object.assign(stdout, { columns: width, rows: height })
      terminal.resize(width, height)
      stdout.emit('resize')
      return settled()
    },
  }
}

/** The lines of a terminal, with `{colour, bold, inverse}` wherever that changes, once everything is drawn. */
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
