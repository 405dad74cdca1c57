import { describe, expect, test } from 'vitest'
import { catalogue } from '../../src/figures/catalogue.ts'
import type { LiftedSet } from '../../src/figures/oneRepMax.ts'

/* What a session's numbers look like worked out. Unknown values are named, not shown as zero. The wording is this
 * program's own. */

const set: LiftedSet = {
  kg: 100,
  groups: [5],
  rpe: null,
  failed: false,
  openEnded: false,
  formula: 'median',
  bodyKg: 0,
}

describe('a set', () => {
  const workedOut = (more: Partial<LiftedSet>) => catalogue['one-rep-max'].work({ ...set, ...more })

  test('is worked out step by step', () => {
    expect(workedOut({ kg: 140, groups: [4], rpe: 9, formula: 'brzycki' })).toEqual([
      'w = 140 kg',
      'r = 10 - RPE 9 = 1',
      'n = 4 + 1 = 5',
      'all seven at n = 5: epley 163.3, brzycki 157.5, lander 159.2,',
      '  lombardi 164.4, mayhew 166.6, oconner 157.5, wathan 163.2',
      'brzycki = 157.5 kg',
      'range 152.73 kg to 170.06 kg',
    ])
  })

  test('without an effort is "at least", and on the body has the body taken off', () => {
    const steps = workedOut({ kg: 10, bodyKg: 68, groups: [6], formula: 'epley' })
    expect([...steps.slice(0, 3), steps[5]]).toEqual([
      'w = body 68 kg + added 10 kg = 78 kg',
      'r = 0: no effort was recorded, so the figure is "at least"',
      'n = 6 + 0 = 6',
      'epley = 25.6 kg',
    ])
    expect(steps.at(-1)).toBe('range 21.7 kg to 26.75 kg; at least, since no effort was recorded')
  })

  test('of one repetition is a lift', () => {
    expect(workedOut({ kg: 120, groups: [1], rpe: 10 })).toContain(
      'n = 1: the load itself, 120 kg: a lift, not an estimate',
    )
  })

  test('far from failure, or of an unknown body, has no estimate', () => {
    expect(workedOut({ kg: 120, rpe: 6 }).slice(-3)).toEqual([
      'RPE 6 is below 7: no estimate',
      'n = 5 + 0 = 5',
      'no estimate',
    ])
    expect(workedOut({ bodyKg: null })[0]).toBe('the body mass is not known: no figure')
  })

  test('in a cluster counts its longest group, and may have no upper end', () => {
    expect(workedOut({ groups: [2, 1, 0], failed: true }).slice(1, 3)).toEqual([
      'r = 0: a repetition failed, nothing was in reserve',
      'n = max(2, 1 + 0) = 2; all repetitions + r = 3',
    ])
    const open = workedOut({ groups: [4, 4, 4], rpe: 8 })
    expect(open[2]).toBe('n = max(4, 4 + 2) = 6; all repetitions + r = 14')
    expect(open.at(-1)).toMatch(/to no upper end \(above 12 repetitions\)$/)
  })
})

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

describe('what is not known', () => {
  test('is named in a top set, in rests, and in a session', () => {
    const sets = [
      { kg: null, reps: 8 },
      { kg: 60, reps: null },
    ]
    expect(catalogue['top-set'].work({ sets })).toEqual([
      'set 1: 8 x not known',
      'set 2: - x 60 kg',
      'top: set 2',
    ])
    expect(catalogue['rest-taken'].work({ seconds: [], prescribedSeconds: null })).toEqual([
      'measured: none',
      'mean not known',
    ])
    const part = { name: 'run', effort: null, minutes: 60, effortMinutes: null, gapMinutes: null }
    expect(catalogue['session-load'].work({ parts: [part] })).toEqual(['run: not known', 'session not known'])
  })

  test('adds nothing to the tonnage', () => {
    const sets = [
      { reps: null, kg: 40, eachSide: false },
      { reps: 12, kg: null, eachSide: true },
    ]
    expect(catalogue.tonnage.work({ sets })).toEqual([
      'timed or carried x 40 kg: 0 x 40 kg = 0 kg',
      '12 each side x no load: 24 x 0 kg = 0 kg',
      'sum 0 kg',
    ])
  })

  test('is left out of a meal and of a fade', () => {
    expect(catalogue['meal-energy'].work({ carbsG: 70, proteinG: 18, fatG: null })).toEqual([
      '4 x 70 g + 4 x 18 g + 9 x not known',
      '= 352 kcal',
    ])
    const splits = [90, 92].map((seconds, index) => ({ number: index + 1, seconds }))
    expect(catalogue.splits.work({ splits }).at(-1)).toBe('fewer than three splits: no fade')
  })
})
