import { describe, expect, test } from 'vitest'
import { changeAfter, isExplosive, type LastSet } from '../../../src/figures/advice.ts'

/* 4 % of the load for a point of effort: Helms 2018, from memory. All limits: this program's own rule. What the change
 * becomes with the loads that can be made is in tests/recorder/advice.test.ts. */

const after = (set: Partial<LastSet>) =>
  changeAfter({ rpe: null, failed: false, target: null, noHeavier: false, pain: false, ...set })
const percentAfter = (set: Partial<LastSet>) => Math.round((after(set) ?? 0) * 1000) / 10

describe('the change of the load after a set', () => {
  test.each([
    ['a written 8 undercut by 2', 6, { from: 8, to: 8 }, 5],
    ['a written 8 undercut by 1.5', 6.5, { from: 8, to: 8 }, 5],
    ['a written 7-8 undercut by 2', 5, { from: 7, to: 8 }, 5],
    ['a written 8 exceeded by 1', 9, { from: 8, to: 8 }, -4],
    ['a written 7-8 exceeded by 1', 9, { from: 7, to: 8 }, -4],
    ['a written 8 exceeded by 1.5', 9.5, { from: 8, to: 8 }, -6],
    ['a written 8 exceeded by 2', 10, { from: 8, to: 8 }, -8],
    ['a written 7 exceeded by 3: at most 10 % less', 10, { from: 7, to: 7 }, -10],
    ['10 without a written effort, as if 8 were written', 10, null, -8],
  ])('%s: after RPE %s against %o it is %s %%', (_, rpe, target, percent) => {
    expect(percentAfter({ rpe, target })).toBe(percent)
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
    expect(percentAfter({ rpe: 10, noHeavier: true })).toBe(-8)
  })

  // A failed repetition is an effort of 10; a set done at 10 must not come down further than one that failed.
  test.each([
    ['9 written', { from: 9, to: 9 }, -5],
    ['8 written', { from: 8, to: 8 }, -8],
    ['7-8 written', { from: 7, to: 8 }, -8],
    ['7 written: at most 10 % less', { from: 7, to: 7 }, -10],
    ['none written', null, -5],
  ])('after a failed repetition with %s, against %o, is %s %%', (_, target, percent) => {
    for (const rpe of [null, 6, 10]) expect(percentAfter({ failed: true, rpe, target })).toBe(percent)
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
