import type { ReactElement } from 'react'
import type { Settings } from '../logbook/settings.ts'
import type { Logbook } from '../logbook/store.ts'
import type { Prescription } from '../prescription/model.ts'
import type { SourcedMaxima } from '../prescription/planned.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import type { ScreenTerminal } from '../ui/terminal/runScreens.tsx'

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
  /** The output of `week`, then that of `plan` if there is one. @throws Error with a message for the athlete */
  week(): Promise<string>
  /** The text of an empty day. @param date YYYY-MM-DD */
  template(date: string, units: Settings['units']): string
  /** Copies another day's text to this date. @throws TypeError for a day that cannot be read */
  like(text: string, date: string, defaults: ReadingDefaults): string
  /** Opens a file in the user's editor, on this terminal, and waits until it is closed; null without an editor. */
  edit: ((path: string) => Promise<void>) | null
}

/** What a screen needs to act and to lead to the next one. */
export interface Screens extends Pick<Opening, 'logbook' | 'samples' | 'env'> {
  commands: CommandTools
  terminal: Pick<ScreenTerminal, 'lend' | 'copy'>
  /** The settings as they are now: other programs may change them. */
  settings(): Settings
  defaults(): ReadingDefaults
  ring(signal: 'short' | 'long'): void
  show(screen: ReactElement): void
  /** Shows the recorder on a day. */
  begin(day: Prescription): void
  /** Shows the recorder on an unfinished session.
   * @throws LogbookError if it cannot be read, or another process is recording it */
  resume(id: string): void
  /** Returns to the first screen, with this choice picked (a path or an id; null: the first) and this message. */
  back(picked: string | null, notice?: string | null): void
  leave(): void
}
