import { createContext, useContext, useEffectEvent, useLayoutEffect } from 'react'
import type { Press as Key } from '../../recorder/model.ts'

/* A key as the screens see it, whatever bytes the terminal sends for it. */
export type { NamedKey, Press as Key } from '../../recorder/model.ts'

/** The name of a key, or its character; empty for a paste. */
export function nameOf(key: Key): string {
  if (key.kind === 'paste') return ''
  return key.kind === 'named' ? key.name : key.text
}

/** Returns true if it handled the key; false passes it on, in the end to the entry field. */
export type KeyHandler = (key: Key) => boolean

/** Passes keys to the handlers, the newest first, so that an overlay gets them before the screen below it. */
export interface KeyFeed {
  /** Returns false if no handler took the key. */
  press(key: Key): boolean
  /** Returns a function that stops listening. */
  listen(handler: KeyHandler): () => void
}

export function createKeyFeed(): KeyFeed {
  const handlers = new Set<KeyHandler>()
  return {
    press: (key) => [...handlers].reverse().some((handler) => handler(key)),
    listen: (handler) => {
      handlers.add(handler)
      return () => void handlers.delete(handler)
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
