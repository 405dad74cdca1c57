import { createContext, useContext, useLayoutEffect, useRef } from 'react'
import { createKeyFeed, type KeyHandler } from './keyFeed.ts'

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
