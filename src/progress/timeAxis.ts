import { addDays } from 'date-fns/addDays'
import { formatDate } from 'date-fns/format'
import { parseISO } from 'date-fns/parseISO'
import { daysBetween } from './weeks.ts'

/** Between two dates that are written below the axis. */
const steps = [1, 2, 4, 8, 13, 26, 52, 104, 260]
/** Cells that a date and the space beside it take. */
const room = 9
/** From so many days on the dates are months of a year. */
const long = 400

export interface TimeAxis {
  /** From 0; outside of the axis for a date outside. */
  columnOf: (date: string) => number
  /** `--+--------+---->`, one cell to the left of the field's first. */
  line: string
  /** The dates below, each at its tick. */
  dates: string
}

/** @param from a Monday, best of all: the ticks stand a whole number of weeks after it
 * @param width cells of the field */
export function timeAxis(from: string, to: string, width: number): TimeAxis {
  const days = Math.max(1, daysBetween(from, to))
  const columnAt = (day: number) => Math.round((day / days) * (width - 1))
  const step = steps.find((weeks) => columnAt(weeks * 7) >= room) ?? 520
  const ticks = Array.from({ length: Math.floor(days / (step * 7)) + 1 }, (_, index) => index * step * 7)
  const line = Array.from({ length: width + 1 }, () => '-')
  let dates = ''
  for (const day of ticks) {
    const column = columnAt(day)
    line[column + 1] = '+'
    const text = formatDate(addDays(parseISO(from), day), days > long ? 'MMM yyyy' : 'd MMM')
    if (column + text.length <= width) dates = dates.padEnd(column) + text
  }
  return { columnOf: (date) => columnAt(daysBetween(from, date)), line: `${line.join('')}>`, dates }
}
