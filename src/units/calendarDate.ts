import { addDays } from 'date-fns/addDays'
import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays'
import { formatDate } from 'date-fns/format'
import { isValid } from 'date-fns/isValid'
import { parseISO } from 'date-fns/parseISO'
import { startOfISOWeek } from 'date-fns/startOfISOWeek'

/* Local dates as strings, YYYY-MM-DD (ISO 8601), which sort in date order. */

const isoDate = 'yyyy-MM-dd'

/** Whether a text is YYYY-MM-DD and such a day exists. */
export function isCalendarDate(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && isValid(parseISO(text))
}

/** The date this many days later; earlier if negative. */
export function dayAfter(date: string, days: number): string {
  return formatDate(addDays(parseISO(date), days), isoDate)
}

/** Whole days from one date to another; negative if the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return differenceInCalendarDays(parseISO(to), parseISO(from))
}

/** The Monday of the ISO week of a date. */
export function mondayOf(date: string): string {
  return formatDate(startOfISOWeek(parseISO(date)), isoDate)
}

/** Formats a date by a date-fns pattern: `EEE d MMM` gives `Thu 26 Nov`. */
export function printDate(date: string, pattern: string): string {
  return formatDate(parseISO(date), pattern)
}
