import { describe, expect, test } from 'vitest'
import { bestSplitsOf, runProgress } from '../../src/progress/run.ts'
import * as runForm from '../../src/progress/runForm.ts'
import { dayAfter } from '../../src/units/calendarDate.ts'
import { session } from './doneSessions.ts'

const to = '2026-11-29'
type RunForm = runForm.RunForm
type RunSession = Parameters<typeof runForm.runsOf>[0][number]
const runFormOf = (sessions: readonly RunSession[], end: string, afterLegs = new Set<string>()) =>
  runForm.runFormOf(runForm.runsOf(sessions), end, new Set([...afterLegs].map((date) => dayAfter(date, -1))))
const formBlock = (form: RunForm, distance: 'km' | 'mi' = 'km') =>
  runForm.formBlock(form, { distance, mass: 'kg' }).filter((line) => typeof line === 'string')
type Run = NonNullable<NonNullable<Parameters<typeof session>[1]>['runs']>[number]
const run = (date: string, ...runs: Run[]): RunSession => {
  const { id, running } = session(date, { runs })
  return { id, date, running }
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
  // This program's own rule.
  test('takes a run of several splits as one result, and no warm-up or cool-down of less than 20 min', () => {
    const splits = [split(5000, 1500, 141), split(5000, 1600, 148), split(5000, 1600, 152)]
    const long = run('2026-11-20', interval('easy', 15_000, 4700, { splits }))
    const warmUp = (date: string) =>
      run(date, interval('easy', 2000, 1199, { splits: [split(2000, 1199, 143)] }))
    const { paceAtHeartRate } = runFormOf(
      [long, easy('2026-11-12', 3000, 149), warmUp('2026-11-10'), warmUp('2026-11-08')],
      to,
    )
    expect(paceAtHeartRate?.months).toMatchObject([{ month: '2026-11', runs: 2, secondsPerKm: 305 }])
  })
  test('is not shown for one run, or for runs without a heart rate', () => {
    expect(runFormOf([easy('2026-11-20', 3100, 143)], to).paceAtHeartRate).toBeNull()
    const without = (date: string) => run(date, interval('easy', 5000, 1500, { splits: [split(5000, 1500)] }))
    expect(runFormOf([without('2026-11-20'), without('2026-11-19')], to).paceAtHeartRate).toBeNull()
  })
  test('is shown from two runs on, and of equally frequent bands in the slower heart rates', () => {
    const band = (...beats: number[]) =>
      runFormOf(
        beats.map((each, at) => easy(`2026-11-${20 - at}`, 3100, each)),
        to,
      ).paceAtHeartRate?.fromBeats
    expect(band(143, 149)).toBe(140)
    expect([band(150, 149, 151, 148), band(149, 150, 148, 151)]).toEqual([140, 140])
  })
  test('leaves out a split of unknown distance or time, a slope, and running that is not easy', () => {
    const splits = [
      split(5000, 1500, 145),
      { ...split(1, 300, 145), meters: null, secondsPerKm: null },
      { ...split(1000, 1, 145), seconds: null, secondsPerKm: null },
    ]
    const months = (word: string, text = '6 km easy') =>
      runFormOf(
        ['2026-11-20', '2026-11-19'].map((date) => run(date, interval(word, 6000, 1800, { splits, text }))),
        to,
      ).paceAtHeartRate?.months
    for (const word of ['easy', 'relaxed', 'steady'])
      expect(months(word)).toMatchObject([{ runs: 2, secondsPerKm: 300 }])
    expect([months('tempo'), months('easy', '6 km easy, "down-hill"')]).toEqual([undefined, undefined])
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
        ...after.map((pace, at) => easyDay(dayAfter(legs[at] ?? '', 1), pace, heartRate, effort)),
        ...other.map((pace, at) => easyDay(`2026-11-${others[at]}`, pace, heartRate, effort)),
      ].sort((a, b) => (a.date < b.date ? 1 : -1)),
      { from: '2026-08-10', to },
      null,
      '2026-11-25',
    ).form
  const slow = [350, 352, 348, 351, 349]
  const quick = [340, 342, 338, 341, 339]

  test('is slower, with a 95 % interval, over five days of each at the same heart rate', () => {
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
      formBlock({ ...form, paceAtHeartRate: null }, unit)
    expect(text(formOf(slow, quick, 145))).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 5:50/km, 10 s/km slower than on other days (8 to 12), 5 days against 5 (95 % interval)',
    ])
    expect(text(formOf(quick, slow, 145), 'mi')).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 9:07/mi, 16 s/mi faster than on other days (12 to 20), 5 days against 5 (95 % interval)',
    ])
    expect(text(formOf([345, 350, 340, 343, 347], [344, 349, 339, 342, 346], 145))).toEqual([
      'easy running at 140 to 149 beats the day after heavy legs: 5:45/km, no difference seen from other days (-5 to +7 s/km), 5 days against 5 (95 % interval)',
    ])
  })
  test('is compared by effort without heart rates', () => {
    expect(formOf(slow, quick, null, 3).afterHeavyLegs).toMatchObject({ of: 'effort', from: 3, to: 3 })
    expect(formOf(slow, quick, null).afterHeavyLegs).toBeNull()
  })
  test('is compared in the easier of two equally frequent classes', () => {
    const dates = [...Array(20).keys()].map((at) => `2026-11-${String(at + 1).padStart(2, '0')}`)
    const form = (first: number, second: number) =>
      runFormOf(
        dates.map((date, at) => {
          const splits = [split(10_000, 3400 + 10 * (at % 3))]
          return run(date, interval('easy', 10_000, 3400, { effort: at % 2 === 0 ? first : second, splits }))
        }),
        to,
        new Set(dates.slice(0, 10)),
      ).afterHeavyLegs
    expect([form(4, 3)?.from, form(3, 4)?.from]).toEqual([3, 3])
    expect(form(4, 3)).toMatchObject({ of: 'effort', to: 3, afterDays: 5, otherDays: 5 })
  })
  test('counts the runs of 182 days', () => {
    // 31 May is 182 days before 29 November.
    const after = ['2026-05-31', '2026-11-01', '2026-11-03', '2026-11-05', '2026-11-07']
    const other = ['2026-11-02', '2026-11-04', '2026-11-06', '2026-11-08', '2026-11-10']
    const form = (end: string) =>
      runFormOf(
        [...after, ...other].map((date, at) =>
          run(date, interval('easy', 5000, 1500, { splits: [split(5000, 1500 + at, 145)] })),
        ),
        end,
        new Set(after),
      ).afterHeavyLegs
    expect(form(to)?.afterDays).toBe(5)
    expect(form('2026-11-30')).toBeNull()
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
    // Three splits, by hand: 9 km in 6800 beats and 9 km in 7016.5.
    const three = [split(6000, 1920, 141), split(6000, 1920, 143), split(6000, 1930, 147)]
    expect(runFormOf([long(5770, three)], to).drift[0]?.percent).toBeCloseTo(100 * (6800 / 7016.5 - 1), 6)
    expect(runFormOf([long(2399, [split(4000, 1200, 140), split(4000, 1199, 154)])], to).drift).toEqual([])
    expect(runFormOf([long(2400, [split(4000, 1200, 140), split(4000, 1200)])], to).drift).toEqual([])
  })
  const third = split(3000, 900, 140)
  const thirds = [third, third, third]
  test.each<[string, number, Run]>([
    ['a continuous run', 1, {}],
    ['repeats', 0, { repeats: true }],
    ['a gap between the splits', 0, { gaps: [1] }],
    ['a slope', 0, { text: '9 km easy, grade 4 %' }],
    ['an unknown time', 0, { seconds: null }],
    ['an unknown distance', 0, { meters: null }],
    ['a split of unknown distance', 0, { splits: [third, { ...third, meters: null }, third] }],
    ['a split of unknown time', 0, { splits: [third, { ...third, seconds: null }, third] }],
    ['a split without a heart rate', 0, { splits: [third, { ...third, heartRate: null }, third] }],
  ])('with %s is computed %i times', (_, count, more) => {
    const given = run('2026-11-22', interval('easy', 9000, 2700, { splits: thirds, ...more }))
    expect(runFormOf([given], to).drift).toHaveLength(count)
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
  test.each([
    ['2026-09-30', true],
    ['2026-09-29', false],
  ])('include a race of 60 days ago, not of 61: %s', (date, is) => {
    const old = run(date, interval('race', 4.5 * 600 + 180, 600))
    const { criticalSpeed } = runFormOf([...intervals.slice(0, 2), old] as RunSession[], to)
    expect(criticalSpeed !== null).toBe(is)
  })
  test.each<[string, Run]>([
    ['all out', {}],
    ['repeats', { repeats: true }],
    ['a gap', { gaps: [0] }],
    ['an unknown time', { seconds: null }],
    ['an unknown distance', { meters: null }],
    ['another word', { word: 'hard' }],
  ])('come from single efforts of known distance and time: %s', (what, more) => {
    const third = run('2026-11-01', interval('all out', 4.5 * 600 + 180, 600, more))
    const { criticalSpeed } = runFormOf([...intervals.slice(0, 2), third] as RunSession[], to)
    expect(criticalSpeed !== null).toBe(what === 'all out')
  })
  test('make no exponent from an all-out effort outside a race', () => {
    const other = run('2026-11-01', interval('all out', 5000, 1200))
    const race = run('2026-11-02', interval('race', 10_000, 2520))
    expect(runFormOf([race, other], to).ownExponent).toBeNull()
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
  test('show the exponent of two races next to 1.06', () => {
    const form = runFormOf(
      [run('2026-11-20', interval('race', 5000, 1200)), run('2026-10-20', interval('race', 10_000, 2520))],
      to,
    )
    expect(form.ownExponent).toBeCloseTo(Math.log2(2.1), 12)
    expect(formBlock(form)).toEqual(["your own exponent of time over distance: 1.070 (Riegel's is 1.06)"])
  })
})

test('a best split that is slower than a longer row is not shown', () => {
  const rows = bestSplitsOf(
    runForm.runsOf([
      run('2026-11-01', interval(null, 5000, 1200, { splits: [split(5000, 1200)] })),
      run('2026-11-10', interval(null, 6000, 1560, { splits: [split(6000, 1560)] })),
      run('2026-11-20', interval(null, 10_000, 2500, { splits: [split(10_000, 2500)] })),
    ]),
  )
  expect(rows.map(({ meters }) => meters)).toEqual([5000, 10_000])
})

test('a best split downhill is told apart, and hides no shorter one on the level', () => {
  const rows = bestSplitsOf(
    runForm.runsOf([
      run('2026-11-01', interval(null, 5000, 1200, { splits: [split(5000, 1200)] })),
      run(
        '2026-11-20',
        interval('race', 10_000, 2300, { text: '10 km race, "downhill"', splits: [split(10_000, 2300)] }),
      ),
    ]),
  )
  expect(rows.map(({ meters, sloping }) => [meters, sloping])).toEqual([
    [5000, false],
    [10_000, true],
  ])
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

test('after the day of the goal its own race comes first, then the best one over each distance', () => {
  const goal = { meters: 5000, seconds: 1170, date: '2026-11-24' }
  const races = [
    session('2026-11-24', { runs: [interval('race', 5000, 1180)] }),
    session('2026-10-20', { runs: [interval('race', 5000, 1159)] }),
  ]
  const { towardRace } = runProgress(races, { from: '2026-08-10', to }, goal, '2026-11-25')
  expect(towardRace?.races.map(({ seconds }) => seconds)).toEqual([1180, 1159])
})

describe('the form in words', () => {
  const none: RunForm = {
    paceAtHeartRate: null,
    afterHeavyLegs: null,
    drift: [],
    criticalSpeed: null,
    ownExponent: null,
  }
  const shown = (form: Partial<RunForm>) => formBlock({ ...none, ...form })
  const legs = {
    of: 'effort' as const,
    from: 3,
    to: 3,
    afterSecondsPerKm: 350,
    afterDays: 5,
    otherSecondsPerKm: 345,
    otherDays: 7,
    secondsPerKm: 5,
    low: 0.4,
    high: 9.6,
    degreesOfFreedom: 8,
    isClear: true,
  }

  test('has no lines for what is unknown', () => {
    expect(shown({})).toEqual([])
  })
  test('has the twelve newest months, and an interval only for those with one', () => {
    const month = { month: '2026-11', runs: 2, secondsPerKm: 305, low: 290, high: 320 }
    const months = [{ ...month, month: '2026-10', runs: 1, low: null, high: null }, month]
    expect(shown({ paceAtHeartRate: { fromBeats: 140, toBeats: 149, months } })).toEqual([
      'easy running at 140 to 149 beats, by month, with the 95 % interval',
      '  2026-10: 5:05/km, 1 day',
      '  2026-11: 5:05/km (4:50/km to 5:20/km), 2 days',
    ])
    const many = Array.from({ length: 13 }, (_, at) => ({ ...month, month: `month ${at + 1}` }))
    const lines = shown({ paceAtHeartRate: { fromBeats: 140, toBeats: 149, months: many } })
    expect(lines.slice(1).map((line) => /month \d+/.exec(line || '')?.[0])).toEqual(
      many.slice(1).map((each) => each.month),
    )
  })
  test('names the effort, and a difference that rounds to 0', () => {
    expect(shown({ afterHeavyLegs: legs })).toEqual([
      'easy running at effort 3 the day after heavy legs: 5:50/km, 5 s/km slower than on other days (0 to 10), 5 days against 7 (95 % interval)',
    ])
    expect(shown({ afterHeavyLegs: { ...legs, isClear: false, low: -0.4 } })).toEqual([
      'easy running at effort 3 the day after heavy legs: 5:50/km, no difference seen from other days (0 to +10 s/km), 5 days against 7 (95 % interval)',
    ])
  })
  test('has the six newest drifts, each more or less', () => {
    const drift = [-9.09, 0, 1.24, 2, 3, 4, 5].map((percent) => ({
      session: 'long',
      date: '2026-11-22',
      meters: 12_000,
      percent,
    }))
    const percents = shown({ drift }).map((each) => each.replace(/.*12 km, /, ''))
    expect(percents).toEqual(
      ['9.1 % less', '0.0 % more', '1.2 % more', '2.0 % more', '3.0 % more', '4.0 % more'].map(
        (change) => `${change} distance a beat in the second half`,
      ),
    )
    expect(shown({ drift })[0]).toContain('heart-rate drift on 22 Nov 2026: 12 km,')
  })
  test('has the critical speed with its pace and its errors', () => {
    const criticalSpeed = { metersPerSecond: 4, meters: 180.4, speedError: 0.05, metersError: 12.3, count: 3 }
    expect(shown({ criticalSpeed })).toEqual([
      "critical speed 4.00 +/- 0.05 m/s (4:10/km), D' 180 +/- 12 m, from 3 intervals of 2 to 15 min in 60 days (standard errors)",
    ])
  })
})
