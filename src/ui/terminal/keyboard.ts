import { neighbours } from '../../units/lists.ts'
import { isUnsafe } from '../../validate/unsafe.ts'
import type { Key, NamedKey } from '../widgets/keys.ts'

/** Milliseconds to wait for the rest of a sequence. The ESC key is reported this late; over a slow link a
 * sequence may come in two packets. */
const patience: Readonly<Record<Exclude<Waiting, 'nothing'>, number>> = { escape: 50, rest: 500, paste: 2000 }

/** How many keys are handled in one turn: enough for a burst of typing. Between turns clocks and signals get their
 * chance. */
const most = 50

/** A longer run of text, which nobody typed, is a paste in a terminal that does not mark one. */
function withPastes(keys: readonly Key[]): Key[] {
  const runs = neighbours(keys, (key, before) => key.kind === 'text' && before.kind === 'text')
  return runs.flatMap((run) => {
    const text = run.map((key) => (key.kind === 'text' ? key.text : '')).join('')
    return run.length > most ? [{ kind: 'paste' as const, text }] : run
  })
}

/** Reads keys from a terminal in raw mode. Keys that arrive together are passed on together. */
export class Keyboard {
  readonly #terminal: NodeJS.ReadStream
  readonly #press: (keys: readonly Key[]) => void
  #splitter = new Splitter()
  #keys: Key[] = []
  #timer: NodeJS.Timeout | undefined
  #turn: NodeJS.Immediate | undefined

  constructor(terminal: NodeJS.ReadStream, press: (keys: readonly Key[]) => void) {
    this.#terminal = terminal
    this.#press = press
  }

  open(): void {
    this.#terminal.setRawMode(true)
    this.#terminal.on('data', this.#arrived)
    this.#terminal.resume()
  }

