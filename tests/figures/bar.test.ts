import { describe, expect, test } from 'vitest'
import {
  type Equipment,
  loadBar,
  platesMoved,
  rackOf,
  usualPlates,
  warmUpLoads,
} from '../../src/figures/bar.ts'
import fc from '../fastCheck.ts'

const garage: Equipment = { bar: 20, collar: 0, plates: usualPlates.kg }
const pounds: Equipment = { bar: 45, collar: 0, plates: usualPlates.lb }

describe('what goes on the bar', () => {
  test('for 92.5 kg is 25 + 10 + 1.25 a side', () => {
    expect(loadBar(92.5, garage)).toEqual({
      exact: { load: 92.5, side: [25, 10, 1.25] },
      below: null,
      above: null,
    })
  })
  test('is 20 + 20 for 100 kg with one pair of 25 and two of 20, where largest first would fail', () => {
    const plates = [
      { mass: 25, pairs: 1 },
      { mass: 20, pairs: 2 },
    ]
    expect(loadBar(100, { ...garage, plates }).exact?.side).toEqual([20, 20])
  })
  test('is the way with the heaviest plates among those with equally many', () => {
    expect(loadBar(80, garage).exact?.side).toEqual([25, 5])
  })
  test('is nothing for the empty bar', () => {
    expect(loadBar(20, garage).exact).toEqual({ load: 20, side: [] })
  })
  test('is the nearest load below and above if the load is impossible', () => {
    expect(loadBar(93, garage)).toEqual({
      exact: null,
      below: { load: 92.5, side: [25, 10, 1.25] },
      above: { load: 95, side: [25, 10, 2.5] },
    })
  })
  test('is only above for a load below the bar, and only below for one over all plates', () => {
    expect(loadBar(15, garage)).toEqual({ exact: null, below: null, above: { load: 20, side: [] } })
    expect(loadBar(700, garage)).toMatchObject({ exact: null, below: { load: 650 }, above: null })
  })
  test('includes collars', () => {
    expect(loadBar(97.5, { ...garage, collar: 2.5 }).exact?.side).toEqual([25, 10, 1.25])
  })
  test('for 225 lb is 45 + 45 a side', () => {
    expect(loadBar(225, pounds).exact?.side).toEqual([45, 45])
  })
  test('does not drift with small plates: 0.1 + 0.2 is 0.3', () => {
    const plates = [
      { mass: 0.1, pairs: 1 },
      { mass: 0.2, pairs: 1 },
    ]
    expect(loadBar(20.6, { ...garage, plates }).exact?.side).toEqual([0.2, 0.1])
  })
  test('cannot be an odd thousandth, since plates come in pairs', () => {
    expect(loadBar(20.001, garage)).toMatchObject({ exact: null, below: { load: 20 }, above: { load: 22.5 } })
  })
  test('adds up plates of the same mass that are listed twice', () => {
    const plates = [
      { mass: 10, pairs: 1 },
      { mass: 10, pairs: 1 },
    ]
    expect(loadBar(60, { ...garage, plates }).exact?.side).toEqual([10, 10])
  })
  test('leaves out a mass without a pair', () => {
    const plates = [
      { mass: 20, pairs: 0 },
      { mass: 10, pairs: 2 },
    ]
    expect(loadBar(60, { ...garage, plates }).exact?.side).toEqual([10, 10])
  })

  test('makes the load, and no way has fewer plates', () => {
    const stock = fc.array(
      fc.record({ mass: fc.integer({ min: 1, max: 8 }), pairs: fc.integer({ min: 0, max: 3 }) }),
      { maxLength: 4 },
    )
    fc.assert(
      fc.property(stock, fc.integer({ min: 20, max: 80 }), (plates, load) => {
        const { exact } = loadBar(load, { bar: 20, collar: 0, plates })
        const fewest = fewestByTrying((load - 20) / 2, plates)
        expect(exact?.side.length ?? Number.POSITIVE_INFINITY).toBe(fewest)
        if (exact !== null) expect(exact.side.reduce((sum, mass) => sum + mass, 0)).toBe((load - 20) / 2)
      }),
    )
  })

  test.each([
    [{ plates: [{ mass: 0.0001, pairs: 1 }] }, 'a plate must be at least 0.001, got 0.0001'],
    [
      { plates: [0.001, 1.017, 2.033].map((mass) => ({ mass, pairs: 1000 })) },
      'these plates make more than 20000 loads: give fewer pairs or fewer different masses',
    ],
  ])('%o is refused', (wrong, message) => {
    expect(() => loadBar(100, { ...garage, ...wrong })).toThrow(new RangeError(message))
  })
})

/** Every way to take plates, tried one after the other. */
function fewestByTrying(side: number, plates: readonly { mass: number; pairs: number }[]): number {
  if (side === 0) return 0
  const [plate, ...rest] = plates
  if (plate === undefined || side < 0) return Number.POSITIVE_INFINITY
  const tries = Array.from(
    { length: plate.pairs + 1 },
    (_, n) => n + fewestByTrying(side - n * plate.mass, rest),
  )
  return Math.min(...tries)
}

describe('all loads of a bar', () => {
  const rack = () => rackOf(garage)
  test('go from the empty bar up in steps of the smallest pair', () => {
    expect(rack().loads.slice(0, 4)).toEqual([20, 22.5, 25, 27.5])
    expect(rack().loads.at(-1)).toBe(650)
  })
  test('go up to 500 kg a side, however many plates there are', () => {
    const plates = usualPlates.kg.map(({ mass }) => ({ mass, pairs: 99 }))
    expect(rackOf({ ...garage, plates }).loads.slice(-2)).toEqual([1017.5, 1020])
  })
  test('give the lower of two equally near ones', () => {
    expect([91.25, 91.26, 91.24, 5, 900].map(rack().nearest)).toEqual([90, 92.5, 90, 20, 650])
  })
  test('give the nearest at or below, and at or above', () => {
    expect([92.5, 94.9, 19, 900].map(rack().atOrBelow)).toEqual([92.5, 92.5, null, 650])
    expect([92.5, 92.6, 19, 900].map(rack().atOrAbove)).toEqual([92.5, 95, 20, null])
  })
  test('use four pairs of each usual plate', () => {
    expect(new Set([...usualPlates.kg, ...usualPlates.lb].map((plate) => plate.pairs))).toEqual(new Set([4]))
    expect(usualPlates.lb.map((plate) => plate.mass)).toEqual([45, 35, 25, 10, 5, 2.5])
  })
})

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
