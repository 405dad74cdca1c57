import { createContext, useContext, useLayoutEffect, useRef } from 'react'

/* A key as the screens see it, whatever bytes a terminal sends for it. */

export type NamedKey =
  | 'enter'
  | 'escape'
  | 'tab'
  | 'backTab'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'pageUp'
  | 'pageDown'
  /** ctrl and a letter, lower case: `ctrl+c`. */
  | `ctrl+${string}`

export type Key =
  | { kind: 'named'; name: NamedKey }
  /** One printable character (a code point): Space is `' '`. */
  | { kind: 'text'; text: string }
  /** Pasted: never a command. Lines end with a line feed; no other control character is in it. */
  | { kind: 'paste'; text: string }

/** Returns true when it handled the key; false passes it on, in the end to the entry field. */
export type KeyHandler = (key: Key) => boolean

/** Hands keys to the handlers, the newest first, so that an overlay gets them before the screen below it. */
export interface KeyFeed {
  /** Returns false when no handler took the key. */
  press(key: Key): boolean
  /** Returns how to stop listening. */
  listen(handler: KeyHandler): () => void
}

export function createKeyFeed(): KeyFeed {
  const handlers: KeyHandler[] = []
  return {
    press: (key) => [...handlers].reverse().some((handler) => handler(key)),
    listen: (handler) => {
      handlers.push(handler)
      return () => {
        const index = handlers.indexOf(handler)
        if (index >= 0) handlers.splice(index, 1)
      }
    },
  }
}

/** The feed that a screen's keys come from: `<KeyFeedContext value={feed}>` around everything. */
export const KeyFeedContext = createContext(createKeyFeed())

/** Asks `handler` about every key while the component is shown, always the one of its latest rendering. It
 * may still be called twice before the next: what it decides by must come from a store, not from props. */
export function useKeys(handler: KeyHandler): void {
  const feed = useContext(KeyFeedContext)
  const latest = useRef(handler)
  useLayoutEffect(() => {
    latest.current = handler
  })
  useLayoutEffect(() => feed.listen((key) => latest.current(key)), [feed])
}
