import { describe, expect, test } from 'vitest'
import { cutCount, cutMeters, cutSeconds, fractionForRace } from '../../src/figures/load.ts'
import fc from '../fastCheck.ts'

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
