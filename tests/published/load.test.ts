import * as simple from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { weekLoad } from '../../src/figures/load.ts'
import { restSeconds } from '../../src/figures/volume.ts'
import fc from '../fastCheck.ts'

describe('load and rest against the publications', () => {
  // Foster 1998, Med Sci Sports Exerc 30(7):1164-1168: monotony = mean / SD, strain = load x monotony. The mean and the
  // sample's deviation are those of simple-statistics.
  test('monotony and strain of any week that has them agree with simple-statistics', () => {
    const days = fc.array(fc.integer({ min: 0, max: 1200 }), { minLength: 7, maxLength: 7 })
    fc.assert(
      fc.property(days, (loads) => {
        const [mean, deviation] = [simple.mean(loads), simple.sampleStandardDeviation(loads)]
        // Below these, this program's own rule gives none.
        fc.pre(loads.filter((load) => load > 0).length >= 3 && deviation >= 0.05 * mean)
        const { monotony, strain } = weekLoad(loads.map((each) => ({ effortMinutes: each, known: true })))
        const expected = mean / deviation
        expect(monotony).toBeCloseTo(expected, 9)
        expect(strain).toBeCloseTo(simple.sum(loads) * expected, 5)
      }),
    )
  })

  // Tufano et al. 2017, J Hum Kinet 58:35-43: the total rest of each scheme.
  test.each(reference.tables.restSchemes.schemes)(
    '$name is $totalSeconds s of rest (Tufano 2017)',
    (scheme) => {
      expect(restSeconds(scheme)).toBe(scheme.totalSeconds)
    },
  )
})
