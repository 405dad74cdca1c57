import { EventEmitter } from 'node:events'
import { sanitizeFrame } from '../../validate/unsafe.ts'
import type { Key } from '../widgets/keys.ts'

/* Ink's input and output. It reads one key at a time as if from a terminal, and writes whole frames (its
 * `debug` option), of which only the changed lines are passed on. */

/** Where Ink reads keys. The session handles raw mode. */
export class InkInput extends EventEmitter {
  readonly isTTY = true
  #next: string | null = null

  give(bytes: string): void {
    this.#next = bytes
    this.emit('readable')
  }

  read(): string | null {
    const bytes = this.#next
    this.#next = null
    return bytes
  }

  setEncoding(): void {}
  setRawMode(): void {}
  ref(): void {}
  unref(): void {}
}

/** Where Ink draws. */
export class InkOutput extends EventEmitter {
  readonly isTTY = true
  readonly #terminal: NodeJS.WriteStream
  readonly #isUnicode: boolean
  #shown: readonly string[] | null = null
  #frame: readonly string[] = []
  #isOpen = false
  #isScheduled = false

  /** @param isUnicode false draws with ASCII characters */
  constructor(terminal: NodeJS.WriteStream, isUnicode: boolean) {
    super()
    this.#terminal = terminal
    this.#isUnicode = isUnicode
  }

  get columns(): number {
    return this.#terminal.columns || 80
  }

  get rows(): number {
    return this.#terminal.rows || 24
  }

  /** Draws only the last of several frames of one turn. */
  write(frame: string): boolean {
    this.#frame = (this.#isUnicode ? frame : asciiFrame(frame)).split('\n')
    if (!this.#isScheduled) {
      this.#isScheduled = true
      setImmediate(() => this.draw())
    }
    return true
  }

  /** Starts drawing on the terminal, whose contents are unknown. */
  open(): void {
    this.#isOpen = true
    this.resized()
  }

  close(): void {
    this.#isOpen = false
  }

  resized(): void {
    this.#shown = null
    this.emit('resize')
    this.draw()
  }

  /** Draws at once, and not again when the turn ends without another frame. */
  draw(): void {
    this.#isScheduled = false
    if (!this.#isOpen) return
    const update = frameUpdate(this.#shown, this.#frame, this.rows)
    this.#shown = this.#frame
    if (update !== '') this.#terminal.write(update)
  }
}

const sequences: Readonly<Record<string, string>> = {
  left: '\x1b[D',
  right: '\x1b[C',
  backspace: '\x7f',
  delete: '\x7f',
}

/** The input for Ink for a key that belongs to the entry field; null for a key that the field does not use. */
export function inkBytesOf(key: Key): string | null {
  if (key.kind === 'named') return sequences[key.name] ?? null
  return key.kind === 'text' ? key.text : key.text.replaceAll('\n', ' ').trim()
}

/** The bytes that turn a terminal showing `before` into one showing `after`: only the differing lines, each with its
 * position; an empty string if they are equal. `before` null: the screen's contents are unknown.
 * @param rows height of the terminal; the last row stays empty, so that nothing ever scrolls */
export function frameUpdate(
  before: readonly string[] | null,
  after: readonly string[],
  rows: number,
): string {
  const height = Math.min(Math.max(before?.length ?? 0, after.length), rows - 1)
  const lines: string[] = []
  for (let row = 0; row < height; row++) {
    const line = after[row] ?? ''
    if (before === null ? line !== '' : line !== (before[row] ?? '')) {
      // Erase first: after a full line the cursor is on its last character, and erasing then would remove it.
      lines.push(`\x1b[${row + 1};1H\x1b[0m\x1b[K${sanitizeFrame(line)}\x1b[0m`)
    }
  }
  const cleared = before === null ? '\x1b[0m\x1b[2J' : ''
  if (lines.length === 0 && cleared === '') return ''
  // In DEC private mode 2026 the terminal shows all of it at once.
  return `\x1b[?2026h${cleared}${lines.join('')}\x1b[?2026l`
}

/* What the screens draw with, and below each character the one that stands for it in ASCII. */
const drawn = '█▓▒░▀▄━╌✓…↑↓←→·╶╴─╷┌┐┬╵└┘┴│├┤┼'
const ascii = '#%>."_=-=~^v<>.---|+++|+++|+++'

/** A frame for a terminal without Unicode. Names keep their letters. */
export function asciiFrame(frame: string): string {
  return frame.replace(/[^\x00-\x7f]/g, (character) => ascii[drawn.indexOf(character)] ?? character)
}
