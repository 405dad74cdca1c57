import { finite } from './given.ts'

/** Arithmetic mean; null for an empty list. A second pass corrects the rounding of the first.
 * @throws RangeError for a value that is not a finite number
 * Source: Sample statistics. */
export function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null
  const rough = values.reduce((sum, value) => sum + finite(value, 'a value'), 0) / values.length
  return rough + values.reduce((sum, value) => sum + (value - rough), 0) / values.length
}

/** Sample standard deviation (n - 1), from the differences to the mean; null with fewer than two values.
 * @throws RangeError for a value that is not a finite number
 * Source: Sample statistics. */
export function sampleDeviation(values: readonly number[]): number | null {
  const middle = mean(values)
  if (middle === null || values.length < 2) return null
  const squares = values.reduce((sum, value) => sum + (value - middle) ** 2, 0)
  return Math.sqrt(squares / (values.length - 1))
}

/** Median: the middle value, or the mean of the two in the middle; null for an empty list.
 * @throws RangeError for a value that is not a finite number
 * Source: Sample statistics. */
export function median(values: readonly number[]): number | null {
  const sorted = values.map((value) => finite(value, 'a value')).sort((a, b) => a - b)
  const half = sorted.length / 2
  return mean(sorted.slice(Math.ceil(half) - 1, Math.floor(half) + 1))
}

export interface StraightLine {
  slope: number
  /** y at x = 0. */
  intercept: number
  count: number
  meanX: number
  meanY: number
  /** Share of the variation of y that the line explains; null if y does not vary. */
  rSquared: number | null
  /** Residual standard deviation (n - 2); null for two points, like everything derived from it. */
  residualDeviation: number | null
  /** Standard error of the slope. */
  slopeError: number | null
  /** Standard error of the intercept. */
  interceptError: number | null
  /** Sum of the squared differences of x to its mean. */
  squaresX: number
}

/** The least-squares line through points, with the standard errors of slope and intercept; null with fewer than two
 * different x. x and y in any units.
 * @throws RangeError for a coordinate that is not a finite number
 * Source: Least squares. */
export function straightLine(points: readonly { x: number; y: number }[]): StraightLine | null {
  const meanX = mean(points.map((point) => finite(point.x, 'x')))
  const meanY = mean(points.map((point) => finite(point.y, 'y')))
  if (meanX === null || meanY === null) return null
  const sumOf = (of: (x: number, y: number) => number) =>
    points.reduce((sum, point) => sum + of(point.x - meanX, point.y - meanY), 0)
  const squaresX = sumOf((x) => x * x)
  if (squaresX === 0) return null
  const slope = sumOf((x, y) => x * y) / squaresX
  const residual = sumOf((x, y) => (y - slope * x) ** 2)
  const squaresY = sumOf((_, y) => y * y)
  const count = points.length
  const deviation = count > 2 ? Math.sqrt(residual / (count - 2)) : null
  const errorTimes = (factor: number) => (deviation === null ? null : deviation * Math.sqrt(factor))
  return {
    slope,
    intercept: meanY - slope * meanX,
    count,
    meanX,
    meanY,
    rSquared: squaresY === 0 ? null : 1 - residual / squaresY,
    residualDeviation: deviation,
    slopeError: errorTimes(1 / squaresX),
    interceptError: errorTimes(1 / count + meanX ** 2 / squaresX),
    squaresX,
  }
}

/** The line's y at x, and the standard error of the line there; null error with fewer than three points.
 * Source: Least squares. */
export function lineAt(line: StraightLine, x: number): { y: number; error: number | null } {
  const off = finite(x, 'x') - line.meanX
  const error =
    line.residualDeviation === null
      ? null
      : line.residualDeviation * Math.sqrt(1 / line.count + off ** 2 / line.squaresX)
  return { y: line.meanY + line.slope * off, error }
}
