import type { Key } from './key.ts'

/** True: the key is dealt with. False: it belongs to someone else, in the end to the entry field. */
export type KeyHandler = (key: Key) => boolean

/** Where keys come in from above. Whoever began to listen last is asked first, so that what lies on top
 * of a screen has the keys before it. */
export interface KeyFeed {
  /** False when nobody took the key. */
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
