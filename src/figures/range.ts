import { positive } from './given.ts'

/** By how much a single target value is widened each way. This program's own rule. */
const widenedShare = 0.01
const widenedSeconds = 0.5
const noise = 1e-9

export interface Range {
  from: number
  to: number
}

/** The range for a time, in seconds. A single value is widened by 1 %, at least 0.5 s, each
 * way; two values are used as given, in either order.
 * @throws RangeError for an end that is not above 0
 * Source: This program's own rule. */
export function timeRange(target: Range): Range {
  const [a, b] = [positive(target.from, 'the target'), positive(target.to, 'the target')]
  if (a !== b) return { from: Math.min(a, b), to: Math.max(a, b) }
  const wide = Math.max(a * widenedShare, widenedSeconds)
  return { from: a - wide, to: a + wide }
}

/** The range for the time of a split, from a pace in seconds per kilometre: scaled to the split's length, then
 * a single value widened.
 * @throws RangeError for a pace or a distance that is not above 0
 * Source: This program's own rule. */
export function timeRangeOfPace(secondsPerKm: Range, meters: number): Range {
  const km = positive(meters, 'the distance') / 1000
  return timeRange({ from: secondsPerKm.from * km, to: secondsPerKm.to * km })
}

/** Whether a time is in its range, including its ends and half of the last typed digit.
 * @param precision the value of that digit: 1 for 6:07, 0.1 for 6:07.2
 * @throws RangeError for a time or a precision that is not above 0
 * Source: This program's own rule. */
export function judge(seconds: number, range: Range, precision: number): 'fast' | 'in' | 'slow' {
  const spare = positive(precision, 'the precision') / 2 + noise
  const time = positive(seconds, 'the time')
  if (time < range.from - spare) return 'fast'
  return time > range.to + spare ? 'slow' : 'in'
}
