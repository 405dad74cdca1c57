import { describe, expect, test } from 'vitest'
import { isExplosive, type LastSet, loadAdviceWords, nextLoad } from '../../../src/figures/advice.ts'
import { rackOf, usualPlates } from '../../../src/figures/bar.ts'

/* 4 % of the load for a point of effort: Helms 2018, from memory. All limits: this program's own rule. Expected
 * loads are computed by hand. */

const plates = rackOf({ bar: 20, collar: 0, plates: usualPlates.kg })
/** Every tenth of a kilogram is possible. */
const fine: LastSet['rack'] = {
  nearest: (load) => Math.round(load * 10) / 10,
  atOrAbove: (load) => Math.ceil(load * 10 - 1e-6) / 10,
}
const after = (set: Partial<LastSet>) =>
  nextLoad({
    load: 100,
    reps: 5,
    rpe: null,
    failed: false,
    target: null,
    noHeavier: false,
    pain: false,
    rack: fine,
    ...set,
  })
const loadOf = (advice: ReturnType<typeof nextLoad>) => (advice && 'load' in advice ? advice.load : null)

describe('the next load after a set', () => {
  test.each([
    ['a written 8 undercut by 2', 6, { from: 8, to: 8 }, 105],
    ['a written 8 undercut by 1.5', 6.5, { from: 8, to: 8 }, 105],
    ['a written 7-8 undercut by 2', 5, { from: 7, to: 8 }, 105],
    ['a written 8 exceeded by 1', 9, { from: 8, to: 8 }, 96],
    ['a written 7-8 exceeded by 1', 9, { from: 7, to: 8 }, 96],
    ['a written 8 exceeded by 1.5', 9.5, { from: 8, to: 8 }, 94],
    ['a written 8 exceeded by 2', 10, { from: 8, to: 8 }, 92],
    ['a written 7 exceeded by 3: at most 10 % less', 10, { from: 7, to: 7 }, 90],
    ['10 without a written effort, as if 8 were written', 10, null, 92],
  ])('%s: after RPE %s against %o it is %s of 100 kg', (_, rpe, target, load) => {
    expect(loadOf(after({ rpe, target }))).toBe(load)
  })

  test.each([
    ['a written 8 undercut by 1', 7, { from: 8, to: 8 }],
    ['inside the written range', 7.5, { from: 7, to: 8 }],
    ['exceeded by half a point', 8.5, { from: 8, to: 8 }],
    ['9.5 without a written effort', 9.5, null],
    ['an easy first set without a written effort', 6, null],
    ['no effort typed', null, { from: 8, to: 8 }],
  ])('%s: gives no advice', (_, rpe, target) => {
    expect(after({ rpe, target })).toBeNull()
  })

  test('never goes up after pain, a failed repetition, on sets by the clock, light loads and explosive lifts', () => {
    expect(after({ rpe: 5, target: { from: 8, to: 8 }, noHeavier: true })).toBeNull()
    expect(loadOf(after({ rpe: 10, noHeavier: true }))).toBe(92)
  })

  test('is the nearest possible load: 42.5 kg at RPE 10 gives 40 kg, not 37.5', () => {
    // 8 % less is 39.1 kg; the plates make 37.5 and 40.
    expect(after({ load: 42.5, rpe: 10, rack: plates })).toEqual({ kind: 'lighter', load: 40 })
  })

  test('is the next load below if the nearest is the same again', () => {
    // 4 % less than 50 kg is 48 kg: 47.5. Of 30 kg it is 28.8 kg, nearest to 30: the next below is 27.5.
    expect(loadOf(after({ load: 50, rpe: 9, target: { from: 8, to: 8 }, rack: plates }))).toBe(47.5)
    expect(loadOf(after({ load: 30, rpe: 9, target: { from: 8, to: 8 }, rack: plates }))).toBe(27.5)
  })

  test('is the lightest within 10 % if the nearest is further away', () => {
    // 10 % less than 70 kg is 63 kg, nearest to 62.5; 65 is 7 % less. After a failure at RPE 7 the same.
    expect(loadOf(after({ load: 70, rpe: 10, target: { from: 7, to: 7 }, rack: plates }))).toBe(65)
    expect(loadOf(after({ load: 70, failed: true, target: { from: 7, to: 7 }, rack: plates }))).toBe(65)
  })

  test('stays the same with 2 reps fewer for an 8 kg dumbbell with the next at 5 kg', () => {
    const rack: LastSet['rack'] = { nearest: () => 8, atOrAbove: (load) => (load > 5 ? 8 : 5) }
    const advice = after({ load: 8, rpe: 10, rack })
    expect(advice).toEqual({ kind: 'fewer', repetitions: 2 })
    expect(advice && loadAdviceWords(advice, 8, String)).toBe('same load, 2 reps fewer')
  })

  test('has one repetition fewer for a double at the empty bar, and no change for a single', () => {
    const words = (reps: number) => {
      const advice = after({ load: 20, reps, rpe: 10, rack: plates })
      return advice && loadAdviceWords(advice, 20, String)
    }
    expect([words(2), words(1)]).toEqual(['same load, 1 rep fewer', 'rest longer, or stop here'])
  })

  test('goes up only if a load within 10 % is possible', () => {
    const target = { from: 8, to: 8 }
    expect(after({ rpe: 6, target, load: 50, rack: plates })).toEqual({
      kind: 'heavier',
      load: 52.5,
    })
    expect(after({ rpe: 6, target, load: 20, rack: plates })).toBeNull()
    const coarse: LastSet['rack'] = { nearest: () => 10, atOrAbove: () => 8 }
    expect(after({ rpe: 6, target, load: 8, rack: coarse })).toBeNull()
  })

  test('is 5 % less in words after a failed repetition, whatever the effort', () => {
    const advice = after({ failed: true, rpe: 6, rack: plates })
    expect(advice).toEqual({ kind: 'failed', load: 95 })
    expect(advice && loadAdviceWords(advice, 100, (load) => `${load} kg`)).toBe('5 % less is 95 kg')
  })

  test('after a failed repetition says by how much the load that can be made is lighter', () => {
    // 5 % less than 72.5 kg is 68.9 kg; the plates make 70, and 2.5 of 72.5 are 3.4 %. 22.5 of 25 is 10 % less.
    const words = (load: number) => {
      const advice = after({ failed: true, load, rack: plates })
      return advice && loadAdviceWords(advice, load, String)
    }
    expect([words(72.5), words(25)]).toEqual(['3 % less is 70', '10 % less is 22.5'])
  })

  // A failed repetition is an effort of 10; a set done at 10 must not come down further than one that failed.
  test.each([
    ['9 written', { from: 9, to: 9 }, 95],
    ['8 written', { from: 8, to: 8 }, 92],
    ['7-8 written', { from: 7, to: 8 }, 92],
    ['7 written: at most 10 % less', { from: 7, to: 7 }, 90],
    ['none written', null, 95],
  ])('after a failed repetition with %s, against %o, is %s of 100 kg', (_, target, load) => {
    expect(loadOf(after({ failed: true, target }))).toBe(load)
    expect(loadOf(after({ failed: true, rpe: 10, target }))).toBe(load)
  })

  test('is not computed after a failed repetition with the shoulder hurting', () => {
    expect(after({ failed: true, pain: true, noHeavier: true })).toBeNull()
  })
})

test.each([
  ['power clean', true],
  ['clean & jerk', true],
  ['snatch', true],
  ['box jumps', true],
  ['kettlebell swing', true],
  ['push press', true],
  ['medicine ball throw', true],
  ['bench press', false],
  ['deadlift', false],
  ['jumper row', false],
])('%s explosive: %s', (name, explosive) => {
  expect(isExplosive(name)).toBe(explosive)
})
