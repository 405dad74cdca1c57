import * as simple from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { differenceOfMeans } from '../../src/figures/runForm.ts'
import { splitFigures } from '../../src/figures/splits.ts'
import {
  leastSquares,
  mean,
  median,
  sampleDeviation,
  straightLine,
  tQuantile95,
} from '../../src/figures/statistics.ts'
import fc from '../fastCheck.ts'

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

const { norris, hills, linnerud } = reference.tables
const times = fc.array(fc.double({ min: 20, max: 4000, noNaN: true }), { minLength: 2, maxLength: 40 })
const near = (a: number | null, b: number, scale = 1) =>
  expect(Math.abs((a ?? Number.NaN) - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(b), scale))

describe('statistics against reference libraries and certified values', () => {
  // NIST Statistical Reference Datasets, Norris: certified to 15 digits.
  test('give Norris the certified straight line', () => {
    const line = straightLine(norris.x.map((x, index) => ({ x, y: norris.y[index] as number })))
    expect(norris.x).toHaveLength(36)
    expect(line?.slope).toBeCloseTo(norris.slope, 12)
    expect(line?.intercept).toBeCloseTo(norris.intercept, 11)
    expect(line?.residualDeviation).toBeCloseTo(norris.residualDeviation, 11)
    expect(line?.slopeError).toBeCloseTo(norris.slopeError, 12)
    expect(line?.interceptError).toBeCloseTo(norris.interceptError, 11)
    expect(line?.at(0).y).toBeCloseTo(norris.intercept, 10)
    expect(line?.at(0).error).toBeCloseTo(norris.interceptError, 11)
  })

  // NIST Statistical Reference Datasets, NumAcc4: mean 10000000.2, deviation 0.1, both exact; a sum of squares would fail
  // here.
  test('keep the mean and the deviation of NumAcc4', () => {
    const values = [10_000_000.2, ...Array.from({ length: 500 }, () => [10_000_000.1, 10_000_000.3]).flat()]
    expect(mean(values)).toBeCloseTo(10_000_000.2, 8)
    expect(sampleDeviation(values)).toBeCloseTo(0.1, 8)
  })

  // Atkinson 1986, Statistical Science 1:397-402, as in the data set hills of MASS: lm(time ~ dist) of R.
  test('give 35 hill races the line of R', () => {
    const line = straightLine(hills.races.map((race) => ({ x: race.miles, y: race.minutes })))
    expect(line?.slope).toBeCloseTo(hills.line.slope, 5)
    expect(line?.intercept).toBeCloseTo(hills.line.intercept, 4)
    expect(line?.residualDeviation).toBeCloseTo(hills.line.residualDeviation, 5)
  })
  test('give 35 hill records the spread of R', () => {
    const figures = splitFigures(
      hills.races.map((race, index) => ({ number: index + 1, seconds: race.minutes })),
    )
    expect(figures.meanSeconds).toBeCloseTo(hills.minutes.mean, 5)
    expect(figures.sdSeconds).toBeCloseTo(hills.minutes.deviation, 5)
    expect(figures.cvPercent).toBeCloseTo(hills.minutes.cvPercent, 5)
  })

  // Tenenhaus 1998, the exercise data of 20 men.
  test.each(['chins', 'jumps'] as const)(
    'the %s of Linnerud have their mean and sample deviation',
    (column) => {
      expect(mean(linnerud[column].counts)).toBeCloseTo(linnerud[column].mean, 9)
      expect(sampleDeviation(linnerud[column].counts)).toBeCloseTo(linnerud[column].deviation, 5)
    },
  )

  // simple-statistics on random data.
  test('agree with simple-statistics on mean, median and deviation of any times', () => {
    fc.assert(
      fc.property(times, (values) => {
        near(mean(values), simple.mean(values))
        near(median(values), simple.median(values))
        near(sampleDeviation(values), simple.sampleStandardDeviation(values))
      }),
    )
  })
  test('agree with simple-statistics on the split figures of any times', () => {
    fc.assert(
      fc.property(
        times.filter((values) => values.length > 2),
        (values) => {
          const figures = splitFigures(values.map((seconds, index) => ({ number: index + 1, seconds })))
          near(figures.cvPercent, simple.coefficientOfVariation(values) * 100, 100)
          near(figures.rangeSeconds, simple.max(values) - simple.min(values))
          const { m } = simple.linearRegression(values.map((seconds, index) => [index + 1, seconds]))
          near(figures.fadePercentPerSplit, (m / simple.mean(values)) * 100, 1000)
        },
      ),
    )
  })
  test('agree with simple-statistics on the straight line of any points', () => {
    const points = fc.array(
      fc.record({ x: fc.integer({ min: 0, max: 1000 }), y: fc.integer({ min: 0, max: 300 }) }),
      {
        minLength: 3,
        maxLength: 50,
      },
    )
    fc.assert(
      fc.property(points, (list) => {
        const line = straightLine(list)
        fc.pre(new Set(list.map((point) => point.x)).size > 1)
        const { m, b } = simple.linearRegression(list.map((point) => [point.x, point.y]))
        near(line?.slope ?? null, m, 1000)
        near(line?.intercept ?? null, b, 100_000)
      }),
    )
  })
})

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
    const { m, b } = simple.linearRegression(points)
    const fit = leastSquares(
      points.map(([x]) => [1, x]),
      points.map(([, y]) => y),
    )
    expect(fit?.coefficients[0]?.value).toBeCloseTo(b, 12)
    expect(fit?.coefficients[1]?.value).toBeCloseTo(m, 12)
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

describe('the difference of two means, which may spread differently', () => {
  // Six values of the ClickHouse reference, welchTTest(0.95): t 2.7988719532211235 and this interval.
  test('has the interval of a published worked example', () => {
    const found = differenceOfMeans([20.3, 22.1, 21.9], [18.9, 20.3, 19])
    expect(found?.low).toBeCloseTo(-0.026294346671631885, 9)
    expect(found?.high).toBeCloseTo(4.092961013338302, 9)
    expect(found?.isClear).toBe(false)
  })
  // Student 1908, the sleep data of R: t.test(extra ~ group, data = sleep) prints df 17.776 and this interval.
  test('has the interval and the degrees of freedom that R prints for the sleep data', () => {
    const one = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]
    const other = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]
    const found = differenceOfMeans(one, other)
    expect(found?.difference).toBeCloseTo(0.75 - 2.33, 12)
    expect(found?.degreesOfFreedom).toBeCloseTo(17.776, 3)
    expect(found?.low).toBeCloseTo(-3.3654832, 6)
    expect(found?.high).toBeCloseTo(0.2054832, 6)
  })
  test('agrees with the pooled t of simple-statistics if both groups have the same size', () => {
    const groups = fc.integer({ min: 3, max: 20 }).chain((size) => {
      const group = fc.array(fc.integer({ min: 200, max: 500 }), { minLength: size, maxLength: size })
      return fc.tuple(group, group)
    })
    fc.assert(
      fc.property(groups, ([one, other]) => {
        const found = differenceOfMeans(one, other)
        fc.pre(found !== null)
        // With equal sizes the pooled standard error is Welch's.
        const t = simple.tTestTwoSample(one, other) ?? Number.NaN
        const { difference, low, high, degreesOfFreedom } = found as NonNullable<typeof found>
        near(difference / ((high - low) / 2 / tQuantile95(degreesOfFreedom)), t)
      }),
    )
  })
})
