import { sum } from 'd3-array'
import { finite } from './figure.ts'

/** Arithmetic mean; null for an empty list. A second pass corrects the rounding of the first.
 * @throws RangeError for a value that is not a finite number
 * Source: Sample statistics. */
export function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null
  const rough = sum(values, (value) => finite(value, 'a value')) / values.length
  return rough + sum(values, (value) => value - rough) / values.length
}

/** Sample standard deviation (n - 1), from the differences to the mean; null with fewer than two values.
 * @throws RangeError for a value that is not a finite number
 * Source: Sample statistics. */
export function sampleDeviation(values: readonly number[]): number | null {
  const middle = mean(values)
  if (middle === null || values.length < 2) return null
  return Math.sqrt(sum(values, (value) => (value - middle) ** 2) / (values.length - 1))
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
    sum(points, (point) => of(point.x - meanX, point.y - meanY))
  const squaresX = sumOf((x) => x * x)
  if (squaresX === 0) return null
  const slope = sumOf((x, y) => x * y) / squaresX
  const residual = sumOf((x, y) => (y - slope * x) ** 2)
  const count = points.length
  const deviation = count > 2 ? Math.sqrt(residual / (count - 2)) : null
  const errorTimes = (factor: number) => (deviation === null ? null : deviation * Math.sqrt(factor))
  return {
    slope,
    intercept: meanY - slope * meanX,
    count,
    meanX,
    meanY,
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

/* Several predictors, and the t distribution for the intervals of their coefficients. */

export interface Coefficient {
  value: number
  error: number
}

export interface LeastSquares {
  /** One per column, in order. */
  coefficients: Coefficient[]
  /** Rows minus columns. */
  degreesOfFreedom: number
  residualDeviation: number
}

/** A column counts as dependent if the others explain all but this share of its length. */
const singular = 1e-10

/** Ordinary least squares by Householder reflections. Adds no intercept: pass a column of ones for it.
 * @param rows of predictors, all of the same length; @param y one for each row
 * @returns null unless there are more rows than columns, or if columns are dependent
 * @throws RangeError for a value that is not a number, or rows of different lengths
 * Source: Least squares with several predictors. */
export function leastSquares(
  rows: readonly (readonly number[])[],
  y: readonly number[],
): LeastSquares | null {
  const columns = rows[0]?.length ?? 0
  if (rows.length !== y.length || rows.some((row) => row.length !== columns))
    throw new RangeError('Invalid rows: each needs the same number of predictors, and one y.')
  if (columns === 0 || rows.length <= columns) return null
  // The last column is y, which is reflected with the others.
  const a = rows.map((row, i) => [...row.map((value) => finite(value, 'a predictor')), finite(y[i]!, 'y')])
  const scales = rows[0]!.map((_, j) => Math.hypot(...a.map((row) => row[j]!)))
  if (scales.includes(0)) return null
  for (const row of a) for (const [j, scale] of scales.entries()) row[j]! /= scale
  for (let k = 0; k < columns; k++) if (!reflect(a, k)) return null
  const b = a.map((row) => row[columns]!)
  const solution = backward(a, b.slice(0, columns))
  const degreesOfFreedom = rows.length - columns
  const residualDeviation = Math.hypot(...b.slice(columns)) / Math.sqrt(degreesOfFreedom)
  const inverse = identity(columns).map((unit) => backward(a, unit))
  return {
    coefficients: solution.map((value, j) => ({
      value: value / scales[j]!,
      error: (residualDeviation * Math.hypot(...inverse.map((row) => row[j]!))) / scales[j]!,
    })),
    degreesOfFreedom,
    residualDeviation,
  }
}

/** Reflects column k onto its axis, with the columns after it; false if the column vanishes. */
function reflect(a: number[][], k: number): boolean {
  const v = a.slice(k).map((row) => row[k]!)
  const length = Math.hypot(...v)
  if (length < singular) return false
  v[0]! += v[0]! > 0 ? length : -length
  const squares = sum(v, (value) => value * value)
  for (let j = k; j < a[0]!.length; j++) {
    const factor = (2 * sum(v, (value, i) => value * a[k + i]![j]!)) / squares
    for (const [i, value] of v.entries()) a[k + i]![j]! -= factor * value
  }
  return true
}

/** Solves the upper triangle of a. */
function backward(a: readonly (readonly number[])[], right: readonly number[]): number[] {
  const x = [...right]
  for (let i = x.length - 1; i >= 0; i--) {
    for (let j = i + 1; j < x.length; j++) x[i]! -= a[i]![j]! * x[j]!
    x[i]! /= a[i]![i]!
  }
  return x
}

function identity(size: number): number[][] {
  return Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)))
}

export interface Interval {
  low: number
  high: number
}

/** The 95 % interval around an estimate.
 * @param degreesOfFreedom above 0
 * Source: t distribution. */
export function interval95({ value, error }: Coefficient, degreesOfFreedom: number): Interval {
  const reach = tQuantile95(degreesOfFreedom) * error
  return { low: value - reach, high: value + reach }
}

/** The value that the t distribution exceeds with 2.5 %, found by bisection.
 * @throws RangeError for degrees of freedom that are not above 0
 * Source: t distribution. */
export function tQuantile95(degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0))
    throw new RangeError(`Invalid degrees of freedom ${degreesOfFreedom}: they must be above 0.`)
  let [low, high] = [1.9, 13]
  while (high - low > 1e-12 * high) {
    const middle = (low + high) / 2
    if (tTail(middle, degreesOfFreedom) > 0.05) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** The share of the distribution outside ±t. */
function tTail(t: number, n: number): number {
  return incompleteBeta(n / (n + t * t), n / 2, 0.5)
}

/** The regularised incomplete beta function, by its continued fraction.
 * Source: Abramowitz and Stegun 1964, 26.5.8 (from memory). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a)
  const front =
    Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a
  const tiny = 1e-300
  let [c, d] = [1, 1 / (1 - ((a + b) * x) / (a + 1) || tiny)]
  let fraction = d
  for (let m = 1; m < 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    for (const term of [even, odd]) {
      d = 1 / (1 + term * d || tiny)
      c = 1 + term / c || tiny
      fraction *= c * d
    }
    if (Math.abs(c * d - 1) < 1e-16) break
  }
  return front * fraction
}

/** Stirling's series from 10 on, and the recurrence below it. */
function logGamma(x: number): number {
  if (x < 10) return logGamma(x + 1) - Math.log(x)
  const y = 1 / (x * x)
  const series = (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y / 1188)))) / x
  return (x - 0.5) * Math.log(x) - x + Math.log(2 * Math.PI) / 2 + series
}
