import { linearRegression } from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import { interval95, leastSquares, tQuantile95 } from '../../src/figures/statistics.ts'

/* The Longley data of the NIST Statistical Reference Datasets (linear regression, higher level of difficulty): y, then
 * six predictors. Certified values of the coefficients, their standard deviations and the residual deviation. */
const longley = `60323 83.0 234289 2356 1590 107608 1947
61122 88.5 259426 2325 1456 108632 1948
60171 88.2 258054 3682 1616 109773 1949
61187 89.5 284599 3351 1650 110929 1950
63221 96.2 328975 2099 3099 112075 1951
63639 98.1 346999 1932 3594 113270 1952
64989 99.0 365385 1870 3547 115094 1953
63761 100.0 363112 3578 3350 116219 1954
66019 101.2 397469 2904 3048 117388 1955
67857 104.6 419180 2822 2857 118734 1956
68169 108.4 442769 2936 2798 120445 1957
66513 110.8 444546 4681 2637 121950 1958
68655 112.6 482704 3813 2552 123366 1959
69564 114.2 502601 3931 2514 125368 1960
69331 115.7 518173 4806 2572 127852 1961
70551 116.9 554894 4007 2827 130081 1962`
  .split('\n')
  .map((line) => line.split(' ').map(Number))
const certified = [
  [-3482258.63459582, 890420.383607373],
  [15.0618722713733, 84.9149257747669],
  [-0.035819179292591, 0.0334910077722432],
  [-2.02022980381683, 0.488399681651699],
  [-1.03322686717359, 0.214274163161675],
  [-0.0511041056535807, 0.22607320006937],
  [1829.15146461355, 455.478499142212],
] as const

describe('least squares with several predictors', () => {
  test("matches NIST's Longley data: coefficients and standard deviations to 8 digits", () => {
    const fit = leastSquares(
      longley.map(([, ...predictors]) => [1, ...predictors]),
      longley.map(([y]) => y as number),
    )
    expect(fit?.degreesOfFreedom).toBe(9)
    expect(fit?.residualDeviation).toBeCloseTo(304.854073561965, 6)
    for (const [index, [value, error]] of certified.entries()) {
      const found = fit?.coefficients[index]
      expect(Math.abs((found?.value ?? 0) / value - 1)).toBeLessThan(1e-8)
      expect(Math.abs((found?.error ?? 0) / error - 1)).toBeLessThan(1e-8)
    }
  })

  test('matches simple-statistics with one predictor', () => {
    const points = [1, 2, 4, 7, 11].map(
      (x, index) => [x, [3, 5, 4, 9, 13][index] as number] as [number, number],
    )
    const { m, b } = linearRegression(points)
    const fit = leastSquares(
      points.map(([x]) => [1, x]),
      points.map(([, y]) => y),
    )
    expect(fit?.coefficients[0]?.value).toBeCloseTo(b, 12)
    expect(fit?.coefficients[1]?.value).toBeCloseTo(m, 12)
  })

  test('gives no figure if a column follows from the others, or without more rows than columns', () => {
    const y = [1, 2, 4, 8, 9]
    expect(
      leastSquares(
        [0, 1, 1, 0, 1].map((x) => [1, x, x]),
        y,
      ),
    ).toBeNull()
    expect(
      leastSquares(
        [0, 1, 2, 3, 4].map((x) => [1, x, 2 * x + 3]),
        y,
      ),
    ).toBeNull()
    expect(
      leastSquares(
        [0, 0, 0, 0, 0].map((x) => [1, x]),
        y,
      ),
    ).toBeNull()
    expect(
      leastSquares(
        [
          [1, 2],
          [1, 3],
        ],
        [1, 2],
      ),
    ).toBeNull()
  })
})

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values at 0.975, three decimals.
test.each([
  [1, 12.706],
  [2, 4.303],
  [3, 3.182],
  [4, 2.776],
  [5, 2.571],
  [9, 2.262],
  [10, 2.228],
  [20, 2.086],
  [30, 2.042],
  [100, 1.984],
])('t with %s degrees of freedom leaves 2.5 %% above %s', (degrees, expected) => {
  expect(tQuantile95(degrees)).toBeCloseTo(expected, 3)
})

test('an interval reaches t standard errors to either side', () => {
  const { low, high } = interval95({ value: 2, error: 0.5 }, 10)
  expect(low).toBeCloseTo(2 - 0.5 * 2.228139, 6)
  expect(high).toBeCloseTo(2 + 0.5 * 2.228139, 6)
})
