import type { RecorderStore } from '../../recorder/store.ts'

/** Ticks a recorder whenever something changes without a key: once a second in a rest, once a minute while no clock
 * runs.
 * @returns a function that stops it */
export function keepTicking(store: RecorderStore): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const wait = () => {
    clearTimeout(timer)
    timer = setTimeout(tick, store.wakeIn())
  }
  const tick = () => {
    timer = undefined
    store.tick()
    // A tick without other listeners starts the next wait itself.
    if (timer === undefined) wait()
  }
  const stop = store.subscribe(wait)
  wait()
  return () => {
    stop()
    clearTimeout(timer)
  }
}
