import { linearRegression } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import type { Morning } from '../../src/plan/morning.ts'
import { bodyProgress } from '../../src/progress/body.ts'
import fc from '../fastCheck.ts'

function mornings(values: readonly number[]): Morning[] {
  return values.map((value, index) => ({
    date: `2026-11-${String(index + 1).padStart(2, '0')}`,
    bodyMass: { value, unit: 'kg' },
  }))
}

describe('bodyProgress', () => {
  // The slope of simple-statistics.
  it('has the slope of least squares, in kilograms a week', () => {
    const masses = fc.array(fc.double({ min: 60, max: 70, noNaN: true }), { minLength: 22, maxLength: 26 })
    fc.assert(
      fc.property(masses, (values) => {
        const { perWeek } = bodyProgress(mornings(values), '2026-11-26').bodyMassKg
        const { m } = linearRegression(values.map((value, index) => [index, value]))
        expect(perWeek?.kg).toBeCloseTo(7 * m, 6)
      }),
    )
  })

  // NIST Statistical Reference Datasets have no case this small; t for 2 degrees of freedom, 4.303, is that of any
  // table.
  it('has an interval of 4.303 standard errors for four mornings', () => {
    const weekly = [70, 69.9, 69.5, 69.6].map((value, week) => ({
      date: `2026-11-${String(7 * week + 1).padStart(2, '0')}`,
      bodyMass: { value, unit: 'kg' as const },
    }))
    const { perWeek } = bodyProgress(weekly, '2026-11-22').bodyMassKg
    // By hand: slope -0.16 a week, residual sum of squares 0.042, standard error sqrt(0.021 / 5).
    expect(perWeek?.kg).toBeCloseTo(-0.16, 9)
    expect((perWeek?.highKg ?? 0) - (perWeek?.kg ?? 0)).toBeCloseTo(4.303 * Math.sqrt(0.021 / 5), 4)
  })

  it('has no slope with fewer than four mornings or three weeks', () => {
    expect(bodyProgress(mornings([70, 69.9, 69.5]), '2026-11-26').bodyMassKg.perWeek).toBeNull()
    expect(bodyProgress(mornings([70, 69.9, 69.5, 69.6]), '2026-11-26').bodyMassKg.perWeek).toBeNull()
  })

  // Garthe et al. 2011, Int J Sport Nutr Exerc Metab 21(2):97-104: 0.7 % a week is the slow rate.
  it.each([
    [0.006, false],
    [0.008, true],
  ])('a steady loss of %d of the mass a week is fast: %s', (share, fast) => {
    const values = Array.from({ length: 26 }, (_, day) => 70 - (70 * share * day) / 7 + (day % 2) * 0.01)
    expect(bodyProgress(mornings(values), '2026-11-26').bodyMassKg.fastLoss).toBe(fast)
  })

  it('counts seven and twenty-eight days, today among them', () => {
    const { bodyMassKg } = bodyProgress(
      mornings(Array.from({ length: 26 }, (_, day) => day + 40)),
      '2026-11-26',
    )
    expect(bodyMassKg.last7).toBeCloseTo(62, 9)
    expect(bodyMassKg.last28).toBeCloseTo(52.5, 9)
  })
})
