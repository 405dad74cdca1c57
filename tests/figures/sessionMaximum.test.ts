import { describe, expect, test } from 'vitest'
import {
  equation,
  equationNames,
  estimateSet,
  type LiftedSet,
  maximumBy,
} from '../../src/figures/oneRepMax.ts'
import { sessionMaximum } from '../../src/figures/sessionMaximum.ts'

/* This program's own rule on published equations. The figures to three decimals were computed outside this
 * program (python3, from the equations). */

const plain = { rpe: null, failed: false, openEnded: false, formula: 'median', bodyKg: 0 } as const
const set = (kg: number, reps: number, more: Partial<LiftedSet> = {}): LiftedSet => ({
  ...plain,
  kg,
  groups: [reps],
  ...more,
})
const cluster = (kg: number, groups: number[], more: Partial<LiftedSet> = {}): LiftedSet => ({
  ...plain,
  kg,
  groups,
  ...more,
})
const failed = { failed: true }
const shown = (sets: LiftedSet[]) => {
  const maximum = sessionMaximum(sets)
  const three = (kg: number | null) => (kg === null ? null : Number(kg.toFixed(3)))
  return (
    maximum && [three(maximum.kg), three(maximum.lowKg), three(maximum.highKg), `set ${maximum.index + 1}`]
  )
}

