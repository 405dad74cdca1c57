import type { Key } from '../widgets/key.ts'
import { Splitter, type Waiting } from './splitter.ts'

/** How long to wait for the rest, in ms. An ESC that is the key is heard of late by this; over a slow link a
 * sequence may come in two packets. */
const patience: Readonly<Record<Exclude<Waiting, 'nothing'>, number>> = { escape: 50, rest: 500, paste: 2000 }

/** How many keys are handed on in one turn: enough for what a person types in a burst; a longer row of keys leaves
 * room for clocks and signals in between. */
const most = 50

/** Reads keys from a terminal in raw mode. Those that arrive together are handed on together. */
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
    const keys = this.#keys.splice(0, most)
    this.#turn = undefined
    if (keys.length > 0) this.#press(keys)
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
