import { describe, expect, test } from 'vitest'
import {
  interval95,
  leastSquares,
  mean,
  median,
  sampleDeviation,
  straightLine,
} from '../../src/figures/statistics.ts'

describe('lists of numbers', () => {
  test('have no average, median or deviation if empty', () => {
    expect([mean([]), median([]), sampleDeviation([])]).toEqual([null, null, null])
  })
  test('have an average and no deviation with one value', () => {
    expect([mean([240]), median([240]), sampleDeviation([240])]).toEqual([240, 240, null])
  })
  test('have a median between the two middle values of four', () => {
    expect(median([4, 1, 3, 2])).toBe(2.5)
    expect(median([9, 1, 5])).toBe(5)
  })
  test('are not sorted in place', () => {
    const values = Object.freeze([3, 1, 2])
    expect(median(values)).toBe(2)
  })
})

describe('a straight line', () => {
  test('through two points has no uncertainty', () => {
    expect(
      straightLine([
        { x: 0, y: 1 },
        { x: 2, y: 5 },
      ]),
    ).toMatchObject({
      slope: 2,
      intercept: 1,
      meanX: 1,
      meanY: 3,
      residualDeviation: null,
      slopeError: null,
      interceptError: null,
    })
  })
  test('through two points has no uncertainty at a point either', () => {
    const line = straightLine([
      { x: 0, y: 1 },
      { x: 2, y: 5 },
    ])
    expect(line?.at(3)).toEqual({ y: 7, error: null })
  })
  test('does not exist through points of one x, or without points', () => {
    expect(
      straightLine([
        { x: 1, y: 1 },
        { x: 1, y: 5 },
      ]),
    ).toBeNull()
    expect(straightLine([])).toBeNull()
  })
  test('is level through a y that does not vary', () => {
    expect(
      straightLine([
        { x: 0, y: 4 },
        { x: 1, y: 4 },
        { x: 2, y: 4 },
      ]),
    ).toMatchObject({ slope: 0, slopeError: 0 })
  })
  test('matches three points by hand: errors of slope, intercept and of the line at its middle', () => {
    const line = straightLine([
      { x: 1, y: 1 },
      { x: 2, y: 3 },
      { x: 3, y: 2 },
    ])
    expect(line).toMatchObject({
      slope: 0.5,
      intercept: 1,
      residualDeviation: expect.closeTo(Math.sqrt(1.5), 12),
      slopeError: expect.closeTo(Math.sqrt(0.75), 12),
      interceptError: expect.closeTo(Math.sqrt(1.5 * (1 / 3 + 2)), 12),
    })
    expect(line?.at(2)).toEqual({ y: 2, error: expect.closeTo(Math.sqrt(0.5), 12) })
    expect(line?.at(4)).toEqual({
      y: 3,
      error: expect.closeTo(Math.sqrt(1.5 * (1 / 3 + 2)), 12),
    })
  })
})

describe('least squares with several predictors', () => {
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

test('an interval reaches t standard errors to either side', () => {
  const { low, high } = interval95({ value: 2, error: 0.5 }, 10)
  expect(low).toBeCloseTo(2 - 0.5 * 2.228139, 6)
  expect(high).toBeCloseTo(2 + 0.5 * 2.228139, 6)
})
