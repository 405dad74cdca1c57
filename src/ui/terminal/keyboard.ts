import { isUnsafe } from '../../validate/unsafe.ts'
import type { Key, NamedKey } from '../widgets/keys.ts'

/** Milliseconds to wait for the rest of a sequence. The ESC key is reported this late; over a slow link a
 * sequence may come in two packets. */
const patience: Readonly<Record<Exclude<Waiting, 'nothing'>, number>> = { escape: 50, rest: 500, paste: 2000 }

/** How many keys are handled in one turn: enough for a burst of typing. Between turns clocks and signals get their
 * chance. */
const most = 50
/** A flood, which nobody typed, is processed in about this many turns. */
const mostTurns = 40

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
    for (const key of keys) this.#keys.push(key)
    // Leaving does not wait for a flood of keys that arrived earlier.
    const leaving = this.#keys.length > most ? this.#keys.findIndex(isInterrupt) : -1
    if (leaving > 0) this.#keys = this.#keys.slice(leaving)
    if (this.#turn === undefined && this.#keys.length > 0) this.#turn = setImmediate(this.#next)
  }

  readonly #next = (): void => {
    const keys = this.#keys.splice(0, Math.max(most, Math.ceil(this.#keys.length / mostTurns)))
    this.#turn = undefined
    if (keys.length > 0) this.#press(keys)
    this.#queue([])
  }
}

function isInterrupt(key: Key): boolean {
  return key.kind === 'named' && key.name === 'ctrl+c'
}

function leaveRawMode(terminal: NodeJS.ReadStream): void {
  try {
    terminal.setRawMode(false)
  } catch {
    // The terminal is gone, so there is no mode to restore.
  }
}

const pasteEnd = [0x1b, 0x5b, 0x32, 0x30, 0x31, 0x7e]
const longestPaste = 1024 * 1024

/** What a splitter waits for: `nothing`; `escape`, to decide whether an ESC is the key or starts a sequence; the
 * `rest` of a sequence or character; the end of a `paste`. */
export type Waiting = 'nothing' | 'escape' | 'rest' | 'paste'

/** Splits what a terminal sends into keys, however the bytes are cut into chunks. */
export class Splitter {
  #bytes: Uint8Array = new Uint8Array(0)
  #pasting = false
  /** A line feed right after a carriage return is the same Enter. */
  #afterReturn = false

