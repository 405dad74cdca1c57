import { interval95 } from '../figures/leastSquares.ts'
import { lineAt, straightLine } from '../figures/statistics.ts'
import { daysBetween } from './weeks.ts'

/** A trend needs this many points, and this much time between the first and the last. This program's own rule. */
const fewest = 4
const fewestDays = 21

export interface Trend {
  count: number
  perWeek: number
  /** Standard error of the slope. */
  perWeekError: number
  /** The 95 % interval of the slope. */
  perWeekLow: number
  perWeekHigh: number
  /** The interval excludes 0, so the change can be told from noise. */
  isClear: boolean
  /** Residual standard deviation: how far the points are from the line. */
  scatter: number
  /** The line's value at its first and last point, each with the standard error of the line there. */
  first: { date: string; value: number; error: number }
  last: { date: string; value: number; error: number }
}

/** The straight line through values over time, in units a week; null with fewer than four points or less than 21 days.
 * It describes the past, not the future.
 * Source: Least squares; t distribution. */
export function trendOf(points: readonly { date: string; value: number }[]): Trend | null {
  const ordered = points.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
  const [first, last] = [ordered[0], ordered.at(-1)]
  if (first === undefined || last === undefined || ordered.length < fewest) return null
  if (daysBetween(first.date, last.date) < fewestDays) return null
  const weeks = (date: string) => daysBetween(first.date, date) / 7
  const line = straightLine(ordered.map(({ date, value }) => ({ x: weeks(date), y: value })))
  if (line === null || line.slopeError === null || line.residualDeviation === null) return null
  const at = (date: string) => {
    const { y, error } = lineAt(line, weeks(date))
    return { date, value: y, error: error ?? 0 }
  }
  const { low, high } = interval95({ value: line.slope, error: line.slopeError }, ordered.length - 2)
  return {
    count: ordered.length,
    perWeek: line.slope,
    perWeekError: line.slopeError,
    perWeekLow: low,
    perWeekHigh: high,
    isClear: low > 0 || high < 0,
    scatter: line.residualDeviation,
    first: at(first.date),
    last: at(last.date),
  }
}
