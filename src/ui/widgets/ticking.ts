import type { RecorderStore } from '../../recorder/store.ts'

/** Ticks a recorder whenever something of it changes by itself: once a second in a rest, once a minute while nothing
 * runs.
 * @returns how to stop */
export function keepTicking(store: RecorderStore): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const wait = () => {
    clearTimeout(timer)
    timer = setTimeout(tick, store.wakeIn())
  }
  const tick = () => {
    timer = undefined
    store.tick()
    // A tick of which nobody else hears begins the next wait itself.
    if (timer === undefined) wait()
  }
  const stop = store.subscribe(wait)
  wait()
  return () => {
    stop()
    clearTimeout(timer)
  }
}
