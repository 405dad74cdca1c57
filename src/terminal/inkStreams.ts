import { EventEmitter } from 'node:events'
import type { Key } from '../widgets/key.ts'
import type { Patch } from '../widgets/paint.ts'
import { asciiFrame } from './asciiFrame.ts'
import { frameUpdate, patched, patchUpdate } from './frame.ts'

/* Ink's two ends. It reads its input as if from a terminal, one key at a time, and writes whole frames (its
 * `debug` option) of which only the lines that changed go on. */

/** What Ink reads keys from. Raw mode is the session's affair. */
export class InkInput extends EventEmitter {
  readonly isTTY = true
  #next: string | null = null

  give(bytes: string | null): void {
    if (bytes === null || bytes === '') return
    this.#next = bytes
    this.emit('readable')
  }

  read(): string | null {
    const bytes = this.#next
    this.#next = null
    return bytes
  }

  setEncoding(): this {
    return this
  }

  setRawMode(): this {
    return this
  }

  ref(): this {
    return this
  }

  unref(): this {
    return this
  }
}

/** What Ink draws on. */
export class InkOutput extends EventEmitter {
  readonly isTTY = true
  readonly #terminal: NodeJS.WriteStream
  #shown: readonly string[] | null = null
  #frame: readonly string[] = []
  #patch: Patch | null = null
  #isOpen = false
  #isScheduled = false
  #isAscii = false

  constructor(terminal: NodeJS.WriteStream) {
    super()
    this.#terminal = terminal
  }

  get columns(): number {
    return this.#terminal.columns || 80
  }

  get rows(): number {
    return this.#terminal.rows || 24
  }

  /** Several frames of one turn are drawn as the last of them. */
  write(frame: string): boolean {
    this.#frame = (this.#isAscii ? asciiFrame(frame) : frame).split('\n')
    if (!this.#isScheduled) {
      this.#isScheduled = true
      setImmediate(() => this.draw())
    }
    return true
  }

  /** From now on the terminal is ours to draw on; what it shows is not known. */
  open(): void {
    this.#isOpen = true
    this.#shown = null
    this.draw()
  }

  /** From now on a cut text ends in full stops. */
  keepToAscii(): void {
    this.#isAscii = true
  }

  close(): void {
    this.#isOpen = false
  }

  /** Shows the patch at once, and over every frame until another or none is given. False, and nothing is shown, where
   * it is not known that it would stand where Ink would draw it. */
  paint(patch: Patch | null): boolean {
    if (patch !== null && !this.#isFit(patch)) return false
    this.#patch = patch
    if (patch === null) return true
    this.#terminal.write(patchUpdate(patch))
    this.#shown = patched(this.#frame, patch)
    return true
  }

  #isFit({ row, column, lines }: Patch): boolean {
    if (!this.#isOpen || this.#isScheduled || this.#shown === null) return false
    const end = row + lines.length
    if (row < 0 || end > Math.min(this.#frame.length, this.rows - 1)) return false
    const before = this.#patch
    const isInPlace =
      before === null ||
      (before.row === row && before.column === column && before.lines.length === lines.length)
    return isInPlace && this.#frame.slice(row, end).every(isOneCellEach)
  }

  resized(): void {
    this.#shown = null
    this.#patch = null
    this.emit('resize')
    this.draw()
  }

  /** At once, and not again when the turn ends without another frame. */
  draw(): void {
    this.#isScheduled = false
    if (!this.#isOpen) return
    const frame = this.#patch === null ? this.#frame : patched(this.#frame, this.#patch)
    const update = frameUpdate(this.#shown, frame, this.rows)
    this.#shown = frame
    if (update !== '') this.#terminal.write(update)
  }
}

/** Whether the terminal surely counts the columns of this line as Ink does: wide characters and marks on others are
 * where they may differ. Printable ASCII with its colours, Latin-1, dashes and quotes, arrows, frames and blocks. */
function isOneCellEach(line: string): boolean {
  return /^[\x1b\x20-\x7e\u00a1-\u00ac\u00ae-\u00ff\u2013\u2014\u2018-\u201d\u2026\u2190-\u2193\u2500-\u259f\u2713]*$/.test(
    line,
  )
}

const sequences: Readonly<Record<string, string>> = {
  left: '\x1b[D',
  right: '\x1b[C',
  backspace: '\x7f',
  delete: '\x7f',
}

/** What Ink is given for a key that belongs to the entry field; null for one the field has no use for. */
export function inkBytesOf(key: Key): string | null {
  if (key.kind === 'named') return sequences[key.name] ?? null
  return key.kind === 'text' ? key.text : key.text.replace(/\n/g, ' ').trim()
}
