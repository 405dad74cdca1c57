import { describe, expect, test } from 'vitest'
import {
  cutCount,
  cutMeters,
  cutSeconds,
  dayLoad,
  effortMinutes,
  fractionForRace,
  sessionLoad,
  weekLoad,
} from '../../src/figures/load.ts'
import fc from '../fastCheck.ts'

const known = (load: number) => ({ effortMinutes: load, known: true })

describe('session load', () => {
  test('multiplies the effort of a part by its minutes', () => {
    expect([effortMinutes(8, 62), effortMinutes(0, 30), effortMinutes(10, 0)]).toEqual([496, 0, 0])
  })
  test('adds the parts of a session, and is a minimum if one has no effort', () => {
    expect(sessionLoad([496, 336])).toEqual({ effortMinutes: 832, atLeast: false })
    expect(sessionLoad([210, null])).toEqual({ effortMinutes: 210, atLeast: true })
  })
  test('is unknown, not 0, for a session without a known part', () => {
    expect(sessionLoad([null, null])).toEqual({ effortMinutes: null, atLeast: true })
    expect(sessionLoad([])).toEqual({ effortMinutes: null, atLeast: false })
  })
  const session = (load: number | null, atLeast = false) => ({ effortMinutes: load, atLeast })
  test('adds the sessions of a day', () => {
    expect(dayLoad([session(300), session(200)])).toEqual(known(500))
    expect(dayLoad([])).toEqual(known(0))
  })
  test('is unknown for a day with an unknown session, or an unknown part of one', () => {
    expect(dayLoad([session(300), session(null)])).toEqual({ effortMinutes: 300, known: false })
    expect(dayLoad([session(210, true)])).toEqual({ effortMinutes: 210, known: false })
    expect(dayLoad([session(null)])).toEqual({ effortMinutes: 0, known: false })
  })
})

describe('a week', () => {
  test('is "at least" with an unknown day, without monotony and strain', () => {
    const days = [
      known(360),
      known(0),
      { effortMinutes: 100, known: false },
      known(0),
      known(0),
      known(0),
      known(0),
    ]
    expect(weekLoad(days)).toEqual({ effortMinutes: 460, atLeast: true, monotony: null, strain: null })
  })
  test('has no monotony if all of it is rest', () => {
    expect(weekLoad(Array(7).fill(known(0)))).toEqual({
      effortMinutes: 0,
      atLeast: false,
      monotony: null,
      strain: null,
    })
  })
  const weekOf = (...loads: number[]) => weekLoad([...loads, ...Array(7 - loads.length).fill(0)].map(known))
  test('has monotony mean / deviation, and sum x monotony', () => {
    const week = weekOf(700, 350, 350)
    // Mean 200; squares 500^2 + 2 x 150^2 + 4 x 200^2 = 455 000.
    expect(week.monotony).toBeCloseTo(200 / Math.sqrt(455_000 / 6), 12)
    expect(week.strain).toBeCloseTo(1400 * (week.monotony ?? 0), 12)
  })
  test('has no monotony with two days of training', () => {
    expect(weekOf(700, 700)).toMatchObject({ effortMinutes: 1400, monotony: null, strain: null })
  })
  test('has no monotony if its days are within 5 % of each other, and has one just above', () => {
    expect(weekOf(300, 300, 300, 300, 300, 300, 300).monotony).toBeNull()
    expect(weekOf(300, 310, 300, 310, 300, 310, 300).monotony).toBeNull()
    expect(weekOf(280, 320, 280, 320, 280, 320, 280).monotony).not.toBeNull()
  })
})

const mile = 1609.344

const cutDistance = (value: number, fraction: number, unit: 'km' | 'mi') => {
  const size = unit === 'km' ? 1000 : mile
  return Number((cutMeters(value * size, fraction, unit) / size).toFixed(9))
}

describe('cutting a day', () => {
  test.each([
    [5000, 10_000, Math.SQRT1_2],
    [10_000, 10_000, 1],
    [21_097.5, 10_000, 1],
    [1600, 10_000, 0.4],
    [400, 42_195, 0.4],
  ])('for a race of %s m with a goal of %s m uses the fraction %s', (race, goal, fraction) => {
    expect(fractionForRace(race, goal)).toBeCloseTo(fraction, 12)
  })
  test.each([
    [5000, 0.5, 'km', 2500],
    [5000, 0.4, 'km', 2000],
    [5000, 0.39, 'km', 2000],
    [4500, 0.5, 'km', 2500],
    [3000, 0.5, 'km', 1500],
    [2000, 0.87, 'km', 1700],
    [600, 0.5, 'km', 300],
    [100, 0.1, 'km', 100],
    [50, 0.5, 'km', 50],
    [2300, 1, 'km', 2300],
    [4460, 0.5, 'km', 2000],
    [500, 0.05, 'km', 100],
    [3140, 0.5, 'km', 1600],
    [2920, 0.5, 'km', 1500],
    [3980, 0.5, 'km', 2000],
    [8 * mile, 0.5, 'mi', 4 * mile],
    [9 * mile, 0.3, 'mi', 2.5 * mile],
    [1 * mile, 0.5, 'mi', 0.5 * mile],
    [1 * mile, 0.66, 'mi', 0.65 * mile],
    [0.03 * mile, 0.5, 'mi', 0.03 * mile],
  ] as const)('%s m x %s in %s is %s m', (meters, fraction, unit, cut) => {
    expect(cutMeters(meters, fraction, unit)).toBeCloseTo(cut, 6)
  })
  test.each([
    [1800, 0.5, 900],
    [1500, 0.5, 780],
    [1200, 0.5, 600],
    [600, 0.5, 300],
    [100, 0.5, 45],
    [20, 0.1, 15],
    [10, 0.5, 10],
    [1190, 0.5, 600],
    [1270, 0.5, 660],
    [1256, 0.5, 600],
    [74, 0.5, 30],
  ])('%s s x %s is %s s', (seconds, fraction, cut) => {
    expect(cutSeconds(seconds, fraction)).toBe(cut)
  })
  test.each([
    [6, 0.5, 3],
    [5, 0.5, 3],
    [10, 0.7, 7],
    [1, 0.1, 1],
    [6, 1, 6],
    [3, 0.4, 2],
    [5, 0.61, 4],
  ])('%s sets x %s are %s', (count, fraction, cut) => {
    expect(cutCount(count, fraction)).toBe(cut)
  })
  test('cuts a distance in its own unit, to digits that can be written', () => {
    expect([1.1, 1.3, 1.7, 2.3, 3, 0.7].map((km) => cutDistance(km, 0.9, 'km'))).toEqual([
      1, 1.2, 1.5, 2, 2.5, 0.6,
    ])
    expect([1.15, 0.3, 6].map((miles) => cutDistance(miles, 0.9, 'mi'))).toEqual([1.05, 0.25, 5.5])
    expect(cutDistance(0.3, 0.5, 'km')).toBe(0.2)
    expect(cutDistance(0.04, 0.5, 'km')).toBe(0.04)
  })
  test('never makes anything longer or zero', () => {
    const fraction = fc.double({ min: 0.01, max: 1, noNaN: true })
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60_000, noNaN: true }),
        fraction,
        fc.constantFrom('km' as const, 'mi' as const),
        (amount, share, unit) => {
          for (const cut of [cutMeters(amount, share, unit), cutSeconds(amount, share)]) {
            expect(cut).toBeGreaterThan(0)
            expect(cut).toBeLessThanOrEqual(amount)
          }
        },
      ),
    )
  })
})