describe('the maximum of a session', () => {
  test('is 125.864 for 105 x 5 @7, then 115 x 3 failed, from set 2, not the guess of set 1', () => {
    expect(shown([set(105, 5, { rpe: 7 }), set(115, 3, failed)])).toEqual([125.864, 121.91, 131.686, 'set 2'])
  })

  test('is 115.928 for 100 x 5 @8, 100 x 5 @9, 100 x 4 failed, from set 3', () => {
    expect(shown([set(100, 5, { rpe: 8 }), set(100, 5, { rpe: 9 }), set(100, 4, failed)])).toEqual([
      115.928,
      110.887,
      119.011,
      'set 3',
    ])
  })

  test('ignores a single after fatigue: 60 x 3 @9, then 60 x 1 failed neither counts nor caps', () => {
    expect(shown([set(60, 3, { rpe: 9 }), set(60, 1, failed)])).toEqual([67.677, 63.529, 71.406, 'set 1'])
  })

  test('is a measured 65 kg for 60 x 3 @9, then 65 x 1 failed', () => {
    expect(sessionMaximum([set(60, 3, { rpe: 9 }), set(65, 1, failed)])).toMatchObject({
      kg: 65,
      lowKg: 65,
      highKg: 65,
      formula: null,
      measured: true,
      index: 1,
    })
  })

  test('is the heavier of two measured singles, and a failed second single counts as measured', () => {
    expect(sessionMaximum([set(100, 1, { rpe: 10 }), set(102.5, 1, failed)])?.kg).toBe(102.5)
  })

  test('is an estimate like any other for a single at 9.5, which is not exact', () => {
    expect(sessionMaximum([set(100, 1, { rpe: 9.5 })])).toMatchObject({
      kg: maximumBy('median', 100, 1.5),
      measured: false,
    })
  })

  // This program's own rule: whoever lifts more afterwards did not fail for want of strength.
  test('ignores a failed set that a later one beats, but not one that comes last', () => {
    const slip = set(100, 2, failed)
    const others = [set(100, 5, { rpe: 8 }), set(105, 5, { rpe: 8.5 }), set(107.5, 5, { rpe: 9.5 })]
    const [first, ...later] = others as [LiftedSet, ...LiftedSet[]]
    expect(shown([first, slip, ...later])?.slice(0, 3)).toEqual(shown(others)?.slice(0, 3))
    expect(shown([...others, set(107.5, 2, failed)])?.slice(0, 3)).not.toEqual(shown(others)?.slice(0, 3))
  })

  // Failing after four allows 119 kg, which six repetitions with one in reserve exceed without proving more.
  test('ignores a failed set that a later one beats by repetitions alone, but not by earlier ones', () => {
    const [slip, better] = [set(100, 4, failed), set(100, 6, { rpe: 9 })]
    expect(sessionMaximum([slip, better])).toEqual({ ...sessionMaximum([better]), index: 1 })
    expect(sessionMaximum([better, slip])?.highKg).toBeCloseTo(119.011, 3)
  })

  test('keeps a failed set if what came later was lighter, a cluster, or no more repetitions', () => {
    const failing = set(100, 3, failed)
    for (const later of [set(60, 8, { rpe: 8 }), cluster(100, [2, 2], { rpe: 8 }), set(100, 3, { rpe: 9 })])
      expect(sessionMaximum([failing, later])).toMatchObject({ atLeast: false, index: 0 })
  })

  test('counts a set that a later one beats if it did not fail', () => {
    const [tired, better] = [set(100, 5, { rpe: 9.5 }), set(100, 6, { rpe: 9.5 })]
    const mean = Math.sqrt(maximumBy('median', 100, 5.5) * maximumBy('median', 100, 6.5))
    expect(sessionMaximum([tired, better])?.kg).toBeCloseTo(mean, 9)
  })

  test('ignores a single after a cluster at the same load as fatigue', () => {
    expect(sessionMaximum([cluster(100, [1, 1, 1], { rpe: 8 }), set(100, 1, failed)])?.cluster).toBe(true)
  })

  test('uses clusters only if no straight set has a known reserve', () => {
    const straight = set(90, 3, { rpe: 9 })
    const both = sessionMaximum([cluster(92.5, [1, 1, 1], { rpe: 8 }), straight])
    expect(both).toEqual({ ...sessionMaximum([straight]), index: 1 })
    expect(sessionMaximum([cluster(92.5, [1, 1, 1], { rpe: 8 }), set(90, 3)])).toMatchObject({
      cluster: true,
      index: 0,
    })
  })

  test('is at least the largest set without an effort', () => {
    const maximum = sessionMaximum([set(100, 3), set(95, 5), set(90, 3, { rpe: 5 })])
    expect(maximum).toMatchObject({ kg: maximumBy('median', 95, 5), atLeast: true, index: 1 })
  })

  // Twelve repetitions to failure are more than ten, which the equations reach to: the eight after them are tired ones.
  test('is "at least" where the first set went beyond ten repetitions, and does not fall as that set grows', () => {
    const open = (reps: number) => set(60, reps, { openEnded: true })
    const [ten, twelve] = [
      [open(10), open(8)],
      [open(12), open(8), open(7)],
    ].map(sessionMaximum)
    expect(ten).toMatchObject({ atLeast: false })
    expect(twelve).toMatchObject({ kg: maximumBy('median', 60, 8), atLeast: true, index: 1 })
    // 9 repetitions with 2 in reserve are 11.
    expect(sessionMaximum([set(60, 9, { rpe: 8 }), set(60, 9, { rpe: 9.5 })])).toMatchObject({
      kg: maximumBy('median', 60, 9),
      atLeast: true,
    })
    // 8 repetitions at RPE 7 are 11, one more than 8 at RPE 8: within the repetition either way.
    expect(sessionMaximum([set(60, 8, { rpe: 7 }), set(60, 8, { rpe: 8 })])).toMatchObject({
      kg: maximumBy('median', 60, 10),
      atLeast: false,
    })
    // Ten repetitions with two in reserve are twelve: failing after eight of them later is no limit.
    expect(sessionMaximum([set(60, 10, { rpe: 8 }), set(60, 8, failed)])).toMatchObject({
      kg: maximumBy('median', 60, 10),
      atLeast: true,
    })
    // A heavier set is not outdone.
    expect(sessionMaximum([open(12), set(70, 6, { rpe: 9 })])).toMatchObject({ atLeast: false, index: 1 })
  })

  test('is capped by a failed first repetition at its load', () => {
    expect(sessionMaximum([set(100, 3, { rpe: 8 }), set(105, 0, failed)])).toMatchObject({
      kg: 105,
      highKg: 105,
      index: 0,
    })
  })

  // This program's own rule: the back-off set would allow 119.4 kg at most.
  test('is neither capped nor lowered by a failed back-off set whose limit is below a load that was lifted', () => {
    const top = [set(120, 2, failed)]
    expect(sessionMaximum([...top, set(102.5, 5, { rpe: 9 }), set(102.5, 3, failed)])).toEqual(
      sessionMaximum([...top, set(102.5, 5, { rpe: 9 })]),
    )
  })

  // 112.5 kg is the lowest of the seven for 100 kg x 5.
  test.each([
    ['with an effort', set(100, 5, { rpe: 8 })],
    ['without one', set(100, 5)],
  ])(
    'is never below what five repetitions %s prove, where three or two failed at that load later',
    (_, five) => {
      for (const reps of [3, 2])
        expect(sessionMaximum([five, set(100, reps, failed)])?.kg).toBeCloseTo(112.5, 9)
    },
  )

  // 90 kg x 3 with half a repetition in reserve allows 104 kg at most, and a failed first repetition at 100 kg 100 kg.
  test('leaves out a tired set that allows less than one of no less load proves', () => {
    const five = set(100, 5, { rpe: 7 })
    for (const tired of [set(90, 3, { rpe: 9.5 }), set(100, 0, failed)])
      expect(sessionMaximum([five, tired])).toEqual(sessionMaximum([five]))
  })

  // A single with one repetition in reserve reaches 70 kg, ten repetitions at 60 kg prove more.
  test('has no high end below the figure where ten light repetitions prove more than a heavier single allows', () => {
    const maximum = sessionMaximum([set(60, 10), set(65, 1, { rpe: 9 })])
    expect(maximum?.highKg).toBe(maximum?.kg)
    expect(maximum?.kg).toBe(Math.min(...equationNames.map((name) => maximumBy(name, 60, 10))))
  })

  test('is not capped by a set that failed after more repetitions than the equations can take', () => {
    const light = set(20, 36, failed)
    expect(sessionMaximum([light])).toBeNull()
    expect(sessionMaximum([light, set(100, 3, { rpe: 9 })])?.kg).toBe(maximumBy('median', 100, 4))
  })

  test('uses the lowest cap', () => {
    const sets = [set(100, 5, { rpe: 7 }), set(110, 0, failed), set(105, 0, failed)]
    expect(sessionMaximum(sets)?.highKg).toBe(105)
  })

  test('is open at the top if any counted set is', () => {
    // 8 repetitions at RPE 8 reach 11; 4+4+4 at RPE 8 reach 15, above 12.
    const open = [cluster(80, [4, 4, 4], { rpe: 8 }), cluster(80, [2, 2], { rpe: 8 })]
    expect(sessionMaximum(open)?.highKg).toBeNull()
  })

  test('weights reserves 1, a half, a quarter and a tenth, and takes the mean of logarithms', () => {
    const efforts = [10, 9, 9.5, 8, 8.5, 7, 7.5]
    const weights = [1, 0.5, 0.5, 0.25, 0.25, 0.1, 0.1]
    const sets = efforts.map((rpe) => ({ ...plain, kg: 100, groups: [5], rpe }))
    const logarithms = sets.map((each) => Math.log(estimateSet(each)?.kg ?? Number.NaN))
    const sum = logarithms.reduce((total, each, index) => total + each * (weights[index] as number), 0)
    expect(sessionMaximum(sets)?.kg).toBeCloseTo(Math.exp(sum / 2.7), 9)
  })

  test('takes the mean with the body included for a bodyweight exercise', () => {
    const pull = (kg: number, reps: number, rpe: number) => ({
      ...plain,
      kg,
      groups: [reps],
      rpe,
      bodyKg: 70,
    })
    const kg = sessionMaximum([pull(0, 8, 10), pull(10, 4, 10)])?.kg
    const mean = Math.sqrt(maximumBy('median', 70, 8) * maximumBy('median', 80, 4))
    expect(kg).toBeCloseTo(mean - 70, 9)
  })

  test('uses another formula with the same range', () => {
    const one = sessionMaximum([set(100, 5, { rpe: 8, formula: 'epley' })])
    expect(one?.kg).toBeCloseTo(equation('epley', 100, 7), 9)
    expect(one?.lowKg).toBeCloseTo(Math.min(...equationNames.map((name) => equation(name, 100, 6))), 9)
    expect(one?.formula).toBe('epley')
  })

  test('does not exist if no set counts', () => {
    expect(sessionMaximum([])).toBeNull()
    expect(sessionMaximum([set(100, 12, { rpe: 10 }), set(100, 0)])).toBeNull()
  })
})
