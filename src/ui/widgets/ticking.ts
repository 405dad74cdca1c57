import type { RecorderStore } from '../../recorder/store.ts'

/** Ticks a recorder whenever something changes without a key: once a second in a rest, once a minute while no clock
 * runs.
 * @returns a function that stops it */
export function keepTicking(store: RecorderStore): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const wait = () => {
    clearTimeout(timer)
    timer = setTimeout(store.tick, store.wakeIn())
  }
  // A tick is a change, too, which starts the next wait.
  const stop = store.subscribe(wait)
  wait()
  return () => {
    stop()
    clearTimeout(timer)
  }
}
