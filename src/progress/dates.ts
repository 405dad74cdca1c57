import { formatDate } from 'date-fns/format'
import { parseISO } from 'date-fns/parseISO'
import type { Span } from './doneSession.ts'
import { daysBetween } from './isoWeeks.ts'

/** `9 Aug`. */
export function dayText(date: string): string {
  return formatDate(parseISO(date), 'd MMM')
}

/** `9 Aug 2026`. */
export function dateText(date: string): string {
  return formatDate(parseISO(date), 'd MMM yyyy')
}

/** `9 Aug`, with its year where the span reaches over a year's end. */
export function dayWithin({ from, to }: Span, date: string): string {
  return from.slice(0, 4) === to.slice(0, 4) ? dayText(date) : dateText(date)
}

/** `16 weeks, 10 Aug to 29 Nov 2026`. */
export function spanText({ from, to }: Span): string {
  const weeks = Math.round((daysBetween(from, to) + 1) / 7)
  return `${weeks} ${weeks === 1 ? 'week' : 'weeks'}, ${dayWithin({ from, to }, from)} to ${dateText(to)}`
}

/** `2026-W48 23 Nov`; without the year where there is little room.
 * @param columns of the line that it begins */
export function weekText({ week, monday }: { week: string; monday: string }, columns: number): string {
  return `${columns < narrow ? week.slice(5) : week} ${dayText(monday).padStart(6)}`
}

const narrow = 60
