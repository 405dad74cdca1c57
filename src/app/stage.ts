import type { Shown, Stage } from '../screens/App.tsx'

/** Which screen is shown, and how another comes on. */
export function createStage(first: Shown): Stage & { show(shown: Shown): void } {
  let shown = first
  const listeners = new Set<() => void>()
  return {
    get: () => shown,
    subscribe: (listener) => {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    show: (next) => {
      shown = next
      for (const listener of [...listeners]) listener()
    },
  }
}
