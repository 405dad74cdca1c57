import type { Settings } from '../logbook/settings.ts'
import type { Shown, Stage } from '../ui/screens/App.tsx'
import type { ScreenTerminal } from '../ui/terminal/runScreens.ts'
import type { Editing } from './days.ts'

/** What every screen may need to lead to the next one. */
export interface Screens extends Editing {
  terminal: ScreenTerminal
  /** The settings as they are now: other programs may change them. */
  settings(): Settings
  ring(signal: 'short' | 'long'): void
}

/** Which screen is shown, and how to switch to another. */
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
