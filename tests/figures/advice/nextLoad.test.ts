import { describe, expect, test } from 'vitest'
import { type LastSet, mayOffer, nextLoad } from '../../../src/figures/advice.ts'
import { rackOf, usualPlates } from '../../../src/figures/bar.ts'

const rack = rackOf({ bar: 20, collar: 0, plates: usualPlates.kg })
const fine = { ...rack, atOrBelow: (load: number) => Math.floor(load * 10 + 1e-6) / 10 }
const after = (set: Partial<LastSet>) =>
  nextLoad({
    load: 100,
    rpe: null,
    failed: false,
    target: null,
    cluster: false,
    noHeavier: false,
    atOrBelow: fine.atOrBelow,
    ...set,
  })

describe('the next load after a set', () => {
  test.each([
    [6, { from: 8, to: 8 }, 105],
    [6.5, { from: 8, to: 8 }, 105],
    [9.5, { from: 8, to: 8 }, 94],
    [10, { from: 8, to: 8 }, 92],
    [10, { from: 7, to: 7 }, 90],
    [9.5, { from: 7, to: 8 }, 94],
    [5, { from: 7, to: 8 }, 105],
    [10, null, 92],
    [9.5, { from: 7, to: 7 }, 90],
  ])('RPE %s against %o is answered with %s of 100 kg', (rpe, target, load) => {
    expect(after({ rpe, target })?.load).toBe(load)
  })
  test.each([
    [7, { from: 8, to: 8 }],
    [9, { from: 8, to: 8 }],
    [7.5, { from: 7, to: 8 }],
    [9, null],
    [6, { from: 7, to: 8 }],
    [9, { from: 7, to: 8 }],
    [null, { from: 8, to: 8 }],
  ])('RPE %s against %o is within a point, or unknown: nothing', (rpe, target) => {
    expect(after({ rpe, target })).toBeNull()
  })
  test('is the share of the load and nothing more', () => {
    const atOrBelow = (load: number) => load
    expect(after({ rpe: 6, atOrBelow })?.load).toBeCloseTo(105, 6)
    expect(after({ rpe: 9.5, atOrBelow })?.load).toBeCloseTo(94, 6)
    expect(after({ failed: true, atOrBelow })?.load).toBeCloseTo(95, 6)
    expect(after({ rpe: 6, load: 40, atOrBelow: (load) => Math.min(load, 40.01) })?.load).toBe(40.01)
  })
  test('is rounded down to the plates', () => {
    expect(after({ rpe: 10, load: 92.5, atOrBelow: rack.atOrBelow })).toEqual({
      kind: 'lighter',
      load: 85,
      change: -0.08,
      words: ['usual advice:', 85, 'for the next set'],
    })
  })
  test('up is said only where the plates can make more', () => {
    expect(after({ rpe: 6, load: 40, atOrBelow: rack.atOrBelow })).toBeNull()
    expect(after({ rpe: 6, load: 50, atOrBelow: rack.atOrBelow })).toEqual({
      kind: 'heavier',
      load: 52.5,
      change: 0.05,
      words: ['usual advice:', 52.5, 'for the next set'],
    })
  })
  test('nothing lighter than the bar is advised', () => {
    expect(after({ rpe: 10, load: 20, atOrBelow: rack.atOrBelow })).toBeNull()
  })
  test('of a cluster set is said only against a written effort', () => {
    expect(after({ rpe: 10, cluster: true })).toBeNull()
    expect(after({ rpe: 10, cluster: true, target: { from: 8, to: 8 } })?.load).toBe(92)
  })
  test('after a failed repetition is 5 % less, or fewer repetitions, whatever the effort', () => {
    expect(after({ failed: true, rpe: 6, load: 100, atOrBelow: rack.atOrBelow })).toEqual({
      kind: 'failed',
      load: 95,
      change: -0.05,
      words: ['usual advice: 5 % less', '(', 95, ')', 'or fewer repetitions'],
    })
    expect(after({ failed: true, load: 20, atOrBelow: rack.atOrBelow })).toEqual({
      kind: 'failed',
      load: null,
      change: -0.05,
      words: ['usual advice: 5 % less', 'or fewer repetitions'],
    })
  })
  test('after an earlier failure, or pain, nothing more is said upward, but downward it is', () => {
    expect(after({ rpe: 6, noHeavier: true })).toBeNull()
    expect(after({ rpe: 10, noHeavier: true })?.load).toBe(92)
  })
  test('an RPE of 11 is refused', () => {
    expect(() => after({ rpe: 11 })).toThrow(new RangeError('an RPE must be from 1 to 10, and 11 arrived'))
  })
  test('a load of 0 is refused', () => {
    expect(() => after({ load: 0 })).toThrow(
      new RangeError('the load must be a number above 0, and 0 arrived'),
    )
  })
})

describe('what the next field offers', () => {
  test('is never the failed load, nor more', () => {
    expect([mayOffer(100, 100), mayOffer(102.5, 100), mayOffer(95, 100), mayOffer(100, null)]).toEqual([
      false,
      false,
      true,
      true,
    ])
  })
})
