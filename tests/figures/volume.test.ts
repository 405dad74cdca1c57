import { describe, expect, test } from 'vitest'
import {
  countedReps,
  percentBasis,
  restSeconds,
  roundedPercentLoad,
  type SetVolume,
  tonnageKg,
  topSet,
} from '../../src/figures/volume.ts'
import { kilogramsOf } from '../../src/units/mass.ts'

const set = (more: Partial<SetVolume>): SetVolume => ({
  reps: 5,
  kg: 100,
  eachSide: false,
  ...more,
})

describe('tonnage', () => {
  test.each([
    ['5 x 100 kg', {}, 500],
    ['8 each side x 20 kg', { reps: 8, kg: 20, eachSide: true }, 320],
    ['6 x bodyweight', { reps: 6, kg: 0 }, 0],
    ['8 x bodyweight and 10 kg', { reps: 8, kg: 10 }, 80],
    ['8 x bodyweight less 20 kg of assistance', { reps: 8, kg: -20 }, 0],
    ['a hold with 40 kg', { reps: null, kg: 40 }, 0],
    ['12 x without a load', { reps: 12, kg: null }, 0],
    ['none done', { reps: 0 }, 0],
  ])('counts %s', (_, more, kg) => {
    expect(tonnageKg(set(more))).toBe(kg)
  })
  test('counts the repetitions of each side', () => {
    expect(countedReps({ reps: 10, eachSide: true })).toBe(20)
    expect(countedReps({ reps: null, eachSide: true })).toBe(0)
  })
})

describe('the top set', () => {
  const topSetIndex = (sets: { kg: number | null; reps: number | null }[]) => {
    const top = topSet(sets)
    return top === null ? null : sets.indexOf(top)
  }
  test('is the heaviest', () => {
    expect(
      topSetIndex([
        { kg: 80, reps: 8 },
        { kg: 100, reps: 3 },
        { kg: 90, reps: 5 },
      ]),
    ).toBe(1)
  })
  test('has the most repetitions of the heaviest, and is the earliest of those', () => {
    expect(
      topSetIndex([
        { kg: 100, reps: 2 },
        { kg: 100, reps: 3 },
        { kg: 100, reps: 3 },
      ]),
    ).toBe(1)
  })
  test('is the one with the least assistance among assisted sets', () => {
    expect(
      topSetIndex([
        { kg: -20, reps: 8 },
        { kg: -10, reps: 5 },
      ]),
    ).toBe(1)
  })
  test('has a load if another has none', () => {
    expect(
      topSetIndex([
        { kg: null, reps: 20 },
        { kg: -30, reps: 1 },
      ]),
    ).toBe(1)
    expect(
      topSetIndex([
        { kg: null, reps: 5 },
        { kg: null, reps: 8 },
      ]),
    ).toBe(1)
  })
  test('counts no repetitions for a timed set', () => {
    expect(
      topSetIndex([
        { kg: 40, reps: null },
        { kg: 40, reps: 1 },
      ]),
    ).toBe(1)
  })
  test('does not exist without sets', () => {
    expect(topSetIndex([])).toBeNull()
  })
})

describe('the rest of a set scheme', () => {
  test('is 620 s for 4 x (2+2) with 20 s within and 180 s between', () => {
    expect(restSeconds({ sets: 4, groupsPerSet: 2, pauseSeconds: 20, restSeconds: 180 })).toBe(620)
  })
  test('is 0 for one set of one group', () => {
    expect(restSeconds({ sets: 1, groupsPerSet: 1, pauseSeconds: 20, restSeconds: 180 })).toBe(0)
  })
})

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
    expect(roundedPercentLoad(kilogramsOf({ value: load, unit }), 100, unit)).toBe(rounded)
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
