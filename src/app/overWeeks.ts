import { liftNames, type PageInput, pageAbout, pageColumns, pageNames } from '../progress/overview.ts'
import type { RaceGoal } from '../progress/towardRace.ts'
import { plainOf } from '../summary/plain.ts'
import { metersOf } from '../units/length.ts'
import { type Known, remembered } from './known.ts'

export type ProgressSubject = NonNullable<ReturnType<typeof progressContent>>[number]

/** The subjects of the progress screen, shown one at a time: their names, and their lines at a width, which are computed
 * when first shown. Null without a session. */
export function progressContent(known: Known) {
  const { entries: sessions, mornings, pains } = known
  if (sessions.length === 0) return null
  const input = pageInputOf(known)
  const names = pageNames.filter((name) =>
    name === 'pain' ? pains.length > 0 : name !== 'body' || mornings.mornings.length > 0,
  )
  const subjects = [
    ...names.map((kind) => ({ kind })),
    ...liftNames(sessions).map(({ name }) => ({ kind: 'lift' as const, name })),
  ]
  return subjects.map((subject) => {
    const shown = remembered(() => pageAbout(subject, input))
    const name = subject.kind === 'lift' ? plainOf(subject.name) : subject.kind
    return { name, lines: (columns: number) => shown().lines(pageColumns(columns)) }
  })
}

/** What the pages of the progress are made from.
 * @param asked local dates; null if not asked for */
export function pageInputOf(
  known: Known,
  asked: PageInput['asked'] = { from: null, to: null },
  isFull = false,
): PageInput {
  const { entries: sessions, today, historyUnits: units } = known
  const goal = () => goalOn(known)
  const [pains, mornings] = [() => known.pains, () => known.mornings.mornings]
  return { sessions, asked, today, units, isFull, goal, pains, mornings }
}

/** The goal of the newest session that has one, with the date of its race, which only the session itself
 * contains; null without any. */
export function raceGoalOf({ logbook, entries }: Pick<Known, 'logbook' | 'entries'>): RaceGoal | null {
  const entry = entries.find(({ brief, running }) => brief.runMeters > 0 && running.goal !== null)
  const goal = entry?.running.goal ?? null
  if (entry === undefined || goal === null) return null
  const date = logbook.sessionOf(entry)?.prescription.goal?.on ?? null
  return { meters: goal.meters, seconds: goal.seconds, date }
}

/** The goal that running is measured against on a day: the newest session's, unless its race is over and the plan has
 * one ahead, or no session has any. */
export function goalOn(known: Known) {
  const { today, plan } = known
  const goal = raceGoalOf(known)
  const isAhead = goal !== null && (goal.date === null || goal.date >= today)
  const race = isAhead ? null : (plan?.race ?? null)
  if (race === null || race.on < today) return goal
  return { meters: metersOf(race.length), seconds: race.seconds, date: race.on }
}
