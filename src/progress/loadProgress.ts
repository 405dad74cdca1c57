import { type DayLoad, dayLoad, sessionLoad, weekLoad } from '../figures/load.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import { daysOf, type IsoWeek, isoWeeksOf } from './isoWeeks.ts'

export interface LoadDay extends DayLoad {
  date: string
  sessions: number
  /** Effort-minutes of what is known of the run, the lift, and the other parts. */
  run: number
  lift: number
  other: number
}

export interface LoadWeek {
  week: string
  monday: string
  days: LoadDay[]
  effortMinutes: number
  /** A day is unknown: the sum is this or more. */
  atLeast: boolean
  run: number
  lift: number
  other: number
  /** Its last day lies ahead: its figures stand for the days so far, and there is no monotony. */
  isOver: boolean
  monotony: number | null
  effortMinutesTimesMonotony: number | null
}

export interface LoadProgress extends Span {
  weeks: LoadWeek[]
  /** Sessions without an effort, which make their days unknown. */
  unknown: { session: string; date: string; title: string }[]
}

/** Effort-minutes by day and by week, run and lift beside each other. A day without a session is 0.
 * @param sessions those of the span alone are looked at
 * @param today local; a week that is not over has no monotony
 * Source: Foster 1998; Foster 2001. */
export function loadProgress(sessions: readonly DoneSession[], span: Span, today: string): LoadProgress {
  const byDate = new Map<string, DoneSession['brief'][]>()
  const unknown: LoadProgress['unknown'] = []
  for (const session of sessions) {
    const { id, date } = session
    if (!isIn(span, date)) continue
    const { brief } = session
    const known = byDate.get(date)
    if (known) known.push(brief)
    else byDate.set(date, [brief])
    if (brief.effortMinutes === null) unknown.push({ session: id, date, title: brief.title })
  }
  const weeks = isoWeeksOf(span).map((week) => weekOfLoad(week, byDate, today))
  return { ...span, weeks, unknown: unknown.reverse() }
}

function weekOfLoad(
  week: IsoWeek,
  byDate: ReadonlyMap<string, readonly DoneSession['brief'][]>,
  today: string,
): LoadWeek {
  const days = daysOf(week).map((date) => dayOfLoad(date, byDate.get(date) ?? []))
  const isOver = week.sunday <= today
  const { effortMinutes, atLeast, monotony, strain } = weekLoad(days)
  const sum = (of: 'run' | 'lift' | 'other') => days.reduce((total, day) => total + day[of], 0)
  return {
    week: week.week,
    monday: week.monday,
    days,
    effortMinutes,
    atLeast,
    run: sum('run'),
    lift: sum('lift'),
    other: sum('other'),
    isOver,
    monotony: isOver ? monotony : null,
    effortMinutesTimesMonotony: isOver ? strain : null,
  }
}

function dayOfLoad(date: string, briefs: readonly DoneSession['brief'][]): LoadDay {
  const parts = briefs.flatMap((brief) => brief.parts)
  const of = (kinds: readonly string[]) =>
    sessionLoad(parts.filter(({ kind }) => kinds.includes(kind)).map((part) => part.effortMinutes)) ?? 0
  return {
    date,
    sessions: briefs.length,
    ...dayLoad(briefs.map((brief) => brief.effortMinutes)),
    run: of(['run']),
    lift: of(['lift']),
    other: of(['prep', 'cross', 'fuel']),
  }
}
