import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { historyOf } from '../progress/history.ts'
import { historyHead, historyLine } from '../progress/historyText.ts'
import { liftNames } from '../progress/overview.ts'
import { type Subject, shownLines, shownOf } from '../progress/shown.ts'
import type { History } from '../screens/History.tsx'
import type { Progress } from '../screens/Progress.tsx'
import { plainOf } from '../summary/plain.ts'
import { goalOf } from './goalOf.ts'

const widest = 100
const narrowest = 40
/** Two are for the mark of what is picked. */
const narrowestList = narrowest - 2

/** What the list of sessions shows; null without a session. */
export function historyGiven(
  logbook: Logbook,
  settings: Settings,
): Pick<Parameters<typeof History>[0], 'sessions' | 'head'> | null {
  const all = { from: null, to: null, lift: null, text: null }
  const rows = [...historyOf(logbook.digest(), all)]
  if (rows.length === 0) return null
  return {
    head: (columns) => historyHead(Math.max(narrowestList, columns), 'run'),
    sessions: rows.map((row) => ({
      id: row.id,
      line: (columns) => historyLine(row, settings.units, Math.max(narrowestList, columns), 'run'),
    })),
  }
}

/** What can be looked at over the weeks; each is computed when it is first looked at. Null without a session.
 * @param today local date */
export function progressGiven(
  logbook: Logbook,
  settings: Settings,
  today: string,
): Parameters<typeof Progress>[0]['subjects'] | null {
  const sessions = logbook.digest()
  if (sessions.length === 0) return null
  const given = { asked: { from: null, to: null }, today, goal: () => goalOf(logbook, sessions) }
  const subject = (name: string, subject: Subject) => {
    let shown: ReturnType<typeof shownOf> | null = null
    return {
      name,
      lines: (columns: number) => {
        shown ??= shownOf(sessions, subject, given)
        return shownLines(shown, settings.units, Math.max(narrowest, Math.min(columns, widest)), today)
      },
    }
  }
  return [
    subject('all', { kind: 'all' }),
    subject('run', { kind: 'run' }),
    subject('load', { kind: 'load' }),
    ...liftNames(sessions).map(({ name }) => subject(plainOf(name), { kind: 'lift', name })),
  ]
}