  get waiting(): Waiting {
    if (this.#pasting) return 'paste'
    if (this.#bytes.length === 0) return 'nothing'
    return this.#bytes.length === 1 && this.#bytes[0] === 0x1b ? 'escape' : 'rest'
  }

  push(chunk: Uint8Array): Key[] {
    const bytes = new Uint8Array(this.#bytes.length + chunk.length)
    bytes.set(this.#bytes)
    bytes.set(chunk, this.#bytes.length)
    const keys: Key[] = []
    let index = 0
    while (index < bytes.length) {
      const used = this.#pasting ? this.#readPaste(bytes, index, keys) : this.#readKey(bytes, index, keys)
      if (used === 0) break
      index += used
    }
    this.#bytes = bytes.slice(index)
    return keys
  }

  /** Called if no more bytes came in time: an ESC was the key, half a sequence or character is dropped, and a paste
   * without an end is used as far as it came. */
  flush(): Key[] {
    const waiting = this.waiting
    const bytes = this.#bytes
    this.#bytes = new Uint8Array(0)
    this.#pasting = false
    if (waiting === 'escape') return [named('escape')]
    return waiting === 'paste' ? pasteOf(bytes) : []
  }

  /** Returns how many bytes were used, 0 if more must follow. */
  #readKey(bytes: Uint8Array, index: number, keys: Key[]): number {
    const byte = bytes[index] as number
    const afterReturn = this.#afterReturn
    this.#afterReturn = byte === 0x0d
    if (byte === 0x1b) return this.#readEscape(bytes, index, keys)
    if (byte === 0x0a && afterReturn) return 1
    if (byte < 0x20 || byte === 0x7f) {
      keys.push(named(controlKeyOf(byte)))
      return 1
    }
    const character = readCharacter(bytes, index)
    if (character === 'torn') return 0
    if (isPrintable(character.text)) keys.push({ kind: 'text', text: character.text })
    return character.length
  }

  #readEscape(bytes: Uint8Array, index: number, keys: Key[]): number {
    const sequence = readSequence(bytes, index)
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

  #readPaste(bytes: Uint8Array, index: number, keys: Key[]): number {
    const end = indexOf(bytes, pasteEnd, index)
    if (end === -1 && bytes.length - index < longestPaste) return 0
    const stop = end === -1 ? bytes.length : end
    keys.push(...pasteOf(bytes.subarray(index, stop)))
    this.#pasting = false
    return stop - index + (end === -1 ? 0 : pasteEnd.length)
  }
}

function named(name: NamedKey): Key {
  return { kind: 'named', name }
}

function controlKeyOf(byte: number): NamedKey {
  if (byte === 0x0d || byte === 0x0a) return 'enter'
  if (byte === 0x09) return 'tab'
  if (byte === 0x7f || byte === 0x08) return 'backspace'
  return `ctrl+${String.fromCharCode(byte | 0x60)}`
}

function pasteOf(bytes: Uint8Array): Key[] {
  const lines = new TextDecoder().decode(bytes).replace(/\r\n?/g, '\n').replace(/\t/g, ' ')
  const text = [...lines].filter((character) => character === '\n' || isPrintable(character)).join('')
  return text === '' ? [] : [{ kind: 'paste', text }]
}

function indexOf(bytes: Uint8Array, part: readonly number[], from: number): number {
  for (let index = from; index <= bytes.length - part.length; index++) {
    if (part.every((byte, offset) => bytes[index + offset] === byte)) return index
  }
  return -1
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

/** How many bytes from `start` (an ESC) form one sequence.
 * @returns its bytes after the ESC as text; 'torn' if more must follow; null for an ESC alone */
export function readSequence(
  bytes: Uint8Array,
  start: number,
): { length: number; text: string } | 'torn' | null {
  const second = bytes[start + 1]
  if (second === undefined) return 'torn'
  if (second === 0x4f) {
    const third = bytes[start + 2]
    if (third === undefined) return 'torn'
    return isFinal(third) ? { length: 3, text: String.fromCharCode(third) } : { length: 2, text: '' }
  }
  if (second !== 0x5b) return null
  let end = start + 2
  while (isParameter(bytes[end])) end++
  const final = bytes[end]
  if (final === undefined) return end - start > longest ? { length: end - start, text: '' } : 'torn'
  // A byte that cannot belong to a sequence interrupts it: drop what came so far.
  if (!isFinal(final)) return { length: end - start, text: '' }
  return { length: end + 1 - start, text: String.fromCharCode(...bytes.subarray(start + 2, end + 1)) }
}

const longest = 64

function isParameter(byte: number | undefined): boolean {
  return byte !== undefined && byte >= 0x20 && byte <= 0x3f
}

function isFinal(byte: number): boolean {
  return byte >= 0x40 && byte <= 0x7e
}

/** Length in bytes of the UTF-8 character that begins with this byte (RFC 3629); 0 for an invalid first byte. */
function lengthOf(byte: number): number {
  if (byte < 0x80) return 1
  if (byte >= 0xc2 && byte <= 0xdf) return 2
  if (byte >= 0xe0 && byte <= 0xef) return 3
  if (byte >= 0xf0 && byte <= 0xf4) return 4
  return 0
}

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })

/** The character at `start`.
 * @returns its length in bytes and its text, '' for invalid bytes; 'torn' if more must follow */
export function readCharacter(bytes: Uint8Array, start: number): { length: number; text: string } | 'torn' {
  const length = lengthOf(bytes[start] ?? 0)
  if (length === 0) return { length: 1, text: '' }
  for (let index = start + 1; index < start + length; index++) {
    const byte = bytes[index]
    if (byte === undefined) return 'torn'
    if ((byte & 0xc0) !== 0x80) return { length: index - start, text: '' }
  }
  try {
    return { length, text: decoder.decode(bytes.subarray(start, start + length)) }
  } catch {
    return { length, text: '' }
  }
}

/** Whether a character may be typed: not a control character, a direction mark or an unassigned one. */
function isPrintable(character: string): boolean {
  return character !== '' && character !== '\t' && !isUnsafe(character) && !/\p{Cn}/u.test(character)
}
