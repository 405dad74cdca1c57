import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { equation, equationNames, maximumBy, reserveOf } from '../../src/figures/oneRepMax.ts'

describe('one-repetition maximum against the publications', () => {
  // Reynolds, Gordon, Robergs 2006, J Strength Cond Res 20(3):584-592, chest press: 1.1307 w + 0.6999, standard
  // error 2.98 kg.
  test.each([40, 60, 80, 100])(
    'at 5 repetitions of %s kg all seven lie within two errors of Reynolds 2006',
    (kg) => {
      const { slope, interceptKg, standardErrorKg } = reference.tables.fiveRepetitionRegressions.chestPress
      for (const name of equationNames) {
        expect(Math.abs(equation(name, kg, 5) - (slope * kg + interceptKg))).toBeLessThan(2 * standardErrorKg)
      }
    },
  )

  // Baechle and Earle (eds), Essentials of Strength Training and Conditioning, table 17.7: the share of the maximum
  // that can be lifted so often.
  test.each([
    [3, 93],
    [5, 87],
    [7, 83],
    [9, 77],
  ])('the median at %s repetitions is within 1.5 points of the %s %% of the textbook', (n, percent) => {
    expect(Math.abs(100 / maximumBy('median', 1, n) - percent)).toBeLessThan(1.5)
  })

  // Zourdos et al. 2016: 10 nothing in reserve, 9.5 no repetition but a little more load (half of one here), 9 one, 8.5
  // one to two, 8 two, 7.5 two to three, 7 three.
  test.each(Object.entries(reference.tables.repetitionsInReserve.atRpe).filter(([rpe]) => Number(rpe) >= 7))(
    'the reserve at RPE %s agrees with Zourdos 2016',
    (rpe, [low, high]) => {
      const reserve = reserveOf({ rpe: Number(rpe), failed: false, openEnded: false })?.reserve
      expect(reserve).toBeGreaterThanOrEqual(low as number)
      expect(reserve).toBeLessThanOrEqual((high as number) + (rpe === '9.5' ? 0.5 : 0))
    },
  )
})
