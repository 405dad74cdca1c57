import { describe, expect, test } from 'vitest'
import {
  cardSplits,
  equalPerformanceSeconds,
  equalTime,
  equivalentMaximum,
  isAtGoalPace,
  lapMetersOfLane,
  lapSeconds,
  shareAtGoalPace,
  sustainableShare,
} from '../../src/figures/race.ts'
import { secondsPerKm } from '../../src/figures/splits.ts'
import fc from '../fastCheck.ts'

describe('equal performances', () => {
  test('need more than the maximum at 5 minutes', () => {
    expect(sustainableShare(300)).toBeCloseTo(1.0915, 4)
  })
  test('over the same distance take the same time', () => {
    const race = fc.record({
      meters: fc.double({ min: 800, max: 50_000, noNaN: true }),
      speed: fc.double({ min: 2, max: 7, noNaN: true }),
    })
    fc.assert(
      fc.property(race, ({ meters, speed }) => {
        const seconds = meters / speed
        const back = equalPerformanceSeconds(meters, equivalentMaximum(meters, seconds))
        expect(Math.abs(back - seconds)).toBeLessThan(1e-6)
      }),
    )
  })
  test('take longer over a longer race', () => {
    const times = [1500, 3000, 5000, 10_000, 21_097.5, 42_195].map((meters) =>
      equalPerformanceSeconds(meters, 52),
    )
    expect([...times].sort((a, b) => a - b)).toEqual(times)
  })
  test('do not exist for a walk of 100 m in an hour', () => {
    expect(() => equalPerformanceSeconds(5000, equivalentMaximum(100, 3600))).toThrow(RangeError)
  })
  test.each([0, 201])('refuse a value of %s', (value) => {
    const message = `the equivalent VO2max must be above 0 and at most 200, got ${value}`
    expect(() => equalPerformanceSeconds(5000, value)).toThrow(new RangeError(message))
  })
  test('accept values up to 200', () => {
    expect(equalPerformanceSeconds(5000, 200)).toBeGreaterThan(200)
  })
  test('return the values of a very slow and a very fast mile', () => {
    expect(equalPerformanceSeconds(1609.344, equivalentMaximum(1609.344, 3600))).toBeCloseTo(3600, 6)
    expect(equalPerformanceSeconds(100, equivalentMaximum(100, 9.58))).toBeCloseTo(9.58, 8)
  })
  test('hold from 3.5 min to 4 h by Daniels and Gilbert, to 230 min by Riegel', () => {
    // Over the same distance the time stays the same.
    const holds = (method: 'danielsGilbert' | 'riegel', time: number) =>
      equalTime(method, time * 4, time, time * 4).holds
    expect([209, 211, 14_399, 14_401].map((time) => holds('danielsGilbert', time))).toEqual([
      false,
      true,
      true,
      false,
    ])
    expect([209, 211, 13_799, 13_801].map((time) => holds('riegel', time))).toEqual([
      false,
      true,
      true,
      false,
    ])
  })
})

describe('goal pace', () => {
  test('is 237 s/km for 10 km in 39:30', () => {
    expect(secondsPerKm(10_000, 2370)).toBe(237)
  })
  test('includes paces within 2 %, the ends included', () => {
    expect([232.26, 241.74, 232.25, 241.75].map((pace) => isAtGoalPace(pace, 237))).toEqual([
      true,
      true,
      false,
      false,
    ])
  })
  test('has a share by distance', () => {
    const intervals = [
      { meters: 3000, secondsPerKm: 236 },
      { meters: 1000, secondsPerKm: 300 },
    ]
    expect(shareAtGoalPace(intervals, 237)).toBe(0.75)
  })
  test('has no share without running', () => {
    expect(shareAtGoalPace([], 237)).toBeNull()
  })
})

describe('lanes', () => {
  test('are exactly 400 m in lane 1', () => {
    expect(lapMetersOfLane(1)).toBe(400)
  })
  test('are each longer by the same amount', () => {
    expect(lapMetersOfLane(8) - lapMetersOfLane(2)).toBeCloseTo(6 * 2 * Math.PI * 1.22, 9)
  })
  test('take 94.8 s for a lap at 3:57/km in lane 1 and 107.37 s in lane 8', () => {
    expect(lapSeconds(237, 1)).toBeCloseTo(94.8, 9)
    expect(lapSeconds(237, 8)).toBeCloseTo(107.368, 3)
  })
})

describe('the splits of a race card', () => {
  // Re-evaluation: 39:30 is 2370 s, 237 s for each of ten kilometres.
  test('are ten of 3:57 for 10 km in 39:30', () => {
    const splits = cardSplits(10_000, 2370, 1000, 0)
    expect(splits).toHaveLength(10)
    for (const [index, split] of splits.entries()) {
      expect(split.seconds).toBeCloseTo(237, 9)
      expect(split.runningSeconds).toBeCloseTo(237 * (index + 1), 9)
    }
  })
  test('make the second half 1 % faster than the first with 1 %, in the same time', () => {
    const splits = cardSplits(10_000, 2370, 5000, 1)
    const [first, second] = splits.map(({ seconds }) => seconds)
    expect((second ?? 0) / (first ?? 1)).toBeCloseTo(0.99, 12)
    expect(splits.at(-1)?.runningSeconds).toBeCloseTo(2370, 9)
  })
  test('end with one of 195 m in a marathon', () => {
    const splits = cardSplits(42_195, 4 * 3600, 1000, 0)
    expect(splits).toHaveLength(43)
    expect(splits.at(-1)).toMatchObject({
      meters: 42_195,
      seconds: expect.closeTo((195 / 42_195) * 14_400, 9),
    })
  })
})
