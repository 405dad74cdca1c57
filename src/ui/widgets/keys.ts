import { createContext, useContext, useEffectEvent, useLayoutEffect } from 'react'
import type { Key } from '../../recorder/line.ts'

export { type Key, type NamedKey, nameOf } from '../../recorder/line.ts'

/** Returns whether the next key has to wait for the next drawing, because its handler reads what is drawn. */
export type KeyHandler = (key: Key) => boolean

/** Passes keys to the screen that is shown. */
export interface KeyFeed {
  press: KeyHandler
  /** Returns a function that stops listening. */
  listen(handler: KeyHandler): () => void
}

export function createKeyFeed(): KeyFeed {
  let shown: KeyHandler | null = null
  return {
    press: (key) => shown?.(key) ?? false,
    listen: (handler) => {
      shown = handler
      return () => {
        if (shown === handler) shown = null
      }
    },
  }
}

/** The source of a screen's keys: `<KeyFeedContext value={feed}>` around everything. */
export const KeyFeedContext = createContext(createKeyFeed())

/** Calls the handler of the latest rendering for every key while the component is shown. */
export function useKeys(handler: KeyHandler): void {
  const feed = useContext(KeyFeedContext)
  const handle = useEffectEvent(handler)
  useLayoutEffect(() => feed.listen((key) => handle(key)), [feed])
}
