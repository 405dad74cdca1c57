import { describe, expect, test } from 'vitest'
import { bestSplitsOf, runProgress } from '../../src/progress/run.ts'
import { formBlock, type RunSession, runFormOf } from '../../src/progress/runForm.ts'
import { dayAfter } from '../../src/progress/weeks.ts'
import { session } from './doneSessions.ts'

const to = '2026-11-29'
type Run = NonNullable<NonNullable<Parameters<typeof session>[1]>['runs']>[number]
const run = (date: string, ...runs: Run[]): RunSession => {
  const { id, running } = session(date, { runs })
  return { id, date, ...running }
}
const split = (meters: number, seconds: number, heartRate: number | null = null) => ({
  meters,
  seconds,
  secondsPerKm: (1000 * seconds) / meters,
  target: null,
  heartRate,
  heartRateMax: null,
  rpe: null,
})
const interval = (word: string | null, meters: number, seconds: number, more: Run = {}): Run => ({
  word,
  meters,
  seconds,
  secondsPerKm: (1000 * seconds) / meters,
  ...more,
})

describe('pace at the same heart rate', () => {
  const easy = (date: string, seconds: number, heartRate: number) =>
    run(date, interval('easy', 10_000, seconds, { splits: [split(10_000, seconds, heartRate)] }))
  test('is computed from easy runs in the most frequent ten beats, by month, with an interval', () => {
    const { paceAtHeartRate } = runFormOf(
      [
        easy('2026-11-20', 3100, 143),
        easy('2026-11-10', 3000, 149),
        easy('2026-10-05', 3200, 140),
        easy('2026-10-01', 3300, 155),
      ],
      to,
    )
    expect(paceAtHeartRate).toMatchObject({ fromBeats: 140, toBeats: 149 })
    // Two values 300 and 310: 305 +- 12.7062 x 7.0711 / sqrt 2 = 305 +- 63.531.
    expect(paceAtHeartRate?.months).toEqual([
      { month: '2026-10', runs: 1, secondsPerKm: 320, low: null, high: null },
      {
        month: '2026-11',
        runs: 2,
        secondsPerKm: 305,
        low: expect.closeTo(305 - 63.531, 2),
        high: expect.closeTo(305 + 63.531, 2),
      },
    ])
  })
  test('is not shown for one run, or for runs without a heart rate', () => {
    expect(runFormOf([easy('2026-11-20', 3100, 143)], to).paceAtHeartRate).toBeNull()
  })
})

describe('easy running on the day after heavy legs', () => {
  const legs = ['01', '04', '07', '10', '13'].map((day) => `2026-11-${day}`)
  const others = ['03', '06', '09', '12', '15']
  const easyDay = (
    date: string,
    secondsPerKm: number,
    heartRate: number | null,
    effort: number | null = null,
  ) =>
    session(date, {
      runs: [
        {
          word: 'easy',
          meters: 10_000,
          effort,
          splits: [split(10_000, secondsPerKm * 10, heartRate)],
        },
      ],
    })
  const formOf = (after: number[], other: number[], heartRate: number | null, effort: number | null = null) =>
    runProgress(
      [
        ...legs.map((date) => session(date, { heavyLegSets: 3 })),
        ...after.map((pace, at) => easyDay(dayAfter(legs[at] ?? ''), pace, heartRate, effort)),
        ...other.map((pace, at) => easyDay(`2026-11-${others[at]}`, pace, heartRate, effort)),
      ].sort((a, b) => (a.date < b.date ? 1 : -1)),
      { from: '2026-08-10', to },
      null,
      '2026-11-25',
    ).form
  const slow = [350, 352, 348, 351, 349]
  const quick = [340, 342, 338, 341, 339]

  test('is slower, with an interval of 95 %, over five days of each at the same heart rate', () => {
    const { afterHeavyLegs: found } = formOf(slow, quick, 145)
    expect(found).toMatchObject({ of: 'heartRate', from: 140, to: 149, afterDays: 5, otherDays: 5 })
    // By hand: both deviations 1.581139, error sqrt(0.5 + 0.5) = 1, 8 degrees of freedom, t 2.306004.
    expect(found?.secondsPerKm).toBeCloseTo(10, 9)
    expect(found?.degreesOfFreedom).toBeCloseTo(8, 9)
    expect(found?.low).toBeCloseTo(10 - 2.306004, 5)
    expect(found?.high).toBeCloseTo(10 + 2.306004, 5)
  })
  test('is put in a sentence, and without a difference if the interval includes 0', () => {
    const text = (form: ReturnType<typeof formOf>, unit: 'km' | 'mi' = 'km') =>
      formBlock({ ...form, paceAtHeartRate: null }, { distance: unit, mass: 'kg' }, 300)
    expect(text(formOf(slow, quick, 145))).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 5:50/km, 10 s/km slower than on other days (8 to 12), 5 days against 5 (interval of 95 %)',
    ])
    expect(text(formOf(quick, slow, 145), 'mi')).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 9:07/mi, 16 s/mi faster than on other days (12 to 20), 5 days against 5 (interval of 95 %)',
    ])
    expect(text(formOf([345, 350, 340, 343, 347], [344, 349, 339, 342, 346], 145))).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 5:45/km, no difference seen to other days (-5 to +7 s/km), 5 days against 5 (interval of 95 %)',
    ])
  })
  test('is compared by effort without heart rates', () => {
    expect(formOf(slow, quick, null, 3).afterHeavyLegs).toMatchObject({ of: 'effort', from: 3, to: 3 })
    expect(formOf(slow, quick, null).afterHeavyLegs).toBeNull()
  })
  test('has no figure with four days of a kind', () => {
    expect(formOf(slow.slice(1), quick, 145).afterHeavyLegs).toBeNull()
    expect(formOf(slow, quick.slice(1), 145).afterHeavyLegs).toBeNull()
  })
})

