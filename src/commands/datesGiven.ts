import { isCalendarDate } from '../units/calendarDate.ts'
import { printableOf } from './io.ts'
import { CommandError } from './port.ts'

/** `--from` and `--to`, both days in it; null where one is not given.
 * @throws CommandError `bad_date` for what is no date, or where the first lies after the last */
export function datesGiven(values: Readonly<Record<string, string | undefined>>): {
  from: string | null
  to: string | null
} {
  const [from, to] = [dateGiven('from', values.from), dateGiven('to', values.to)]
  if (from !== null && to !== null && from > to) {
    const message = `--from ${from} lies after --to ${to}. Give the earlier one first.`
    throw new CommandError('bad_date', message, { exit: 2 })
  }
  return { from, to }
}

function dateGiven(option: string, text: string | undefined): string | null {
  if (text === undefined) return null
  if (isCalendarDate(text) && text >= '1900') return text
  const message = `"${printableOf(text)}" is no date. Write one as in --${option} 2026-11-26.`
  throw new CommandError('bad_date', message, { exit: 2 })
}
