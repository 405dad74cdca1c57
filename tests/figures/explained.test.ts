import { describe, expect, test } from 'vitest'
import { catalogue } from '../../src/figures/catalogue.ts'

/* What a session's numbers look like worked out. Unknown values are named, not shown as zero. The wording is this
 * program's own. */

const set = {
  kg: 100,
  groups: [5],
  rpe: null,
  failed: false,
  openEnded: false,
  formula: 'median',
  bodyKg: 0,
} as const

describe('a session maximum', () => {
  test('without an effort is at least the largest figure with nothing in reserve', () => {
    const lines = catalogue['session-maximum'].work({ sets: [set, { ...set, kg: 90 }] })
    // At 5 repetitions: wathan's 100 x 1.16583 in the middle, oconner's 112.5 below, mayhew's 10000 / (52.2 + 41.9
    // e^-0.275).
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

describe('volume, worked out', () => {
  test('describes a top set of unknown load or repetitions', () => {
    const sets = [
      { kg: null, reps: 8 },
      { kg: 60, reps: null },
    ]
    expect(catalogue['top-set'].work({ sets })).toEqual([
      'set 1: 8 x not known',
      'set 2: - x 60 kg',
      'top: set 2',
    ])
  })

  test('describes rests that were not measured', () => {
    expect(catalogue['rest-taken'].work({ seconds: [], prescribedSeconds: null })).toEqual([
      'measured: none',
      'mean not known, prescribed not known',
    ])
  })
})
