import { describe, expect, test } from 'vitest'
import {
  goalPace,
  isAtGoalPace,
  lapMetersOfLane,
  lapSeconds,
  offGoal,
  shareAtGoalPace,
} from '../../src/figures/goal.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  isWithinValidity,
  oxygenDemand,
  riegelSeconds,
  sustainableShare,
} from '../../src/figures/race.ts'
import fc from '../fastCheck.ts'

describe('equal performances', () => {
  test('at 5 minutes more than the maximum is asked for', () => {
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
  test('a longer race takes longer', () => {
    const times = [1500, 3000, 5000, 10_000, 21_097.5, 42_195].map((meters) =>
      equalPerformanceSeconds(meters, 52),
    )
    expect([...times].sort((a, b) => a - b)).toEqual(times)
  })
  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('a race of %s m is refused', (meters) => {
    const error = new RangeError(`the distance must be a number above 0, and ${meters} arrived`)
    expect(() => equivalentMaximum(meters, 2400)).toThrow(error)
    expect(() => equalPerformanceSeconds(meters, 50)).toThrow(error)
    expect(() => riegelSeconds(meters, 2400, 5000)).toThrow(error)
  })
  test.each([0, Number.NaN])('a time of %s s is refused', (seconds) => {
    const error = new RangeError(`the time must be a number above 0, and ${seconds} arrived`)
    expect(() => equivalentMaximum(5000, seconds)).toThrow(error)
    expect(() => riegelSeconds(5000, seconds, 10_000)).toThrow(error)
    expect(() => sustainableShare(seconds)).toThrow(error)
  })
  test('standing still has no equivalent VO2max', () => {
    expect(() => equivalentMaximum(100, 3600)).toThrow(
      /^the equivalent VO2max must be a number above 0, and -/,
    )
    expect(() => oxygenDemand(0)).toThrow(new RangeError('the speed must be a number above 0, and 0 arrived'))
  })
  test.each([
    [0, 'the equivalent VO2max must be a number above 0, and 0 arrived'],
    [201, 'the equivalent VO2max must be at most 200, and 201 arrived'],
  ])('a value of %s is refused', (value, message) => {
    expect(() => equalPerformanceSeconds(5000, value)).toThrow(new RangeError(message))
  })
  test('a value of 200 is the last that is reckoned with', () => {
    expect(equalPerformanceSeconds(5000, 200)).toBeGreaterThan(200)
  })
  test('the values of a very slow and a very fast mile come back', () => {
    expect(equalPerformanceSeconds(1609.344, equivalentMaximum(1609.344, 3600))).toBeCloseTo(3600, 6)
    expect(equalPerformanceSeconds(100, equivalentMaximum(100, 9.58))).toBeCloseTo(9.58, 8)
  })
  test('Daniels and Gilbert hold from 3.5 min to 4 h, Riegel to 230 min', () => {
    expect([209, 210, 14_400, 14_401].map((time) => isWithinValidity('danielsGilbert', time))).toEqual([
      false,
      true,
      true,
      false,
    ])
    expect([209, 210, 13_800, 13_801].map((time) => isWithinValidity('riegel', time))).toEqual([
      false,
      true,
      true,
      false,
    ])
  })
})

describe('goal pace', () => {
  test('of 10 km in 39:30 is 237 s/km', () => {
    expect(goalPace(10_000, 2370)).toBe(237)
  })
  test('faster is negative', () => {
    expect(offGoal(218.33, 237)).toBeCloseTo(-18.67, 10)
  })
  test('within 2 % is at goal pace, the ends in', () => {
    expect([232.26, 241.74, 232.25, 241.75].map((pace) => isAtGoalPace(pace, 237))).toEqual([
      true,
      true,
      false,
      false,
    ])
  })
  test('the share is by distance', () => {
    const pieces = [
      { meters: 3000, secondsPerKm: 236 },
      { meters: 1000, secondsPerKm: 300 },
    ]
    expect(shareAtGoalPace(pieces, 237)).toBe(0.75)
  })
  test('of no running there is no share', () => {
    expect(shareAtGoalPace([], 237)).toBeNull()
  })
  test('a goal of 0 m is refused', () => {
    expect(() => goalPace(0, 2370)).toThrow(
      new RangeError('the distance must be a number above 0, and 0 arrived'),
    )
  })
})

describe('lanes', () => {
  test.each([0, 9, 1.5, Number.NaN])('lane %s is refused', (lane) => {
    expect(() => lapMetersOfLane(lane)).toThrow(
      new RangeError(`a lane is a whole number from 1 to 8, and ${lane} arrived`),
    )
  })
  test('lane 1 is 400 m exactly', () => {
    expect(lapMetersOfLane(1)).toBe(400)
  })
  test('each lane outside it is longer by the same', () => {
    expect(lapMetersOfLane(8) - lapMetersOfLane(2)).toBeCloseTo(6 * 2 * Math.PI * 1.22, 9)
  })
  test('a lap at 3:57/km takes 94.8 s in lane 1 and 107.37 s in lane 8', () => {
    expect(lapSeconds(237, 1)).toBeCloseTo(94.8, 9)
    expect(lapSeconds(237, 8)).toBeCloseTo(107.368, 3)
  })
})
