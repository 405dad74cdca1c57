import {
  addDays,
  addWeeks,
  differenceInCalendarDays,
  format,
  parseISO,
  startOfISOWeek,
  subWeeks,
} from 'date-fns'
import type { Span } from './doneSession.ts'

/** A week from Monday to Sunday, named after ISO 8601. */
export interface IsoWeek {
  /** `2026-W48`. */
  week: string
  monday: string
  sunday: string
}

/** Unless asked otherwise, so many weeks are shown. */
const usualWeeks = 16

/** The week of a local date. */
export function isoWeekOf(date: string): IsoWeek {
  const monday = startOfISOWeek(parseISO(date))
  return {
    week: format(monday, "RRRR-'W'II"),
    monday: dateText(monday),
    sunday: dateText(addDays(monday, 6)),
  }
}

/** Every week that a span touches, the first one first; at most 5300, a hundred years. */
export function isoWeeksOf({ from, to }: Span): IsoWeek[] {
  const weeks: IsoWeek[] = []
  for (let monday = startOfISOWeek(parseISO(from)); weeks.length < 5300; monday = addWeeks(monday, 1)) {
    const date = dateText(monday)
    if (date > to) break
    weeks.push(isoWeekOf(date))
  }
  return weeks
}

/** The seven dates of a week. */
export function daysOf({ monday }: IsoWeek): string[] {
  const first = parseISO(monday)
  return [0, 1, 2, 3, 4, 5, 6].map((days) => dateText(addDays(first, days)))
}

/** From one local date to another; negative when it lies before. */
export function daysBetween(from: string, to: string): number {
  return differenceInCalendarDays(parseISO(to), parseISO(from))
}

/** The weeks that are shown, whole ones: those that were asked for, else sixteen up to `to`, else up to today;
 * where nothing lies in them, sixteen up to the newest session there is. Asked for from a day ahead on, its week.
 * @param newest the newest date that there is something of, of those up to `to`; null without any */
export function spanOf(
  asked: { from: string | null; to: string | null },
  today: string,
  newest: string | null,
): Span {
  const to = isoWeekOf(asked.to ?? today).sunday
  if (asked.from !== null) {
    const { monday, sunday } = isoWeekOf(asked.from)
    const isAhead = sunday > to
    return { from: monday, to: isAhead ? sunday : to }
  }
  const from = weeksBefore(to)
  if (newest === null || newest >= from) return { from, to }
  return { from: weeksBefore(newest), to: isoWeekOf(newest).sunday }
}

function weeksBefore(date: string): string {
  return dateText(subWeeks(startOfISOWeek(parseISO(date)), usualWeeks - 1))
}

function dateText(date: Date): string {
  return format(date, 'yyyy-MM-dd')
}
