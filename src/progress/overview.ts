import { exerciseKey } from '../prescription/exercise.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import type { EstimatePoint, LiftProgress } from './liftModel.ts'
import { liftProgress } from './liftProgress.ts'
import { type LoadWeek, loadProgress } from './loadProgress.ts'

/** So many lifts stand in the overview. */
const mostLifts = 8

export interface Overview extends Span {
  /** Those that were lifted in the span, the oftenest first. */
  lifts: { name: string; sessions: number; last: EstimatePoint | null; trends: LiftProgress['trends'] }[]
  weeks: (Pick<LoadWeek, 'week' | 'monday' | 'effortMinutes' | 'atLeast' | 'run' | 'lift'> & {
    meters: number
    tonnageKg: number
  })[]
}

/** Both halves on one page: each lift's last estimate and straight line, and the weeks.
 * @param sessions newest first; @param today local date */
export function overviewOf(sessions: readonly DoneSession[], span: Span, today: string): Overview {
  const within = sessions.filter(({ date }) => isIn(span, date))
  const lifts = liftNames(within).slice(0, mostLifts)
  const { weeks } = loadProgress(within, span, today)
  return {
    ...span,
    lifts: lifts.map(({ name, sessions }) => {
      const { estimates, trends } = liftProgress(within, name, span)
      return { name, sessions, last: estimates.at(-1) ?? null, trends }
    }),
    weeks: weeks.map(({ week, monday, effortMinutes, atLeast, run, lift, days }) => {
      const last = days.at(-1)?.date ?? monday
      const briefs = within.filter(({ date }) => date >= monday && date <= last).map(({ brief }) => brief)
      const meters = briefs.reduce((sum, { runMeters }) => sum + runMeters, 0)
      const tonnageKg = briefs.reduce((sum, brief) => sum + brief.tonnageKg, 0)
      return { week, monday, effortMinutes, atLeast, run, lift, meters, tonnageKg }
    }),
  }
}

/** What was lifted, the oftenest first, each name as it was written last.
 * @param sessions newest first */
export function liftNames(sessions: readonly DoneSession[]): { name: string; sessions: number }[] {
  const names = new Map<string, { name: string; sessions: number }>()
  for (const { brief } of sessions) {
    for (const name of brief.exercises) {
      const key = exerciseKey(name)
      const known = names.get(key)
      if (known) known.sessions += 1
      else names.set(key, { name, sessions: 1 })
    }
  }
  return [...names.values()].sort((a, b) => b.sessions - a.sessions)
}
