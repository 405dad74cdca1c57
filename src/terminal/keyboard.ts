import type { Key } from '../widgets/key.ts'
import { Splitter, type Waiting } from './splitter.ts'

/** How long to wait for the rest, in ms. An ESC that is the key is heard of late by this; over a slow link a
 * sequence may come in two packets. */
const patience: Readonly<Record<Exclude<Waiting, 'nothing'>, number>> = { escape: 50, rest: 500, paste: 2000 }

/** Reads keys from a terminal in raw mode. Each is handed on in a turn of its own: a long paste of keys leaves
 * room for clocks and signals. */
export class Keyboard {
  readonly #terminal: NodeJS.ReadStream
  readonly #press: (key: Key) => void
  #splitter = new Splitter()
  #keys: Key[] = []
  #timer: NodeJS.Timeout | undefined
  #turn: NodeJS.Immediate | undefined

  constructor(terminal: NodeJS.ReadStream, press: (key: Key) => void) {
    this.#terminal = terminal
    this.#press = press
  }

  open(): void {
    this.#terminal.setRawMode(true)
    this.#terminal.on('data', this.#arrived)
    this.#terminal.resume()
  }

  /** Keys that were typed ahead are forgotten. */
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
    this.#keys.push(...keys)
    if (this.#turn === undefined && this.#keys.length > 0) this.#turn = setImmediate(this.#next)
  }

  readonly #next = (): void => {
    const key = this.#keys.shift()
    this.#turn = undefined
    if (key !== undefined) this.#press(key)
    this.#queue([])
  }
}

function leaveRawMode(terminal: NodeJS.ReadStream): void {
  try {
    terminal.setRawMode(false)
  } catch {
    // The terminal is gone: there is nothing left to restore.
  }
}
