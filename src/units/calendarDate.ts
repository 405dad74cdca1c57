import { isValid } from 'date-fns/isValid'
import { parseISO } from 'date-fns/parseISO'

/** Whether a text is a calendar date, written YYYY-MM-DD (ISO 8601). */
export function isCalendarDate(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && isValid(parseISO(text))
}
