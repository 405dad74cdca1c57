import { linearRegression } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import type { Morning } from '../../src/plan/morning.ts'
import { bodyLines, bodyProgress } from '../../src/progress/body.ts'
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
        const { trend } = bodyProgress(mornings(values), '2026-11-26').bodyMassKg
        const { m } = linearRegression(values.map((value, index) => [index, value]))
        expect(trend?.perWeek).toBeCloseTo(7 * m, 6)
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
    const { trend } = bodyProgress(weekly, '2026-11-22').bodyMassKg
    // By hand: slope -0.16 a week, residual sum of squares 0.042, standard error sqrt(0.021 / 5).
    expect(trend?.perWeek).toBeCloseTo(-0.16, 9)
    expect((trend?.perWeekHigh ?? 0) - (trend?.perWeek ?? 0)).toBeCloseTo(4.303 * Math.sqrt(0.021 / 5), 4)
  })

  it('has no slope with fewer than four mornings or three weeks', () => {
    expect(bodyProgress(mornings([70, 69.9, 69.5]), '2026-11-26').bodyMassKg.trend).toBeNull()
    expect(bodyProgress(mornings([70, 69.9, 69.5, 69.6]), '2026-11-26').bodyMassKg.trend).toBeNull()
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

describe('the body over 28 days', () => {
  const kg = (value: number) => ({ value, unit: 'kg' as const })
  const today = '2026-11-26'

  it('leaves out the mornings before, those after, and what was not typed', () => {
    const body = bodyProgress(
      [
        { date: '2026-10-29', sleepSeconds: 1, bodyMass: kg(1), restingHeartRate: 1 },
        { date: '2026-10-30', sleepSeconds: 20_000, restingHeartRate: 50 },
        { date: '2026-11-19', bodyMass: kg(70) },
        { date: '2026-11-20', bodyMass: { value: 100, unit: 'lb' } },
        { date: today, sleepSeconds: 30_000, restingHeartRate: 46 },
        { date: '2026-11-27', sleepSeconds: 1, bodyMass: kg(1), restingHeartRate: 1 },
      ],
      today,
    )
    expect(body.mornings.map(({ date }) => date)).toEqual([
      '2026-10-30',
      '2026-11-19',
      '2026-11-20',
      '2026-11-26',
    ])
    expect(body.sleepSeconds).toEqual({ last7: 30_000, last28: 25_000 })
    expect(body.restingHeartRate).toEqual({ last7: 46, last28: 48 })
    // 100 lb are 45.359237 kg.
    expect(body.bodyMassKg.last7).toBeCloseTo(45.359237, 9)
    expect(body.bodyMassKg.last28).toBeCloseTo((70 + 45.359237) / 2, 9)
    expect(body.bodyMassKg).toMatchObject({ trend: null, fastLoss: false })
  })

  it('has no fast loss that noise explains, and no fast gain', () => {
    const of = (...values: number[]) =>
      bodyProgress(
        values.map((value, week) => ({
          date: `2026-11-${String(7 * week + 1).padStart(2, '0')}`,
          bodyMass: kg(value),
        })),
        '2026-11-22',
      ).bodyMassKg
    // By hand: slope -1.1 kg a week, residual sum of squares 36.7, standard error sqrt(18.35 / 5) = 1.916.
    const noisy = of(72, 66, 73, 66)
    expect(noisy.trend?.perWeek).toBeCloseTo(-1.1, 9)
    expect(noisy.fastLoss).toBe(false)
    expect([of(72, 71, 70, 69).fastLoss, of(69, 70, 71, 72).fastLoss]).toEqual([true, false])
  })
})

describe('the body in words', () => {
  const today = '2026-11-26'
  const linesOf = (all: Morning[], unit: 'kg' | 'lb' = 'kg', more: { convert?: boolean } = {}) =>
    bodyLines(bodyProgress(all, today), { distance: 'km', mass: unit, ...more }, 80)
  const weekly = (...values: number[]): Morning[] =>
    values.map((value, week) => ({
      date: `2026-11-${String(5 + 7 * week).padStart(2, '0')}`,
      bodyMass: { value, unit: 'kg' },
    }))

  it('says what was not typed', () => {
    expect(linesOf([])).toEqual([
      'body: 28 days to 26 Nov 2026',
      '',
      'body mass: nothing typed in 28 days',
      'resting heart rate: nothing typed in 28 days',
      'sleep: nothing typed in 28 days',
    ])
    const old: Morning = { date: '2026-11-19', sleepSeconds: 8 * 3600 - 31, restingHeartRate: 48 }
    expect(linesOf([old])).toEqual([
      'body: 28 days to 26 Nov 2026',
      '',
      'body mass: nothing typed in 28 days',
      'resting heart rate: 48 bpm in 28 days, nothing typed in the last 7',
      'sleep: 7:59 h in 28 days, nothing typed in the last 7',
      '',
      '19 Nov 2026: 7:59 h, 48 bpm',
    ])
  })

  it('has means, the seven last mornings, and no chart of one body mass', () => {
    const days = Array.from({ length: 8 }, (_, at): Morning => {
      const sleepSeconds = (at === 0 ? 6 : 7) * 3600 + 5 * 60
      return { date: `2026-11-${19 + at}`, sleepSeconds, restingHeartRate: at === 0 ? 44 : 46 }
    })
    const mornings = [
      ...days.slice(0, -1),
      { ...days.at(-1), date: today, bodyMass: { value: 150, unit: 'lb' } },
    ]
    expect(linesOf(mornings as Morning[], 'lb')).toEqual([
      'body: 28 days to 26 Nov 2026',
      '',
      'body mass: 150.0 lb in 7 days, 150.0 lb in 28',
      'no slope yet: it takes four mornings over three weeks',
      'resting heart rate: 46 bpm in 7 days, 46 bpm in 28',
      'sleep: 7:05 h in 7 days, 6:58 h in 28',
      '',
      ...[20, 21, 22, 23, 24, 25].map((day) => `${day} Nov 2026: 7:05 h, 46 bpm`),
      '26 Nov 2026: 7:05 h, 46 bpm, 150 lb',
    ])
    // 150 lb are 68.04 kg.
    expect(linesOf(mornings as Morning[], 'kg', { convert: true }).at(-1)).toBe(
      '26 Nov 2026: 7:05 h, 46 bpm, 68 kg',
    )
  })

  it('draws the body masses over the 28 days', () => {
    // 72 cells for 27 days: 5 November is the 17th, 12 November the 35th.
    expect(linesOf(weekly(70, 71)).slice(2, 14)).toEqual([
      '  kg ^',
      '     |',
      '     |',
      '71.0 +                                   o',
      '     |',
      '70.5 +',
      '     |',
      '70.0 +                 o',
      '     |',
      '     |',
      '     +-+-----------------+------------------+-----------------+---------------->',
      '       30 Oct            6 Nov              13 Nov            20 Nov',
    ])
    expect(linesOf(weekly(70)).join()).not.toContain('^')
  })

  it.each<[string, number[], string]>([
    ['a loss', [70, 69.5, 69, 68.5], '-0.50 (-0.50 to -0.50) kg a week over 28 days (95 % interval)'],
    ['a gain', [68.5, 69, 69.5, 70], '+0.50 (+0.50 to +0.50) kg a week over 28 days (95 % interval)'],
    // By hand: slope -1.1, standard error 1.916, 4.303 of them to either side.
    [
      'noise',
      [72, 66, 73, 66],
      'no change that can be told from noise: -1.10 (-9.34 to +7.14) kg a week over 28 days (95 % interval)',
    ],
  ])('has the slope of %s', (_, values, expected) => {
    expect(
      linesOf(weekly(...values))
        .join(' ')
        .replaceAll('   ', ' '),
    ).toContain(expected)
  })

  it('names the source for a fast loss, but not for a slow one', () => {
    const text = (...values: number[]) => linesOf(weekly(...values)).join(' ')
    expect(text(72, 71, 70, 69)).toContain(
      'More than 0.7 % of the body mass a week is being lost: ask a dietitian',
    )
    expect(text(72, 71.8, 71.6, 71.4)).not.toContain('dietitian')
  })
})