describe('heart-rate drift', () => {
  const long = (seconds: number, splits: Run['splits']) =>
    run('2026-11-22', interval('easy', 8000, seconds, { splits }))
  test('is metres per heartbeat of the second half against the first, of at least 40 min', () => {
    // 4 km in 1200 s at 140: 2800 beats; 4 km in 1200 s at 154: 3080 beats; 2800/3080 - 1 = -9.0909 %.
    const [drift] = runFormOf([long(2400, [split(4000, 1200, 140), split(4000, 1200, 154)])], to).drift
    expect(drift?.percent).toBeCloseTo(-9.0909, 4)
    expect(runFormOf([long(2399, [split(4000, 1200, 140), split(4000, 1199, 154)])], to).drift).toEqual([])
    expect(runFormOf([long(2400, [split(4000, 1200, 140), split(4000, 1200)])], to).drift).toEqual([])
  })
})

describe("critical speed and the athlete's own exponent", () => {
  const intervals = [
    run('2026-11-20', interval('all out', 4.5 * 150 + 180, 150)),
    run('2026-11-10', interval('trial', 4.5 * 300 + 180, 300)),
    run('2026-10-10', interval('race', 4.5 * 600 + 180, 600)),
  ]
  test('come from all-out efforts of 60 days; an older one does not count', () => {
    expect(runFormOf(intervals, to).criticalSpeed?.metersPerSecond).toBeCloseTo(4.5, 9)
    expect(runFormOf(intervals, '2026-12-10').criticalSpeed).toBeNull()
  })
  test('ignore a downhill interval', () => {
    const downhill = [
      intervals[0],
      intervals[1],
      run('2026-11-01', interval('race', 2880, 600, { text: '2.88 km race, "downhill"' })),
    ]
    const form = runFormOf(downhill as RunSession[], to)
    expect(form.criticalSpeed).toBeNull()
    expect(form.ownExponent).toBeNull()
  })
  test('of two races are shown next to 1.06', () => {
    const form = runFormOf(
      [run('2026-11-20', interval('race', 5000, 1200)), run('2026-10-20', interval('race', 10_000, 2520))],
      to,
    )
    expect(form.ownExponent).toBeCloseTo(Math.log2(2.1), 12)
    expect(formBlock(form, { distance: 'km', mass: 'kg' }, 80)).toEqual([
      "own exponent of time over distance: 1.070 (Riegel's is 1.06)",
    ])
  })
})

test('a best split that is slower than a longer row is not shown', () => {
  const rows = bestSplitsOf([
    run('2026-11-20', interval(null, 10_000, 2500, { splits: [split(10_000, 2500)] })),
    run('2026-11-10', interval(null, 6000, 1560, { splits: [split(6000, 1560)] })),
    run('2026-11-01', interval(null, 5000, 1200, { splits: [split(5000, 1200)] })),
  ])
  expect(rows.map(({ meters }) => meters)).toEqual([5000, 10_000])
})

test("a newest trial of 1 km downhill does not replace last month's 10 km race", () => {
  const goal = { meters: 10_000, seconds: 2370, date: null }
  const races = [
    session('2026-11-20', { runs: [interval('trial', 1000, 180, { text: '1 km trial, "downhill"' })] }),
    session('2026-10-20', { runs: [interval('race', 10_000, 2520)] }),
    session('2026-10-01', { runs: [interval('race', 5000, 1210)] }),
    session('2026-09-20', { runs: [interval('race', 3000, 700)] }),
    session('2026-03-20', { runs: [interval('race', 10_000, 2400)] }),
  ]
  const { towardRace } = runProgress(races, { from: '2026-08-10', to }, goal, '2026-11-25')
  expect(towardRace?.races.map(({ meters, date, sloping }) => [meters, date, sloping])).toEqual([
    [10_000, '2026-10-20', false],
    [5000, '2026-10-01', false],
    [3000, '2026-09-20', false],
  ])
})
