import { describe, expect, test } from 'vitest'
import { type Equipment, platesMoved, rackOf, usualPlates, warmUpLoads } from '../../src/figures/bar.ts'
import fc from '../fastCheck.ts'

const garage: Equipment = { bar: 20, collar: 0, plates: usualPlates.kg }
const loads = (...ramped: Parameters<typeof warmUpLoads>) => warmUpLoads(...ramped).map((step) => step.load)

describe('a warm-up', () => {
  test('goes from 40 kg up to 92.5 kg for three', () => {
    expect(warmUpLoads(92.5, 40, 3, garage)).toEqual([
      { load: 40, reps: 8, restSeconds: 60 },
      { load: 60, reps: 5, restSeconds: 60 },
      { load: 75, reps: 3, restSeconds: 60 },
      { load: 85, reps: 1, restSeconds: 90 },
    ])
  })
  test('has no single before a set of four', () => {
    expect(loads(92.5, 40, 4, garage)).toEqual([40, 60, 75])
  })
  test('has no single if the last jump is at most 10 %', () => {
    expect(loads(100, 90, 1, garage)).toEqual([90])
    expect(loads(100, 87.5, 1, garage)).toEqual([87.5, 90])
    const fine = {
      ...garage,
      plates: [40, 20, 10, 5, 4, 2, 1, 0.5, 0.4, 0.2, 0.1, 0.05].map((mass) => ({ mass, pairs: 2 })),
    }
    expect(loads(200, 180, 1, fine)).toEqual([180])
    expect(loads(200, 179.9, 1, fine)).toEqual([179.9, 182])
    expect(loads(200, 150, 1, fine).at(-1)).toBe(182)
  })
  test('takes the fewest steps of at most 20 %: 60 % of the way is three, a little more is four', () => {
    expect(loads(100, 40, 5, garage)).toEqual([40, 60, 80])
    expect(loads(100, 37.5, 5, garage)).toHaveLength(4)
    expect(loads(100, 39.9, 5, garage)).toHaveLength(4)
  })
  test('moves a step by up to 5 % to save plates', () => {
    // 46.67 of 60 to 100 at 140: 86.67 moves to 90 (25 + 10 from 20), 113.33 to 110 (25 + 20).
    expect(loads(140, 60, 4, garage)).toEqual([60, 90, 110])
  })
  test('moves a step by exactly 5 %, and by no more', () => {
    // From 40 (10 a side) to 60 (10 + 4 + 3 + 3) are three plates, to 55 (17.5) and 54.98 (17.49) two.
    const small = [10, 4, 3, 3].map((mass) => ({ mass, pairs: 1 }))
    const withOne = (mass: number) => ({
      ...garage,
      plates: [...small, { mass, pairs: 1 }, { mass: 30, pairs: 1 }],
    })
    expect(loads(100, 40, 5, withOne(17.5))[1]).toBe(55)
    expect(loads(100, 40, 5, withOne(17.49))[1]).toBe(60)
  })
  test('has no step over 22.5 % of the work from 60 to 130, such as one to 90', () => {
    expect(loads(130, 60, 5, garage)).toEqual([60, 80, 105])
  })
  test('takes the nearest possible load if none is within 5 %', () => {
    expect(
      loads(100, 40, 5, {
        ...garage,
        plates: [
          { mass: 10, pairs: 1 },
          { mass: 30, pairs: 1 },
        ],
      }),
    ).toEqual([40, 80])
  })
  test('starts with the possible load nearest to the start', () => {
    expect(loads(100, 41, 5, garage)[0]).toBe(40)
    expect(loads(100, 10, 5, garage)[0]).toBe(20)
  })
  test('has 8 repetitions below 50 %, 5 below 70 %, 3 below 85 %, else 1', () => {
    const plates = [{ mass: 2.5, pairs: 20 }]
    const repsAt = (start: number) => warmUpLoads(100, start, 5, { ...garage, plates })[0]?.reps
    expect([45, 50, 65, 70, 80, 85, 95].map(repsAt)).toEqual([8, 5, 5, 3, 3, 1, 1])
  })
  test('is empty if nothing below the work is possible', () => {
    expect(warmUpLoads(20, 10, 5, garage)).toEqual([])
    expect(warmUpLoads(15, 10, 3, garage)).toEqual([])
  })
  test('rises, stays below the work, and is possible, whatever the work', () => {
    const rack = rackOf(garage)
    fc.assert(
      fc.property(
        fc.integer({ min: 41, max: 600 }),
        fc.integer({ min: 10, max: 40 }),
        fc.integer({ min: 1, max: 10 }),
        (work, start, reps) => {
          const list = loads(work, start, reps, garage)
          expect(list).toEqual([...new Set(list)].sort((a, b) => a - b))
          for (const load of list) {
            expect(load).toBeLessThan(work)
            expect(rack.exactly(load)).not.toBeNull()
          }
        },
      ),
      { numRuns: 40 },
    )
  })
  test('works in pounds', () => {
    expect(loads(225, 95, 5, { bar: 45, collar: 0, plates: usualPlates.lb })).toEqual([95, 135, 185])
  })
})

describe('plates changed between two loads', () => {
  const rack = () => rackOf(garage)
  test.each([
    [60, 60, 0],
    [40, 60, 2],
    [60, 65, 1],
    [20, 92.5, 3],
    [92.5, 20, 3],
    [92.5, 72.5, 1],
  ])('from %s to %s are %s', (from, to, moved) => {
    expect(platesMoved(rack(), from, to)).toBe(moved)
  })
  test('are infinite to an impossible load', () => {
    expect(platesMoved(rack(), 60, 61)).toBe(Number.POSITIVE_INFINITY)
  })
})
