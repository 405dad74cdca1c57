import { isoWeekOf } from '../../src/progress/weeks.ts'
import { dayAfter, daysBetween, printDate } from '../../src/units/calendarDate.ts'

/** What the program says of dates on a machine in a time zone: the day after and a leap year before, the days since
 * another date, the ISO week with its Monday, the weekday. */
export function calendarIn(zone: string, dates: readonly string[], from: string) {
  process.env.TZ = zone
  return dates.map((date) => {
    const { week, monday } = isoWeekOf(date)
    const days = daysBetween(from, date)
    return [date, dayAfter(date, 1), dayAfter(date, -366), days, week, monday, printDate(date, 'EEEE')]
  })
}
