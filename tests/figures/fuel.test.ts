import { describe, expect, test } from 'vitest'
import {
  atwaterKcal,
  carbsAfterAnHour,
  carbsBefore,
  isTotalOff,
  printedKcal,
  proteinOfMeal,
  runningKcal,
} from '../../src/figures/fuel.ts'

const meal = (
  carbsG: number | null,
  proteinG: number | null,
  fatG: number | null,
  kcal: number | null = null,
) => ({
  carbsG,
  proteinG,
  fatG,
  kcal,
})

describe('energy of a meal', () => {
  test('is computed from the known parts', () => {
    expect(atwaterKcal(meal(70, 18, null))).toBe(352)
  })
  test('is unknown, not 0, if no part is known', () => {
    expect(atwaterKcal(meal(null, null, null))).toBeNull()
    expect(atwaterKcal(meal(0, null, null))).toBe(0)
  })
  test.each([
    [440, false],
    [440.03, true],
    [441, true],
    [360, false],
    [359.97, true],
    [359, true],
    [400, false],
  ])('a total of %s for 400 kcal is more than 10 %% off: %s', (kcal, off) => {
    expect(isTotalOff(meal(50, 27.5, 10, kcal))).toBe(off)
  })
  test('questions only too small a total if a part is unknown', () => {
    expect(isTotalOff(meal(70, 18, null, 900))).toBe(false)
    expect(isTotalOff(meal(70, 18, null, 316))).toBe(true)
    expect(isTotalOff(meal(70, 18, null, 317))).toBe(false)
  })
  test('questions nothing without parts to compare', () => {
    expect([isTotalOff(meal(null, null, null, 500)), isTotalOff(meal(10, 10, 10))]).toEqual([false, false])
  })
})

describe('energy of running', () => {
  test('is 740 to 925 kcal for 68 kg over 13.6 km', () => {
    expect(runningKcal(68, 13_600)).toEqual({ from: expect.closeTo(739.84, 9), to: expect.closeTo(924.8, 9) })
  })
  test('is printed to 50 kcal', () => {
    expect(printedKcal(runningKcal(68, 13_600))).toEqual({ from: 750, to: 900 })
    expect(printedKcal({ from: 2524, to: 2526 })).toEqual({ from: 2500, to: 2550 })
  })
  test('is 0 without running', () => {
    expect(runningKcal(68, 0)).toEqual({ from: 0, to: 0 })
  })
})

describe('ranges shown beside a meal', () => {
  const [hour, long] = [3600, 5400]
  test('are 68 to 272 g for 68 kg, 1 to 4 hours before more than an hour', () => {
    expect(carbsBefore(68, 2 * hour, long)).toBe(136)
    expect(carbsBefore(68, 1 * hour, long)).not.toBeNull()
    expect(carbsBefore(68, 4 * hour, long)).not.toBeNull()
  })
  test('are not shown nearer, earlier, or before an hour or less', () => {
    expect([
      carbsBefore(68, hour - 1, long),
      carbsBefore(68, 4 * hour + 1, long),
      carbsBefore(68, 2 * hour, hour),
    ]).toEqual([null, null, null])
    expect(carbsBefore(68, 2 * hour, hour + 1)).not.toBeNull()
  })
  test('are 68 to 81.6 g an hour if the next session is within 8 hours', () => {
    expect(carbsAfterAnHour(68, 8 * hour)).toEqual({ from: 68, to: expect.closeTo(81.6, 9) })
    expect(carbsAfterAnHour(68, 8 * hour + 1)).toBeNull()
  })
  test('are 17 g of protein a meal for 68 kg, or 20 to 40', () => {
    expect(proteinOfMeal(68)).toEqual({ byMass: 17, usual: { from: 20, to: 40 } })
  })
})
