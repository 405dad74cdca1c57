import type { RunLiftGap } from './gaps.ts'
import type { Due } from './rotation.ts'
import type { WeekDay } from './weekDay.ts'

/** One day of the calendar: what was done on it, and what lies ready for it. */
export interface CalendarDay {
  /** Local, YYYY-MM-DD. */
  date: string
  done: (WeekDay & { id: string; finished: boolean })[]
  ready: (WeekDay & { file: string })[]
  gaps: RunLiftGap[]
}

export interface Running {
  meters: number
  hardMeters: number
  /** Hard running whose metres are not known. */
  hardSeconds: number
}

/** A week on one page. */
export interface Week {
  /** ISO 8601: `2026-W48`. */
  week: string
  days: CalendarDay[]
  /** Days that lie ready and have no date. */
  undated: CalendarDay['ready']
  /** Files among the prescriptions that cannot be read as a day. */
  unreadable: string[]
  done: Running
  ready: Running
  /** Dates of the week with hard running, done or ready, on the day after heavy sets for the legs. */
  hardRunAfterHeavyLegs: string[]
  due: Due | null
}

/** @param days the seven of the week; @param dayBefore the one before them */
export function weekOf(
  given: Pick<Week, 'week' | 'days' | 'undated' | 'unreadable' | 'due'>,
  dayBefore: CalendarDay,
): Week {
  const { days } = given
  const pairs = days.map((day, index) => ({ day, before: days[index - 1] ?? dayBefore }))
  return {
    ...given,
    done: runningOf(days.flatMap((day) => day.done)),
    ready: runningOf(days.flatMap((day) => day.ready)),
    hardRunAfterHeavyLegs: pairs
      .filter(({ day, before }) => hasHardRun(day) && hasHeavyLegs(before))
      .map(({ day }) => day.date),
  }
}

/** Whether any of a day, done or ready, is heavy for the legs. */
export function hasHeavyLegs(day: CalendarDay): boolean {
  return [...day.done, ...day.ready].some(({ heavyLegSets }) => heavyLegSets > 0)
}

function hasHardRun(day: CalendarDay): boolean {
  return [...day.done, ...day.ready].some(({ hardMeters, hardSeconds }) => hardMeters > 0 || hardSeconds > 0)
}

function runningOf(days: readonly WeekDay[]): Running {
  const sum = (of: (day: WeekDay) => number) => days.reduce((total, day) => total + of(day), 0)
  return {
    meters: sum((day) => day.meters),
    hardMeters: sum((day) => day.hardMeters),
    hardSeconds: sum((day) => day.hardSeconds),
  }
}
