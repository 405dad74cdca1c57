import { expect, test } from 'vitest'
import { taperMeters, taperWeeks } from '../../src/figures/load.ts'

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
