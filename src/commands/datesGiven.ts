import { isCalendarDate } from '../units/calendarDate.ts'
import { printableOf } from './io.ts'
import { CommandError } from './port.ts'

/** `--from` and `--to`, both days in it; null where one is not given.
 * @throws CommandError `bad_date` for what is no date, or where the first lies after the last */
export function datesGiven(values: Readonly<Record<string, string | undefined>>): {
  from: string | null
  to: string | null
} {
  const given = (option: 'from' | 'to') =>
    dateGiven(values[option], '1900', `Write one as in --${option} 2026-11-26.`)
  const [from, to] = [given('from'), given('to')]
  if (from !== null && to !== null && from > to) {
    const message = `--from ${from} lies after --to ${to}. Give the earlier one first.`
    throw new CommandError('bad_date', message, { exit: 2 })
  }
  return { from, to }
}

/** A local date of the command line; null where none is given.
 * @param from the earliest that is taken for one
 * @param advice what to write, the second sentence of what is said otherwise
 * @throws CommandError `bad_date` for what is no date */
export function dateGiven(text: string | undefined, from: string, advice: string): string | null {
  if (text === undefined) return null
  if (isCalendarDate(text) && text >= from) return text
  throw new CommandError('bad_date', `"${printableOf(text)}" is no date. ${advice}`, { exit: 2 })
}
