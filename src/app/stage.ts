import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import type { SourcedMaxima } from '../prescription/planned.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import type { Shown, Stage } from '../ui/screens/App.tsx'
import type { ScreenTerminal } from '../ui/terminal/runScreens.ts'

/** What the app is opened with, on a screen or for a screen reader. */
export interface Opening {
  logbook: Logbook
  /** The folder of the sample days; null without. */
  samples: string | null
  env: Readonly<Record<string, string | undefined>>
  /** Opens the recorder on this day at once. */
  begin: Prescription | null
  /** Writes to standard error, after a screen is closed. */
  err: (text: string) => void
}

/** Functions of the commands, passed in because the app must not import commands. */
export interface CommandTools {
  /** An expanded day, as `check` prints it. */
  check(day: Prescription, settings: Settings, maxima: SourcedMaxima): string
  /** The output of `week`. @throws Error with a message for the athlete */
  week(): Promise<string>
  /** The text of an empty day. @param date YYYY-MM-DD */
  template(date: string, units: Settings['units']): string
  /** Copies another day's text to this date. @throws TypeError for a day that cannot be read */
  like(text: string, date: string, defaults: ReadingDefaults): string
  /** Opens a file in the user's editor, on this terminal, and waits until it is closed; null without an editor. */
  edit: ((path: string) => Promise<void>) | null
}

/** What the editors need from the app. */
export interface Editing {
  logbook: Logbook
  commands: CommandTools
  terminal: Pick<ScreenTerminal, 'lend'>
  defaults: () => ReadingDefaults
  show(shown: Shown): void
  /** Returns to the first screen, with this choice picked and this message. */
  back(picked: string | null, said?: string | null): void
}

/** What every screen may need to lead to the next one. */
export interface Screens extends Editing {
  terminal: ScreenTerminal
  /** The settings as they are now: other programs may change them. */
  settings(): Settings
  ring(signal: 'short' | 'long'): void
  leave(): void
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
