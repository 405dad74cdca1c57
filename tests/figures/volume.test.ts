import { describe, expect, test } from 'vitest'
import { countedReps, restSeconds, type SetVolume, tonnageKg, topSet } from '../../src/figures/volume.ts'

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
