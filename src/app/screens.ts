import type { Logbook } from '../logbook/store.ts'
import type { Prescription } from '../prescription/model.ts'
import type { AskedUnits } from '../summary/view.ts'
import type { AskContent } from '../ui/screens/AskScreen.tsx'
import type { EditorContent } from '../ui/screens/DayEditor.tsx'
import type { ListContent, ListRow } from '../ui/screens/ListScreen.tsx'
import type { RecorderContent } from '../ui/screens/Recorder.tsx'
import type { TextContent } from '../ui/screens/TextScreen.tsx'
import type { ScreenTerminal } from '../ui/terminal/runScreens.tsx'
import { enterKey, keysKey, leavingKey, pickKey } from '../ui/widgets/screenKeys.ts'
import type { Known } from './known.ts'

/** What the app is opened with, on a screen or for a screen reader. */
export interface Opening {
  logbook: Logbook
  /** The folder of the sample days; null without. */
  samples: string | null
  env: NodeJS.ProcessEnv
  /** What is opened at once: the recorder on a day, or the editor on a day's file; null for the first screen. */
  start: { begin: Prescription } | { edit: string } | null
  /** Writes to standard error, after a screen is closed. */
  err: (text: string) => void
  units: AskedUnits
  /** Opens a file in the user's editor, on this terminal, and waits until it is closed; null without an editor. */
  edit: ((path: string) => Promise<void>) | null
}

/** What is on a screen, as data: `openApp.tsx` draws it, or `speech.ts` says it. */
export type Screen =
  | ({ kind: 'text' } & TextContent)
  | ({ kind: 'list' } & ListContent)
  | ({ kind: 'ask' } & AskContent)
  | ({ kind: 'editor' } & EditorContent)
  | ({ kind: 'recorder' } & RecorderContent)

/** What the app does to its terminal, besides showing screens. */
export type AppTerminal = Omit<ScreenTerminal, 'show'>

/** What a screen needs to act and to lead to the next one. */
export interface Screens extends Pick<Opening, 'logbook' | 'samples' | 'env' | 'edit'> {
  terminal: Pick<AppTerminal, 'lend' | 'copy'>
  /** Shows a screen in place of the one before. */
  show(screen: Screen): void
  /** What the logbook says now: other programs may change it. */
  known(): Known
  ring(signal: 'short' | 'long'): void
  begin(day: Prescription): void
  /** Shows the recorder on an unfinished session.
   * @throws LogbookError if it cannot be read, or another process is recording it */
  resume(id: string): void
  /** Returns to the first screen, with this choice picked (a path or an id; null: the first) and this message. */
  back(picked: string | null, notice?: string | null): void
  leave(): void
}

/** A list with a title and a count, of which Enter opens the picked row. */
export function listOf(list: {
  title: string
  /** Column headings above the rows, at a width. */
  headings?: (columns: number) => string
  rows: readonly ListRow[]
  picked: string | null
  enter: { label: string; does: string }
  open: (index: number) => unknown
  leave: () => void
}): Screen {
  const { title, headings, rows, picked, enter, open, leave } = list
  return {
    kind: 'list',
    head: (columns, index) => [
      `${title}: ${index + 1} of ${rows.length}`,
      ...(headings ? [`  ${headings(columns - 2)}`] : []),
    ],
    rows,
    picked,
    keys: (index) => [
      enterKey(enter.label, enter.does, () => open(index)),
      pickKey,
      keysKey,
      leavingKey('back', leave),
    ],
  }
}
