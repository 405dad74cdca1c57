import { deviation, median as middleOf, range, sum } from 'd3-array'

/** Arithmetic mean; null for an empty list. A second pass corrects the rounding of the first.
 * Source: Sample statistics. */
export function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null
  const rough = sum(values) / values.length
  return rough + sum(values, (value) => value - rough) / values.length
}

/** Sample standard deviation (n - 1); null with fewer than two values.
 * Source: Sample statistics. */
export function sampleDeviation(values: readonly number[]): number | null {
  return deviation(values) ?? null
}

/** Median: the middle value, or the mean of the two in the middle; null for an empty list.
 * Source: Sample statistics. */
export function median(values: readonly number[]): number | null {
  return middleOf(values) ?? null
}

/** The least-squares line through points, with the standard errors of slope and intercept; null with fewer than two
 * different x. x and y in any units. Its residual standard deviation (n - 2), and every error, is null for two points.
 * `at`: the line's y at x, and the standard error of the line there.
 * Source: Least squares. */
export function straightLine(points: readonly { x: number; y: number }[]) {
  const meanX = mean(points.map(({ x }) => x))
  const meanY = mean(points.map(({ y }) => y))
  if (meanX === null || meanY === null) return null
  const sumOf = (of: (x: number, y: number) => number) =>
    sum(points, (point) => of(point.x - meanX, point.y - meanY))
  const squaresX = sumOf((x) => x * x)
  if (squaresX === 0) return null
  const slope = sumOf((x, y) => x * y) / squaresX
  const residual = sumOf((x, y) => (y - slope * x) ** 2)
  const count = points.length
  const residualDeviation = count > 2 ? Math.sqrt(residual / (count - 2)) : null
  const errorTimes = (factor: number) =>
    residualDeviation === null ? null : residualDeviation * Math.sqrt(factor)
  const at = (x: number) => ({
    y: meanY + slope * (x - meanX),
    error: errorTimes(1 / count + (x - meanX) ** 2 / squaresX),
  })
  return {
    slope,
    intercept: meanY - slope * meanX,
    meanX,
    meanY,
    residualDeviation,
    slopeError: errorTimes(1 / squaresX),
    interceptError: errorTimes(1 / count + meanX ** 2 / squaresX),
    at,
  }
}

/* Several predictors, and the t distribution for the intervals of their coefficients. */

export interface Coefficient {
  value: number
  error: number
}

/** A column counts as dependent if the others explain all but this share of its length. */
const singular = 1e-10

/** Ordinary least squares by orthogonal columns (modified Gram-Schmidt). Adds no intercept: pass a column of ones for
 * it.
 * @param rows of predictors, all of the same length; @param y one for each row
 * @returns one coefficient for each column, in order; null unless there are more rows than columns, or if columns are
 * dependent
 * Source: Least squares with several predictors. */
export function leastSquares(rows: readonly (readonly number[])[], y: readonly number[]) {
  const count = rows[0]?.length ?? 0
  if (count === 0 || rows.length <= count) return null
  /** Columns of length 1, each at right angles to the others, and how each is made of the given ones. */
  const base: { column: number[]; of: number[] }[] = []
  for (let j = 0; j < count; j++) {
    const column = rows.map((row) => row[j]!)
    const of = range(count).map((k) => (k === j ? 1 : 0))
    const whole = Math.hypot(...column)
    for (const earlier of base) {
      const share = dot(column, earlier.column)
      subtract(column, share, earlier.column)
      subtract(of, share, earlier.of)
    }
    const length = Math.hypot(...column)
    if (!(length > singular * whole)) return null
    base.push({ column: column.map((value) => value / length), of: of.map((value) => value / length) })
  }
  const residuals = [...y]
  const shares = base.map(({ column }) => {
    const share = dot(residuals, column)
    subtract(residuals, share, column)
    return share
  })
  const degreesOfFreedom = rows.length - count
  const residualDeviation = Math.hypot(...residuals) / Math.sqrt(degreesOfFreedom)
  const coefficients = range(count).map((j) => ({
    value: sum(base, ({ of }, k) => shares[k]! * of[j]!),
    error: residualDeviation * Math.hypot(...base.map(({ of }) => of[j]!)),
  }))
  return { coefficients, degreesOfFreedom, residualDeviation }
}

function dot(one: readonly number[], other: readonly number[]): number {
  return sum(one, (value, i) => value * other[i]!)
}

function subtract(from: number[], share: number, what: readonly number[]): void {
  for (const [i, value] of what.entries()) from[i]! -= share * value
}

export interface Interval {
  low: number
  high: number
}

/** The 95 % interval around an estimate.
 * @param degreesOfFreedom at least 1
 * Source: t distribution. */
export function interval95({ value, error }: Coefficient, degreesOfFreedom: number): Interval {
  const reach = tQuantile95(degreesOfFreedom) * error
  return { low: value - reach, high: value + reach }
}

/** The value that the t distribution exceeds with 2.5 %. With t = square root of n x tan(angle), n degrees of freedom,
 * the density is proportional to cos(angle)^(n - 1); Newton's method finds the angle below which 95 % of its half is.
 * Source: t distribution. */
export function tQuantile95(degreesOfFreedom: number): number {
  const n = degreesOfFreedom
  const known = quantiles.get(n)
  if (known !== undefined) return known
  const density = (angle: number) => Math.cos(angle) ** (n - 1)
  const wanted = 0.95 * areaUnder(density, Math.PI / 2)
  let angle = 0
  for (let step = 0; step < 12; step++) angle += (wanted - areaUnder(density, angle)) / density(angle)
  const quantile = Math.sqrt(n) * Math.tan(angle)
  quantiles.set(n, quantile)
  return quantile
}

/** By degrees of freedom: a page over years asks for the same ones a hundred times, which would take 0.2 s. */
const quantiles = new Map<number, number>()

/** The area under a curve from 0 to `end`, by Simpson's rule. */
function areaUnder(curve: (x: number) => number, end: number): number {
  const panels = 1000
  const width = end / panels
  const weight = (i: number) => (i === 0 || i === panels ? 1 : i % 2 === 0 ? 2 : 4)
  return (width / 3) * sum(range(panels + 1), (i) => weight(i) * curve(i * width))
}
