import { describe, expect, test } from 'vitest'
import { type Equipment, loadBar, rackOf, usualPlates } from '../../src/figures/bar.ts'
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
