import { LogbookError } from '../logbook/errors.ts'
import { contextOn } from '../logbook/index.ts'
import type { IndexEntry, Logbook } from '../logbook/model.ts'
import { planIn } from '../logbook/ownTexts.ts'
import type { Settings } from '../logbook/settings.ts'
import { historyHead, historyLine, historyOf } from '../progress/history.ts'
import { liftNames, type Subject, shownLines, shownOf } from '../progress/overview.ts'
import type { RaceGoal } from '../progress/run.ts'
import type { Session } from '../session/model.ts'
import { plainOf } from '../summary/plain.ts'
import type { SummaryOptions } from '../summary/summarise.ts'
import { summaryText } from '../summary/text.ts'
import type { ListScreen } from '../ui/screens/ListScreen.tsx'
import type { Progress } from '../ui/screens/Progress.tsx'
import { morningOn } from './morning.ts'

const widest = 100
const narrowest = 40
/** Two columns are for the mark of the picked row. */
const narrowestList = narrowest - 2

/** Null without a session. */
export function historyContent(
  logbook: Logbook,
  settings: Settings,
): Pick<Parameters<typeof ListScreen>[0], 'rows' | 'head'> | null {
  const all = { from: null, to: null, lift: null, text: null }
  const rows = [...historyOf(logbook.index(), all)]
  if (rows.length === 0) return null
  return {
    head: (columns) => historyHead(Math.max(narrowestList, columns), 'run'),
    rows: rows.map((row) => ({
      id: row.id,
      line: (columns) => historyLine(row, settings.units, Math.max(narrowestList, columns), 'run'),
    })),
  }
}

/** The subjects of the progress screen; each is computed when first shown. Null without a session.
 * @param today local date */
export function progressContent(
  logbook: Logbook,
  settings: Settings,
  today: string,
): Parameters<typeof Progress>[0]['subjects'] | null {
  const sessions = logbook.index()
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
    ...(sessions.some(({ brief }) => brief.pain.length > 0) ? [subject('pain', { kind: 'pain' })] : []),
    ...liftNames(sessions).map(({ name }) => subject(plainOf(name), { kind: 'lift', name })),
  ]
}

/** The goal of the newest session that has one, with the date of its race, which only the session itself
 * contains; null without any. */
export function goalOf(
  logbook: Logbook,
  entries: readonly IndexEntry[],
): Omit<RaceGoal, 'secondsPerKm'> | null {
  for (const entry of entries) {
    if (entry.brief.runMeters === 0) continue
    const { goal } = entry.running
    if (goal !== null) return { meters: goal.meters, seconds: goal.seconds, date: dateIn(logbook, entry) }
  }
  return null
}

function dateIn(logbook: Logbook, { id }: IndexEntry): string | null {
  try {
    return logbook.read(id).session.prescription.goal?.on ?? null
  } catch (error) {
    if (error instanceof LogbookError) return null
    throw error
  }
}

/** The summary of a session as plain text, with the equation of the settings, the body mass and the sleep of its day,
 * and the plan's race. */
export function summaryTextOf(
  logbook: Logbook,
  session: Session,
  settings: Settings,
  how: SummaryOptions,
): string {
  const started = session.events.find((event) => event.type === 'sessionStarted')
  const date = started?.type === 'sessionStarted' ? started.date : (session.prescription.date ?? '')
  const { directory } = logbook
  const context = {
    ...contextOn(settings, date, planIn(directory)?.race),
    sleepSeconds: morningOn(directory, date)?.sleepSeconds ?? null,
  }
  return summaryText(session, context, how)
}