  /** Discards keys that were typed ahead. */
  close(): void {
    this.#terminal.off('data', this.#arrived)
    this.#terminal.pause()
    leaveRawMode(this.#terminal)
    clearTimeout(this.#timer)
    clearImmediate(this.#turn)
    this.#turn = undefined
    this.#keys = []
    this.#splitter = new Splitter()
  }

  readonly #arrived = (chunk: Uint8Array): void => {
    clearTimeout(this.#timer)
    this.#queue(this.#splitter.push(chunk))
    const { waiting } = this.#splitter
    if (waiting !== 'nothing') {
      this.#timer = setTimeout(() => this.#queue(this.#splitter.flush()), patience[waiting])
    }
  }

  #queue(keys: readonly Key[]): void {
    this.#keys = withPastes([...this.#keys, ...keys])
    // Leaving does not wait for a flood of keys that arrived earlier.
    const leaving = this.#keys.length > most ? this.#keys.findIndex(isInterrupt) : -1
    if (leaving > 0) this.#keys = this.#keys.slice(leaving)
    if (this.#turn === undefined && this.#keys.length > 0) this.#turn = setImmediate(this.#next)
  }

  readonly #next = (): void => {
    const keys = this.#keys.splice(0, most)
    this.#turn = undefined
    if (keys.length > 0) this.#press(keys)
    this.#queue([])
  }
}

export function isInterrupt(key: Key): boolean {
  return key.kind === 'named' && key.name === 'ctrl+c'
}

function leaveRawMode(terminal: NodeJS.ReadStream): void {
  try {
    terminal.setRawMode(false)
  } catch {
    // The terminal is gone, so there is no mode to restore.
  }
}

const pasteEnd = '\x1b[201~'
const longestPaste = 1024 * 1024

/** What a splitter waits for: `nothing`; `escape`, to decide whether an ESC is the key or starts a sequence; the
 * `rest` of a sequence; the end of a `paste`. */
type Waiting = 'nothing' | 'escape' | 'rest' | 'paste'

/** Splits what a terminal sends into keys, however the bytes are cut into chunks. */
export class Splitter {
  /** Keeps half a character until its other half comes. */
  readonly #decoder = new TextDecoder('utf-8', { ignoreBOM: true })
  #text = ''
  #pasting = false
  /** A line feed right after a carriage return is the same Enter. */
  #afterReturn = false

  get waiting(): Waiting {
    if (this.#pasting) return 'paste'
    if (this.#text === '') return 'nothing'
    return this.#text === '\x1b' ? 'escape' : 'rest'
  }

  push(chunk: Uint8Array): Key[] {
    const text = this.#text + this.#decoder.decode(chunk, { stream: true })
    const keys: Key[] = []
    let index = 0
    while (index < text.length) {
      const used = this.#pasting ? this.#readPaste(text, index, keys) : this.#readKey(text, index, keys)
      if (used === 0) break
      index += used
    }
    this.#text = text.slice(index)
    return keys
  }

  /** Called if nothing more came in time: an ESC was the key, half a sequence is dropped, and a paste
   * without an end is used as far as it came. */
  flush(): Key[] {
    const { waiting } = this
    const text = this.#text + this.#decoder.decode()
    this.#text = ''
    this.#pasting = false
    if (waiting === 'escape') return [named('escape')]
    return waiting === 'paste' ? pasteOf(text) : []
  }

  /** Returns how much of the text was used, 0 if more must follow. */
  #readKey(text: string, index: number, keys: Key[]): number {
    const character = String.fromCodePoint(text.codePointAt(index) as number)
    const afterReturn = this.#afterReturn
    this.#afterReturn = character === '\r'
    if (character === '\x1b') return this.#readEscape(text, index, keys)
    if (character === '\n' && afterReturn) return 1
    if (/[\x00-\x1f\x7f]/.test(character)) keys.push(named(controlKeyOf(character)))
    // Bytes that are not UTF-8 are decoded as this mark.
    else if (character !== '\ufffd' && isPrintable(character)) keys.push({ kind: 'text', text: character })
    return character.length
  }

  #readEscape(text: string, index: number, keys: Key[]): number {
    const sequence = readSequence(text, index)
    if (sequence === 'torn') return 0
    if (sequence === null) {
      keys.push(named('escape'))
      return 1
    }
    this.#pasting = sequence.text === '200~'
    const key = keyOfSequence(sequence.text)
    if (key !== null) keys.push(named(key))
    return sequence.length
  }

  #readPaste(text: string, index: number, keys: Key[]): number {
    const end = text.indexOf(pasteEnd, index)
    if (end === -1 && text.length - index < longestPaste) return 0
    const stop = end === -1 ? text.length : end
    keys.push(...pasteOf(text.slice(index, stop)))
    this.#pasting = false
    return stop - index + (end === -1 ? 0 : pasteEnd.length)
  }
}

function named(name: NamedKey): Key {
  return { kind: 'named', name }
}

function controlKeyOf(character: string): NamedKey {
  if (character === '\r' || character === '\n') return 'enter'
  if (character === '\t') return 'tab'
  if (character === '\x7f' || character === '\b') return 'backspace'
  return `ctrl+${String.fromCharCode(character.charCodeAt(0) | 0x60)}`
}

function pasteOf(pasted: string): Key[] {
  const lines = pasted.replace(/\r\n?/g, '\n').replace(/\t/g, ' ')
  const text = [...lines].filter((character) => character === '\n' || isPrintable(character)).join('')
  return text === '' ? [] : [{ kind: 'paste', text }]
}

/* The sequences that terminals send for keys: ECMA-48 control sequences as xterm's "ctlseqs" lists them (PC-style
 * function keys, with and without application cursor keys). */

const byFinalByte: Readonly<Record<string, NamedKey>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  F: 'end',
  H: 'home',
  Z: 'backTab',
}

const byNumber: Readonly<Record<string, NamedKey>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'pageUp',
  6: 'pageDown',
  7: 'home',
  8: 'end',
}

/** The key of a control sequence (the part after ESC [ or ESC O); null for a key the program does not use. Ignores
 * shift, alt and ctrl. */
export function keyOfSequence(sequence: string): NamedKey | null {
  const found = /^(\d*)(?:;\d+)*([A-Z~])$/.exec(sequence)
  if (found === null) return null
  const [, number = '', final = ''] = found
  return final === '~' ? (byNumber[number] ?? null) : (byFinalByte[final] ?? null)
}

/** The longest unfinished sequence to wait for. */
const longest = 64

/** The sequence that the ESC at `start` begins.
 * @returns its length and what follows ESC [ or ESC O; 'torn' if more must follow; null for an ESC alone */
export function readSequence(text: string, start: number): { length: number; text: string } | 'torn' | null {
  if (start + 1 === text.length) return 'torn'
  const begun = /\x1b(?:O|\[[ -?]*)/y
  begun.lastIndex = start
  if (!begun.test(text)) return null
  const end = begun.lastIndex
  const final = text[end]
  if (final === undefined && end - start <= longest) return 'torn'
  // A character that cannot belong to a sequence interrupts it: drop what came so far.
  if (final === undefined || !/[@-~]/.test(final)) return { length: end - start, text: '' }
  return { length: end + 1 - start, text: text.slice(start + 2, end + 1) }
}

/** Whether a character may be typed: not a control character, a direction mark or an unassigned one. */
function isPrintable(character: string): boolean {
  return !isUnsafe(character) && !/\p{Cn}/u.test(character)
}
