import { describe, expect, test } from 'vitest'
import { usualPlates } from '../../../src/figures/bar.ts'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* The expected lines are reckoned by hand from the rules that the entries state; plates as in the garage of the
 * samples, so loads lie 2.5 kg apart. */

const equipment = { bar: 20, collar: 0, plates: usualPlates.kg }

describe('the next load, worked out', () => {
  const { work } = catalogue['next-load']

  test('without a written effort against 8, and never up by more than 5 %', () => {
    // 4 % x (8 - 6) = 8 %, held at 5 %: 97.125, and 95 is the next load below.
    expect(work({ load: 92.5, rpe: 6, target: null, equipment })).toEqual([
      'written 8 (none written), typed 6: change 5 %',
      '92.5 x 1.05 = 97.13, rounded down 95',
    ])
  })

  test('against the nearest end of a written range', () => {
    // 4 % x (8 - 10) = - 8 %: 92, and 90 is the next load below.
    expect(work({ load: 100, rpe: 10, target: { from: 7, to: 8 }, equipment })).toEqual([
      'written 7-8, typed 10: change -8 %',
      '100 x 0.92 = 92, rounded down 90',
    ])
  })

  test('says nothing inside the range', () => {
    expect(work({ load: 92.5, rpe: 7.5, target: { from: 7, to: 8 }, equipment })).toEqual([
      'written 7-8, typed 7.5: nothing to say',
    ])
  })
})

describe('advice on running, worked out', () => {
  test('says nothing of repeats in their range', () => {
    const inputs = { range: { from: 107.5, to: 112.5 }, seconds: [109, 110] }
    expect(catalogue['repeats-advice'].work(inputs)).toEqual([
      'range 1:47.5 to 1:52.5; so far 1:49.0, 1:50.0',
      'nothing to say',
    ])
  })

  test('says of a range that cannot be met any more that it is out of reach', () => {
    const inputs = { done: { meters: 3000, seconds: 1300 }, meters: 5000, range: { from: 1225, to: 1250 } }
    expect(catalogue['rest-of-piece'].work(inputs)).toEqual([
      'the range is out of reach, or the piece is over',
    ])
  })

  test('gives the rest no lower end where the range has begun', () => {
    // 1250 s - 1226 s = 24 s for the last 100 m, 4:00 for a kilometre.
    const inputs = { done: { meters: 4900, seconds: 1226 }, meters: 5000, range: { from: 1225, to: 1250 } }
    expect(catalogue['rest-of-piece'].work(inputs)).toEqual([
      'so far 4:10.2/km; 100 m left in any time to 0:24.0',
      'anything to 4:00.0/km',
    ])
  })
})
