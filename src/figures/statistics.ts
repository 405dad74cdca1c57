import { finite } from './given.ts'

/** Arithmetic mean; null of an empty list. A second pass takes up the rounding of the first.
 * @throws RangeError for a value that is no number
 * Source: Sample statistics. */
export function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null
  const rough = values.reduce((sum, value) => sum + finite(value, 'a value'), 0) / values.length
  return rough + values.reduce((sum, value) => sum + (value - rough), 0) / values.length
}

/** Sample standard deviation (n - 1), from the differences to the mean; null below two values.
 * @throws RangeError for a value that is no number
 * Source: Sample statistics. */
export function sampleDeviation(values: readonly number[]): number | null {
  const middle = mean(values)
  if (middle === null || values.length < 2) return null
  const squares = values.reduce((sum, value) => sum + (value - middle) ** 2, 0)
  return Math.sqrt(squares / (values.length - 1))
}

/** Median: the middle value, or the mean of the two in the middle; null of an empty list.
 * @throws RangeError for a value that is no number
 * Source: Sample statistics. */
export function median(values: readonly number[]): number | null {
  const sorted = values.map((value) => finite(value, 'a value')).sort((a, b) => a - b)
  const half = sorted.length / 2
  return mean(sorted.slice(Math.ceil(half) - 1, Math.floor(half) + 1))
}
