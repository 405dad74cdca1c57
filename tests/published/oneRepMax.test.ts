import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { equationNames, equations } from '../../src/figures/equations.ts'
import { estimateClusterSet, reserveOf } from '../../src/figures/oneRepMax.ts'

// The seven equations as their publications print them, put down once more here: the factor of the load at
// 1, 5 and 10 repetitions, worked out apart from this program.
const published = {
  // Epley 1985, Poundage chart: w (1 + n/30)
  epley: [1.033333, 1.166667, 1.333333],
  // Brzycki 1993, JOPERD 64(1):88-90: 36 w / (37 - n)
  brzycki: [1, 1.125, 1.333333],
  // Lander 1985, NSCA Journal 6(6):60-61: 100 w / (101.3 - 2.67123 n)
  lander: [1.013903, 1.137089, 1.340704],
  // Lombardi 1989, Beginning Weight Training: w n^0.10
  lombardi: [1, 1.174619, 1.258925],
  // Mayhew et al. 1992, J Appl Sport Sci Res 6(4):200-206: 100 w / (52.2 + 41.9 e^(-0.055 n))
  mayhew: [1.08864, 1.190107, 1.309343],
  // O'Conner, Simmons, O'Shea 1989, Weight Training Today: w (1 + 0.025 n)
  oconner: [1.025, 1.125, 1.25],
  // Wathan 1994, in Baechle, Essentials of Strength Training and Conditioning: 100 w / (48.8 + 53.8 e^(-0.075 n))
  wathan: [1.013042, 1.165825, 1.347467],
} as const

describe('one-repetition maximum against the publications', () => {
  test.each(equationNames)('%s gives its published factors at 1, 5 and 10 repetitions', (name) => {
    expect([1, 5, 10].map((n) => equations[name](1, n))).toEqual(
      published[name].map((factor) => expect.closeTo(factor, 5)),
    )
  })

  // Brzycki 1993 is also printed with rounded coefficients, w / (1.0278 - 0.0278 n): 200 at 6 is 232.288 there.
  test('the exact form of Brzycki stays within a tenth of the one with rounded coefficients', () => {
    expect(Math.abs(equations.brzycki(200, 6) - 232.288)).toBeLessThan(0.1)
    expect(equations.brzycki(200, 6)).toBeCloseTo(232.2581, 4)
  })

  // A textbook prints Epley with 0.033 instead of 1/30: 225 at 10 is 299.25 there and 300 here.
  test('Epley uses 1/30 and not 0.033', () => {
    expect(equations.epley(225, 10)).toBeCloseTo(300, 9)
  })

  // Essentials of Strength Training and Conditioning, load table; the even rows are from memory.
  const table = Object.entries(reference.tables.repetitionsAtShareOfMaximum.percent)
  test.each(table)('the load table of Essentials at %s repetitions lies among the seven', (reps, percent) => {
    const loads = equationNames.map((name) => 100 / equations[name](1, Number(reps)))
    // The table is in whole percent, so half of one is allowed at each end.
    expect(percent).toBeGreaterThanOrEqual(Math.min(...loads) - 0.5)
    expect(percent).toBeLessThanOrEqual(Math.max(...loads) + 0.5)
  })

  // Reynolds, Gordon, Robergs 2006, J Strength Cond Res 20(3):584-592, chest press: 1.1307 w + 0.6999, standard
  // error 2.98 kg.
  test.each([40, 60, 80, 100])(
    'at 5 repetitions of %s kg all seven lie within two errors of Reynolds 2006',
    (kg) => {
      const { slope, interceptKg, standardErrorKg } = reference.tables.fiveRepetitionRegressions.chestPress
      for (const name of equationNames) {
        expect(Math.abs(equations[name](kg, 5) - (slope * kg + interceptKg))).toBeLessThan(
          2 * standardErrorKg,
        )
      }
    },
  )

  // Zourdos et al. 2016: 10 and 9.5 nothing in reserve, 9 one, 8.5 one to two, 8 two, 7.5 two to three, 7 three.
  test.each(Object.entries(reference.tables.repetitionsInReserve.atRpe).filter(([rpe]) => Number(rpe) >= 7))(
    'the reserve at RPE %s lies where Zourdos 2016 has it',
    (rpe, [low, high]) => {
      const reserve = reserveOf({ rpe: Number(rpe), failed: false, openEnded: false })?.reserve
      expect(reserve).toBeGreaterThanOrEqual(low as number)
      expect(reserve).toBeLessThanOrEqual(high as number)
    },
  )

  // Iglesias-Soler et al. 2014, Int J Sports Physiol Perform 9:637-642: with a load that could be lifted 4 times and
  // about 45 s between repetitions, 45.5 +- 32 were done. Put into an equation such a total would make of 100 kg
  // far more than 200; the figure must not.
  test('a cluster of 45 single repetitions is no set of 45', () => {
    const groups = Array<number>(45).fill(1)
    const estimate = estimateClusterSet({
      kg: 100,
      groups,
      rpe: 10,
      failed: false,
      openEnded: false,
      equation: 'epley',
    })
    expect(estimate).toEqual({ kg: 100, lowKg: 100, highKg: null, atLeast: false, formula: null })
    expect(() => equations.brzycki(100, 45)).toThrow(RangeError)
  })
})
