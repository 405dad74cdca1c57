import { describe, expect, test } from 'vitest'
import { percentBasis, roundedLoad, roundedPercentLoad } from '../../src/figures/volume.ts'

describe('a load by percentage', () => {
  test.each([
    [101.24, 'kg', 100],
    [101.25, 'kg', 100],
    [101.26, 'kg', 102.5],
    [102.5, 'kg', 102.5],
    [0.4, 'kg', 2.5],
    [182.5, 'lb', 180],
    [182.6, 'lb', 185],
    [1, 'lb', 5],
  ] as const)('%s %s is loaded as %s, ties down', (load, unit, rounded) => {
    expect(roundedLoad(load, unit)).toBe(rounded)
  })
  test('80 % of 110 kg is 87.5 kg', () => {
    expect(roundedPercentLoad(110, 80, 'kg')).toBe(87.5)
    expect(roundedPercentLoad(102.6, 50, 'kg')).toBe(52.5)
  })
  test('a tie that floating point would tip stays down: 82.5 % of 95 kg', () => {
    expect(roundedPercentLoad(77.5 / 0.775, 73.75, 'kg')).toBe(72.5)
  })
  test('80 % of 225 lb, kept in kilograms, is 180 lb', () => {
    expect(roundedPercentLoad(225 * 0.45359237, 80, 'lb')).toBe(180)
  })
  test.each([0, -5, Number.NaN])('%s percent is refused', (percent) => {
    expect(() => roundedPercentLoad(110, percent, 'kg')).toThrow(
      new RangeError(`the percentage must be a number above 0, and ${percent} arrived`),
    )
  })
})

describe('what a percentage is of', () => {
  const estimate = (kg: number, daysAgo: number, atLeast = false) => ({ kg, daysAgo, atLeast })
  test('is the mean of the last three of 42 days, weighted 3 : 2 : 1 from the newest', () => {
    const basis = percentBasis([
      estimate(90, 40),
      estimate(100, 30),
      estimate(110, 3),
      estimate(104, 20),
      estimate(300, 43),
    ])
    // (3 x 110 + 2 x 104 + 100) / 6
    expect(basis?.kg).toBeCloseTo(638 / 6, 9)
    expect(basis?.from.map(({ daysAgo }) => daysAgo)).toEqual([3, 20, 30])
  })
  test('of two is weighted 3 : 2, of one is that one', () => {
    expect(percentBasis([estimate(110, 3), estimate(100, 42)])?.kg).toBeCloseTo(106, 9)
    expect(percentBasis([estimate(110, 3)])?.kg).toBe(110)
  })
  test('is never one that is "at least"', () => {
    expect(percentBasis([estimate(120, 3, true), estimate(100, 5)])?.kg).toBe(100)
  })
  test('is never one of a later day', () => {
    expect(percentBasis([estimate(120, -1)])).toBeNull()
  })
  test("is today's too", () => {
    expect(percentBasis([estimate(100, 0)])?.kg).toBe(100)
  })
})
