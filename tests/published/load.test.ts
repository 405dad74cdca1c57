import * as simple from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { taperMeters, taperWeeks, weekLoad } from '../../src/figures/load.ts'
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

  // Bosquet et al. 2007, Med Sci Sports Exerc 39(8):1358-1365, abstract: two weeks, training volume decreased by 41-60 %,
  // intensity and frequency kept. The mean of four weeks is this program's own rule.
  test('a taper after weeks of 42 km is 17 to 25 km, for two weeks (Bosquet 2007)', () => {
    const { mean, from, to } = taperMeters([42_000, 45_000, 30_000, 51_000])
    expect(mean).toBe(42_000)
    expect(from).toBeCloseTo(16_800, 6)
    expect(to).toBeCloseTo(24_780, 6)
    expect([from, to].map((meters) => Math.round(meters / 1000))).toEqual([17, 25])
    expect(taperWeeks).toBe(2)
  })
})
