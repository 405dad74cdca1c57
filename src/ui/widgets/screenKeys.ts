/* The keys of screens without a field, as data: drawn on the key line, or said. */

/** A key of a screen without a field. */
export interface ScreenKey {
  /** As shown to people: `Enter`, `↑ ↓`. */
  key: string
  /** A word or two for the key line. */
  label: string
  /** One line for the page of keys. */
  does: string
  /** What it does, by key name (`nameOf`): for the keys it stands for, and for others that do the same. A returned
   * text, or what is wrong if it fails, is shown above the key line. */
  acts: Readonly<Record<string, () => unknown>>
  /** Shown first: the key acts only if it is pressed again right away. */
  asks?: string
  /** The key line does not name it. */
  isOnPageOnly?: true
}

export function letterKey(key: string, label: string, does: string, act: () => unknown): ScreenKey {
  return { key, label, does, acts: { [key]: act } }
}

/** @param also the names of further keys that do the same */
export function enterKey(label: string, does: string, act: () => unknown, ...also: string[]): ScreenKey {
  const acts = Object.fromEntries(['enter', ...also].map((name) => [name, act]))
  return { key: 'Enter', label, does, acts }
}

/** What the arrows do where they move by a line, and what moves by a page. */
export function actsOf(move: (by: number) => () => void, page: number): ScreenKey['acts'] {
  return { up: move(-1), down: move(1), pageUp: move(-page), pageDown: move(page), ' ': move(page) }
}

/** The arrows of a list, which the list itself takes. */
export const pickKey: ScreenKey = {
  key: '↑ ↓',
  label: 'pick',
  does: 'pick a line; Space and PageUp move by a page, Home and End to an end',
  acts: {},
}

/** It opens the page of keys, which any key closes. */
export const keysKey: ScreenKey = { key: '?', label: 'keys', does: 'this page', acts: {} }

/** `q` and Escape. */
export function leavingKey(label: string, act: () => unknown, does = label): ScreenKey {
  return { key: 'q', label, does, acts: { q: act, escape: act } }
}

/** What the long signal looks like: the word in reversed colours. */
export const goText = ' go '

export function signalKey(ring: () => void): ScreenKey {
  const sound = () => {
    ring()
    return goText
  }
  return letterKey('t', 'test signal', 'sounds and shows the signal of the end of a rest', sound)
}

/** Does what a key does, unless it must ask first.
 * @param name as by `nameOf`
 * @param said what is shown: a key that asks acts if that is its question
 * @returns what to say, if it is a text; it may be promised */
export function actOn(keys: readonly ScreenKey[], name: string, said: string): unknown {
  const row = keys.find(({ acts }) => Object.hasOwn(acts, name))
  if (row?.asks !== undefined && said !== row.asks) return row.asks
  try {
    const done = row?.acts[name]?.()
    return done instanceof Promise ? done.catch(messageOf) : done
  } catch (error) {
    return messageOf(error)
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
