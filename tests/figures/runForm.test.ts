import { describe, expect, test } from 'vitest'
import {
  criticalSpeed,
  differenceOfMeans,
  heartRateDrift,
  meanWithInterval,
  ownExponent,
} from '../../src/figures/runForm.ts'

// This program's own rule.
describe('the drift of the heart rate', () => {
  const split = (meters: number, minutes: number, heartRate: number) => ({
    meters,
    seconds: 60 * minutes,
    heartRate,
  })

  test('compares the metres a beat of the halves', () => {
    // 2800 and 2940 beats for 4 km each.
    expect(heartRateDrift([split(4000, 20, 140), split(4000, 20, 147)])).toBeCloseTo(
      100 * (2800 / 2940 - 1),
      9,
    )
  })
  test('shares a split astride the middle by distance', () => {
    // 2100, 1500 and 2400 beats, of which 750 are in either half.
    const three = [split(3000, 15, 140), split(2000, 10, 150), split(3000, 15, 160)]
    expect(heartRateDrift(three)).toBeCloseTo(100 * (2850 / 3150 - 1), 9)
  })
  test('does not exist for one split', () => {
    expect(heartRateDrift([split(8000, 40, 140)])).toBeNull()
  })
})

describe('critical speed', () => {
  const exact = [150, 300, 600].map((seconds) => ({ meters: 4.5 * seconds + 180, seconds }))

  test('has the slope and intercept of intervals on a line', () => {
    const found = criticalSpeed(exact)
    expect(found?.metersPerSecond).toBeCloseTo(4.5, 12)
    expect(found?.meters).toBeCloseTo(180, 9)
    expect(found?.count).toBe(3)
  })

  test('has no figure where longer efforts were faster, or covered less', () => {
    const over = (...meters: number[]) =>
      criticalSpeed([150, 300, 600].map((seconds, index) => ({ meters: meters[index] as number, seconds })))
    expect([over(600, 1500, 3300), over(2000, 1500, 1000)]).toEqual([null, null])
  })

  test('has no figure for two intervals, one longer than 15 min, or one below 2 min', () => {
    expect(criticalSpeed(exact.slice(0, 2))).toBeNull()
    expect(criticalSpeed([...exact.slice(0, 2), { meters: 4400, seconds: 901 }])).toBeNull()
    expect(criticalSpeed([...exact.slice(0, 2), { meters: 600, seconds: 119 }])).toBeNull()
  })
})

// Riegel 1981; the shortest stretch is this program's own rule.
test('the exponent of races over lengths at least a tenth apart is the slope of their logarithms', () => {
  const exponent = (...races: [meters: number, seconds: number][]) =>
    ownExponent(races.map(([meters, seconds]) => ({ meters, seconds })))
  expect(exponent([5000, 1200], [10_000, 2520], [10_000, 2600])).toBeCloseTo(Math.log(2.1) / Math.log(2), 12)
  expect(exponent([3000, 600], [3300, 666])).toBeCloseTo(Math.log(1.11) / Math.log(1.1), 12)
  expect([exponent([3000, 600], [3299, 666]), exponent([5000, 1200]), exponent()]).toEqual([null, null, null])
})

test('a mean has a 95 % interval', () => {
  // By hand: mean 3, deviation 1.581139, t(4) 2.776445: 2.776445 * 1.581139 / sqrt 5 = 1.963243.
  const found = meanWithInterval([1, 2, 3, 4, 5])
  expect(found?.mean).toBe(3)
  expect(found?.low).toBeCloseTo(3 - 1.963243, 5)
  expect(found?.high).toBeCloseTo(3 + 1.963243, 5)
  expect(meanWithInterval([1])).toBeNull()
})

// This program's own rule.
test('the difference of two means is unknown with fewer than two values, or without any spread', () => {
  expect(differenceOfMeans([1], [1, 2])).toBeNull()
  expect(differenceOfMeans([3, 3], [2, 2])).toBeNull()
})
