import { describe, expect, test } from 'vitest'
import { usualPlates } from '../../../src/figures/bar.ts'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* The expected lines are computed by hand from the rules in the entries; plates as in the samples'
 * garage, so loads are 2.5 kg apart. */

const equipment = { bar: 20, collar: 0, plates: usualPlates.kg }

describe('the next load, worked out', () => {
  const { work } = catalogue['next-load']

  test('changes without a prescribed effort only from 10', () => {
    // 4 % x (8 - 10) = - 8 %: 85.1, and 85 is the nearest load.
    expect(work({ load: 92.5, rpe: 10, target: null, equipment })).toEqual([
      'no RPE written, 10 typed: change -8 %',
      '92.5 x 0.92 = 85.1',
      'usual advice: 85 for the next set',
    ])
    expect(work({ load: 92.5, rpe: 6, target: null, equipment })).toEqual([
      'no RPE written, 6 typed: no advice',
    ])
  })

  test('is compared with the nearest end of a prescribed range', () => {
    // 4 % x (8 - 10) = - 8 %: 92, and 92.5 is the nearest load.
    expect(work({ load: 100, rpe: 10, target: { from: 7, to: 8 }, equipment })).toEqual([
      'RPE 7 to 8 written, 10 typed: change -8 %',
      '100 x 0.92 = 92',
      'usual advice: 92.5 for the next set',
    ])
  })

  test('does not change inside the range', () => {
    expect(work({ load: 92.5, rpe: 7.5, target: { from: 7, to: 8 }, equipment })).toEqual([
      'RPE 7 to 8 written, 7.5 typed: no advice',
    ])
  })
})

describe('advice on running, worked out', () => {
  test('says nothing about repeats in their range', () => {
    const inputs = { range: { from: 107.5, to: 112.5 }, seconds: [109, 110] }
    expect(catalogue['repeats-advice'].work(inputs)).toEqual([
      'range 1:47.5 to 1:52.5; so far 1:49.0, 1:50.0',
      'no advice',
    ])
  })

  test('says that a range is out of reach', () => {
    // 1300 s are over, 1225 to 1250 were the target.
    const inputs = { done: { meters: 3000, seconds: 1300 }, meters: 5000, range: { from: 1225, to: 1250 } }
    expect(catalogue['rest-of-interval'].work(inputs)).toEqual([
      'so far 7:13.3/km; 2000 m left in 0:00.0 to 0:00.0',
      'The range is out of reach today: hold this pace, or stop here.',
    ])
  })

  test('cuts the paces for the rest to the range', () => {
    // 485 to 510 s for 2 km are 4:02.5 to 4:15.0; the range is 4:05 less 1 % to 4:10.
    const inputs = { done: { meters: 3000, seconds: 740 }, meters: 5000, range: { from: 1225, to: 1250 } }
    expect(catalogue['rest-of-interval'].work(inputs)).toEqual([
      'so far 4:06.7/km; 2000 m left in 8:05.0 to 8:30.0',
      '4:02.6 to 4:10.0/km',
    ])
  })
})
