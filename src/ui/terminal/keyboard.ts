import { emitKeypressEvents, type Interface, type Key as Keypress } from 'node:readline'
import { neighbours } from '../../units/lists.ts'
import { isUnsafe } from '../../validate/unsafe.ts'
import type { Key, NamedKey } from '../widgets/keys.ts'

/** Milliseconds after which an ESC is the key, and not the beginning of a sequence. */
const escapePatience = 50
/** Milliseconds after which a paste without an end is used as far as it came. */
const pastePatience = 2000
/** The beginning of a control sequence (ECMA-48, 5.4), a control string (5.6) or a mouse report of X10, whose end
 * readline passes on as text: what a terminal answers, or reports because another program asked it to. */
const unfinished = /^\x1b(\[[0-?]*[ -/]*|\[M.{0,2}|[P\]X^_][^\x00-\x1f]*)$/su
/** The most keys that are passed on, and drawn, at once: React ends a program that changes more often in one go. A longer
 * run of text, which nobody typed, is a paste in a terminal that does not mark one. */
const most = 50

/** Reads keys from a terminal in raw mode. Keys that arrive together are passed on together. */
export class Keyboard {
  readonly #terminal: NodeJS.ReadStream
  readonly #press: (keys: readonly Key[]) => void
  #keys: Key[] = []
  #turn: NodeJS.Immediate | undefined
  #before: string | undefined
  /** What of a paste has arrived; null outside of one. */
  #pasted: string | null = null
  /** What of an unfinished sequence has arrived; empty outside of one. */
  #sequence = ''
  #timer: NodeJS.Timeout | undefined

  constructor(terminal: NodeJS.ReadStream, press: (keys: readonly Key[]) => void) {
    this.#terminal = terminal
    this.#press = press
    // readline reads nothing but the timeout from an interface.
    emitKeypressEvents(terminal, { escapeCodeTimeout: escapePatience } as unknown as Interface)
  }

  open(): void {
    this.#terminal.setRawMode(true)
    this.#terminal.on('keypress', this.#arrived)
    this.#terminal.resume()
  }

  /** Discards keys that were typed ahead. */
  close(): void {
    this.#terminal.off('keypress', this.#arrived)
    this.#terminal.pause()
    leaveRawMode(this.#terminal)
    clearTimeout(this.#timer)
    clearImmediate(this.#turn)
    this.#turn = undefined
    this.#keys = []
    this.#pasted = null
    this.#sequence = ''
  }

  readonly #arrived = (text: string | undefined, key: Keypress): void => {
    // A line feed right after a carriage return is the same Enter.
    const isSameEnter = key.name === 'enter' && this.#before === 'return'
    this.#before = key.name
    if (isSameEnter || this.#isOfSequence(key)) return
    if (key.name === 'paste-start') this.#pasted = ''
    else if (key.name === 'paste-end') this.#endPaste()
    else if (this.#pasted === null) this.#queue(keysOf(text, key))
    else this.#pasted += text ?? ''
    clearTimeout(this.#timer)
    if (this.#pasted !== null) this.#timer = setTimeout(this.#endPaste, pastePatience)
  }

  /** Whether what arrived begins, continues or ends a sequence that is not a key. */
  #isOfSequence({ sequence = '' }: Keypress): boolean {
    const isBegun = this.#sequence !== ''
    const whole = this.#sequence + sequence
    this.#sequence = this.#pasted === null && unfinished.test(whole) ? whole : ''
    if (this.#sequence === '') return isBegun
    clearTimeout(this.#timer)
    this.#timer = setTimeout(() => {
      this.#sequence = ''
    }, escapePatience)
    return true
  }

  readonly #endPaste = (): void => {
    const text = pastedText(this.#pasted ?? '')
    this.#pasted = null
    if (text !== '') this.#queue([{ kind: 'paste', text }])
  }

  #queue(keys: readonly Key[]): void {
    this.#keys.push(...keys)
    this.#turn ??= setImmediate(this.#next)
  }

  readonly #next = (): void => {
    this.#keys = withPastes(this.#keys)
    const keys = this.#keys.splice(0, most)
    this.#turn = this.#keys.length > 0 ? setImmediate(this.#next) : undefined
    this.#press(keys)
  }
}

function withPastes(keys: readonly Key[]): Key[] {
  const runs = neighbours(keys, (key, before) => key.kind === 'text' && before.kind === 'text')
  return runs.flatMap((run) => {
    const text = run.map((key) => (key.kind === 'text' ? key.text : '')).join('')
    return run.length > most ? [{ kind: 'paste' as const, text }] : run
  })
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

/** The keys by the names that node:readline gives them. */
const named: Readonly<Record<string, NamedKey>> = {
  return: 'enter',
  enter: 'enter',
  escape: 'escape',
  tab: 'tab',
  backspace: 'backspace',
  delete: 'delete',
  insert: 'insert',
  up: 'up',
  down: 'down',
  left: 'left',
  right: 'right',
  home: 'home',
  end: 'end',
  pageup: 'pageUp',
  pagedown: 'pageDown',
}

/** None for a sequence that is not a key of this program. */
function keysOf(text: string | undefined, { name = '', sequence = '', ...key }: Keypress): Key[] {
  // An ESC in the same packet as the next character, which readline reads as one key.
  if (/^\x1b[^O[]/u.test(sequence)) {
    const next = sequence.slice(1)
    return [{ kind: 'named', name: 'escape' }, ...keysOf(next, { ...key, name, sequence: next, meta: false })]
  }
  const known = name === 'tab' && key.shift ? 'backTab' : named[name]
  if (known !== undefined) return [{ kind: 'named', name: known }]
  if (key.ctrl && /^[a-z]$/.test(name)) return [{ kind: 'named', name: `ctrl+${name}` }]
  return text !== undefined && isPrintable(text) ? [{ kind: 'text', text }] : []
}

/** Pasted text: its lines end with a line feed, and it has no other control character. */
function pastedText(pasted: string): string {
  const lines = pasted.replace(/\r\n?/g, '\n').replaceAll('\t', ' ')
  return [...lines].filter((character) => character === '\n' || isPrintable(character)).join('')
}

/** Whether a character may be typed: not a control character, a direction mark, an unassigned one, or the mark that
 * stands for bytes that are not UTF-8. */
function isPrintable(character: string): boolean {
  return character !== '\ufffd' && !isUnsafe(character) && !/\p{Cn}/u.test(character)
}
