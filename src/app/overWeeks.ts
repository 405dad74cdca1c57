import type { IndexEntry } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { planIn } from '../logbook/ownTexts.ts'
import type { Settings } from '../logbook/settings.ts'
import type { Logbook } from '../logbook/store.ts'
import { bodyLines, bodyProgress } from '../progress/body.ts'
import { liftNames, type Shown, type Subject, shownLines, shownOf } from '../progress/overview.ts'
import { allPains } from '../progress/pain.ts'
import type { RaceGoal } from '../progress/towardRace.ts'
import type { Session } from '../session/model.ts'
import { plainOf } from '../summary/plain.ts'
import type { SummaryOptions } from '../summary/summarise.ts'
import { summaryText } from '../summary/text.ts'
import { metersOf } from '../units/length.ts'
import { readable, summaryContextOn } from './earlierDays.ts'

const widest = 100
const narrowest = 40

/** What the progress shows one at a time: its name, and its lines at a width. */
export interface ProgressSubject {
  name: string
  lines: (columns: number) => readonly string[]
}

/** The subjects of the progress screen; each is computed when first shown. Null without a session.
 * @param today local date */
export function progressContent(
  logbook: Logbook,
  settings: Settings,
  today: string,
): ProgressSubject[] | null {
  const sessions = logbook.index()
  if (sessions.length === 0) return null
  const { mornings, typed } = readMornings(logbook.directory)
  const query = {
    asked: { from: null, to: null },
    today,
    goal: () => goalOn(today, logbook, sessions),
    mornings: () => typed,
  }
  const within = (columns: number) => Math.max(narrowest, Math.min(columns, widest))
  const subject = (name: string, subject: Subject) => {
    let shown: Shown | null = null
    return {
      name,
      lines: (columns: number) => {
        shown ??= shownOf(sessions, subject, query)
        return shownLines(shown, settings.units, within(columns), today)
      },
    }
  }
  const bodyAt = (columns: number) =>
    bodyLines(bodyProgress(mornings, today), settings.units.mass, within(columns))
  return [
    subject('all', { kind: 'all' }),
    subject('run', { kind: 'run' }),
    subject('load', { kind: 'load' }),
    ...(allPains(sessions, typed).length > 0 ? [subject('pain', { kind: 'pain' })] : []),
    ...(mornings.length > 0 ? [{ name: 'body', lines: bodyAt }] : []),
    ...liftNames(sessions).map(({ name }) => subject(plainOf(name), { kind: 'lift', name })),
  ]
}

/** The goal of the newest session that has one, with the date of its race, which only the session itself
 * contains; null without any. */
export function raceGoalOf(logbook: Logbook, entries: readonly IndexEntry[]): RaceGoal | null {
  const entry = entries.find(({ brief, running }) => brief.runMeters > 0 && running.goal !== null)
  const goal = entry?.running.goal ?? null
  if (entry === undefined || goal === null) return null
  const date = readable(logbook, entry)?.prescription.goal?.on ?? null
  return { meters: goal.meters, seconds: goal.seconds, date }
}

/** The goal that running is measured against on a day: the newest session's, unless its race is over and the plan has
 * one ahead, or no session has any. */
export function goalOn(today: string, logbook: Logbook, entries: readonly IndexEntry[]) {
  const goal = raceGoalOf(logbook, entries)
  const isAhead = goal !== null && (goal.date === null || goal.date >= today)
  const race = isAhead ? null : (planIn(logbook.directory)?.race ?? null)
  if (race === null || race.date < today) return goal
  return { meters: metersOf(race.distance), seconds: race.seconds, date: race.date }
}

export function summaryTextOf(
  logbook: Logbook,
  session: Session,
  settings: Settings,
  how: SummaryOptions,
): string {
  const started = session.events.find((event) => event.type === 'sessionStarted')
  const date = started?.date ?? session.prescription.date ?? ''
  const { mornings } = readMornings(logbook.directory)
  return summaryText(session, summaryContextOn(date, logbook.directory, settings, mornings), how)
}
