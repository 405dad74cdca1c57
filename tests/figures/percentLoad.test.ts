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
  ] as const)('rounds %s %s to %s, ties down', (load, unit, rounded) => {
    expect(roundedLoad(load, unit)).toBe(rounded)
  })
  test('is 87.5 kg for 80 % of 110 kg', () => {
    expect(roundedPercentLoad(110, 80, 'kg')).toBe(87.5)
    expect(roundedPercentLoad(102.6, 50, 'kg')).toBe(52.5)
  })
  test('stays down at a tie that floating point would tip: 82.5 % of 95 kg', () => {
    expect(roundedPercentLoad(77.5 / 0.775, 73.75, 'kg')).toBe(72.5)
  })
  test('is 180 lb for 80 % of 225 lb, stored in kilograms', () => {
    expect(roundedPercentLoad(225 * 0.45359237, 80, 'lb')).toBe(180)
  })
})

describe('the base of a percentage', () => {
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
  test('from two is weighted 3 : 2, from one is that one', () => {
    expect(percentBasis([estimate(110, 3), estimate(100, 42)])?.kg).toBeCloseTo(106, 9)
    expect(percentBasis([estimate(110, 3)])?.kg).toBe(110)
  })
  test('is never an "at least" estimate', () => {
    expect(percentBasis([estimate(120, 3, true), estimate(100, 5)])?.kg).toBe(100)
  })
  test('is never from a later day', () => {
    expect(percentBasis([estimate(120, -1)])).toBeNull()
  })
  test('may be from today', () => {
    expect(percentBasis([estimate(100, 0)])?.kg).toBe(100)
  })
})
