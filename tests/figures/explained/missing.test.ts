import { describe, expect, test } from 'vitest'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* A figure that has too little to work with says so instead of showing a number. The wording is this program's own. */

const set = {
  kg: 100,
  groups: [5],
  rpe: null,
  failed: false,
  openEnded: false,
  formula: 'median',
  bodyKg: 0,
} as const

describe('a figure without enough to work with', () => {
  test.each<[string, () => string[], string[]]>([
    ['one pace', () => catalogue['pace-at-heart-rate'].work({ paces: [300] }), ['one result: no interval']],
    [
      'one split with a heart rate',
      () => catalogue['heart-rate-drift'].work({ splits: [{ meters: 4000, seconds: 1200, heartRate: 140 }] }),
      ['4000 m in 2800 beats: 1.429 m a beat', 'one split: no drift'],
    ],
    [
      'four days after heavy legs',
      () => catalogue['leg-cost'].work({ after: [345, 350, 347, 341], others: [340, 338, 343, 336, 341] }),
      ['too few days of one kind: no figure'],
    ],
    [
      'two all-out efforts',
      () =>
        catalogue['critical-speed'].work({
          intervals: [
            { meters: 800, seconds: 140 },
            { meters: 1500, seconds: 285 },
          ],
        }),
      ['fewer than three intervals of 2 to 15 min: no figure'],
    ],
    [
      'one race',
      () => catalogue['own-exponent'].work({ races: [{ meters: 5000, seconds: 1200 }] }),
      ['fewer than two races of different length: no figure'],
    ],
    [
      'one day after running',
      () => catalogue['run-cost'].work({ days: [{ day: 0, kg: 100, cluster: false, hardKmBefore: 5 }] }),
      ['too few days of one kind, or none that can be told apart: no figure'],
    ],
    [
      'a set of no repetitions',
      () => catalogue['session-maximum'].work({ sets: [{ ...set, groups: [0] }] }),
      ['no set gives an estimate'],
    ],
  ])('says why %s gives no figure', (_, work, lines) => expect(work()).toEqual(lines))
})

describe('a session maximum', () => {
  test('without an effort is at least the largest figure with nothing in reserve', () => {
    const lines = catalogue['session-maximum'].work({ sets: [set, { ...set, kg: 90 }] })
    // At 5 repetitions: wathan's 100 x 1.16583 in the middle, oconner's 112.5 below, mayhew's 10000 / (52.2 + 41.9 e^-0.275).
    expect(lines).toEqual(['at least, the largest at r = 0 = 116.58 kg (112.5 to 119.01)'])
  })

  test('names the set of a measured single, by its number in the session if that is known', () => {
    const single = { ...set, kg: 120, groups: [1], rpe: 10 }
    expect(catalogue['session-maximum'].work({ sets: [set, single] })).toEqual([
      'set 2: 120 kg lifted once: measured',
    ])
    expect(catalogue['session-maximum'].work({ sets: [set, { ...single, number: 7 }] })[0]).toContain(
      'set 7:',
    )
  })

  test('names the cap that a failed set is', () => {
    const failed = { ...set, kg: 110, groups: [2], failed: true }
    const lines = catalogue['session-maximum'].work({ sets: [{ ...set, rpe: 8 }, failed] })
    expect(lines.filter((line) => line.startsWith('cap after a failed repetition: '))).toHaveLength(1)
  })
})
