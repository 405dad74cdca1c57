import type { Key, NamedKey } from '../widgets/key.ts'
import { keyOfSequence, readSequence } from './sequences.ts'
import { isPrintable, readCharacter } from './utf8.ts'

const pasteEnd = [0x1b, 0x5b, 0x32, 0x30, 0x31, 0x7e]
const longestPaste = 1024 * 1024

/** What a splitter waits for: nothing; whether an ESC is the key or the beginning of a sequence; the rest of
 * a sequence or character; the end of a paste. */
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

  /** Nothing more came in time: ESC was the key; half a sequence or character is dropped; a paste that never
   * ended is taken as far as it came. */
  flush(): Key[] {
    const waiting = this.waiting
    const bytes = this.#bytes
    this.#bytes = new Uint8Array(0)
    this.#pasting = false
    if (waiting === 'escape') return [named('escape')]
    return waiting === 'paste' ? pasteOf(bytes) : []
  }

  /** Returns how many bytes were used, 0 when more must follow. */
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
