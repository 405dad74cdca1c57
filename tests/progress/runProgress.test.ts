import { describe, expect, it } from 'vitest'
import { runProgress, withoutTarget } from '../../src/progress/run.ts'
import { session } from './doneSessions.ts'

const span = { from: '2026-11-16', to: '2026-11-29' }
const today = '2026-11-25'
const goal = { meters: 10_000, seconds: 2370, date: '2027-04-18' }
const split = (meters: number | null, seconds: number | null) => ({
  meters,
  seconds,
  secondsPerKm: meters === null || seconds === null ? null : (1000 * seconds) / meters,
  target: null,
  heartRate: null,
  heartRateMax: null,
  rpe: null,
})

describe('running by week', () => {
  it('has the distance, and the share of the work within 2 % of goal pace', () => {
    const sessions = [
      session('2026-11-24', { runs: [{ of: [[5000, 1500]] }] }),
      session('2026-11-17', {
        // 237 s/km is goal pace: 241.74 is the last within 2 %, 241.8 is beyond.
        runs: [{ of: [[1000, 241.74]] }, { of: [[1000, 241.8]] }, { of: [[2000, 700]] }],
      }),
    ]
    const { weeks, goalPaceShare } = runProgress(sessions, span, goal, today)
    expect(weeks).toMatchObject([
      {
        week: '2026-W47',
        monday: '2026-11-16',
        isOver: true,
        sessions: 1,
        meters: 4000,
        unmeasuredSeconds: 0,
        goalPaceShare: 0.25,
      },
      {
        week: '2026-W48',
        monday: '2026-11-23',
        isOver: false,
        sessions: 1,
        meters: 5000,
        unmeasuredSeconds: 0,
        goalPaceShare: 0,
      },
    ])
    expect(goalPaceShare).toBeCloseTo(1 / 9, 12)
  })

  it('ends on the last day of the span and of the week', () => {
    const run = (date: string) => session(date, { runs: [{ of: [[5000, 1500]] }] })
    const sessions = [run('2026-11-30'), run('2026-11-29'), run('2026-11-23')]
    const { weeks, bestSplits } = runProgress(sessions, span, goal, '2026-11-29')
    expect(weeks[1]).toMatchObject({ sessions: 2, meters: 10_000, isOver: true })
    expect(runProgress(sessions.slice(2), span, goal, '2026-11-29').weeks[1]).toMatchObject({ isOver: false })
    expect(bestSplits).toMatchObject([{ date: '2026-11-23', count: 2 }])
  })

  it.each([
    [1, 0.5],
    [-1, 0.5],
    [1.5, null],
    [-1.5, null],
  ])('counts for the share up to a grade of 1 %%: %s %%', (gradePercent, share) => {
    const runs = [{ gradePercent, splits: [split(1000, 237), split(1000, 300)], meters: 2000, seconds: 537 }]
    expect(runProgress([session('2026-11-24', { runs })], span, goal, today).goalPaceShare).toBe(share)
  })

  it('counts for the share only what has both a distance and a time', () => {
    const splits = [split(1000, 237), split(null, 300), split(1000, null)]
    const sessions = [session('2026-11-24', { runs: [{ splits, meters: 2000, seconds: 537 }] })]
    expect(runProgress(sessions, span, goal, today).goalPaceShare).toBe(1)
  })

  it('has no share without a goal or without work of known pace', () => {
    const sessions = [session('2026-11-24', { runs: [{ of: [[5000, 1500]] }] })]
    expect(runProgress(sessions, span, null, today).goalPaceShare).toBeNull()
    expect(runProgress(sessions, span, null, today).towardRace).toBeNull()
    expect(runProgress([], span, goal, today).goalPaceShare).toBeNull()
  })
})

describe('a repeated line', () => {
  it.each([
    ['6 x 500 m @ 3:35-3:45/km, jog 200 m', '6 x 500 m, jog 200 m'],
    ['6 x 500 m in 1:47-1:52, jog 200 m', '6 x 500 m, jog 200 m'],
    ['6 x 500 m at goal, jog 200 m', '6 x 500 m, jog 200 m'],
    ['5 km @ 4:05-4:10/km, split 1 km, negative', '5 km, split 1 km, negative'],
    ['8 x 45 s @ rpe 8-9, jog down, grade 6%', '8 x 45 s, jog down, grade 6%'],
    ['5 km@4:05/km', '5 km'],
    ['  5 km @ 4:05/km', '5 km'],
    ['tempo 2 km, "steady arms"', 'tempo 2 km, "steady arms"'],
  ])('%s is %s, whatever its target', (written, line) => {
    expect(withoutTarget(written)).toBe(line)
  })

  it('is followed over time, with the evenness of its splits', () => {
    const runs = (text: string, seconds: number) => [
      {
        text,
        of: [
          [1000, seconds],
          [1000, seconds],
        ] as [number, number][],
        judged: 2,
        inRange: 1,
        cvPercent: 1.5,
      },
    ]
    const sessions = [
      session('2026-11-24', { runs: runs('2 x 1 km @ 3:50/km, jog 400 m', 230) }),
      session('2026-11-17', { runs: runs('2 x 1 KM @ 4:00/km,  jog 400 m', 240) }),
      session('2026-11-09', { runs: runs('2 x 1 km @ 4:10/km, jog 400 m', 250) }),
    ]
    const { lines } = runProgress(sessions, span, goal, today)
    expect(lines).toHaveLength(1)
    expect(lines[0]?.done.map(({ date, secondsPerKm }) => [date, secondsPerKm])).toEqual([
      ['2026-11-17', 240],
      ['2026-11-24', 230],
    ])
    expect(lines[0]?.done[0]).toMatchObject({ cvPercent: 1.5, inRange: 1, judged: 2, halves: null })
  })

  it('is listed with a target or with splits, the one run most often first', () => {
    const run = (text: string, of: [number, number][], judged: number) => ({
      text,
      of,
      judged,
      inRange: judged,
    })
    const target = run('3 km @ 4:00/km', [[3000, 720]], 1)
    const split = run(
      '2 km, split 1 km',
      [
        [1000, 300],
        [1000, 300],
      ],
      0,
    )
    const once = run('1 km @ 3:30/km', [[1000, 210]], 1)
    const sessions = [
      session('2026-11-24', { runs: [target, split, split] }),
      session('2026-11-20', { runs: [split, once] }),
      session('2026-11-17', { runs: [target, split] }),
    ]
    const { lines } = runProgress(sessions, span, goal, today)
    expect(lines.map(({ line, done }) => [line, done.map(({ date }) => date)])).toEqual([
      ['2 km, split 1 km', ['2026-11-17', '2026-11-20', '2026-11-24']],
      ['3 km', ['2026-11-17', '2026-11-24']],
    ])
  })

  it('is not listed if it was run once, or has neither splits nor a target', () => {
    const timed = [
      { text: '2 x 3 min @ 4:00/km', splits: [split(null, 180), split(null, 180)], meters: null },
      { text: '8 km easy', of: [[8000, 2600]] as [number, number][] },
    ]
    const easy = (date: string) => session(date, { runs: timed })
    expect(runProgress([easy('2026-11-24'), easy('2026-11-17')], span, goal, today).lines).toEqual([])
  })
})

describe('best recorded splits', () => {
  it('are the fastest of repeats, splits and whole intervals by distance', () => {
    const sessions = [
      session('2026-11-24', {
        runs: [
          {
            repeats: true,
            of: [
              [500, 109.2],
              [500, 107.4],
            ],
          },
          {
            of: [
              [1000, 240],
              [1000, 238],
            ],
          },
          { of: [[2000, 500]] },
        ],
      }),
      session('2026-05-24', {
        runs: [
          {
            of: [
              [1000, 230],
              [1000, 260],
            ],
          },
          { of: [[80, 12]] },
        ],
      }),
    ]
    const { bestSplits } = runProgress(sessions, span, goal, today)
    expect(
      bestSplits.map(({ meters, seconds, of, date, count }) => [meters, seconds, of, date, count]),
    ).toEqual([
      [500, 107.4, 'repeat', '2026-11-24', 2],
      [1000, 230, 'split', '2026-05-24', 4],
      [2000, 478, 'piece', '2026-11-24', 3],
    ])
  })
})

describe('a best recorded split', () => {
  const best = (...runs: NonNullable<NonNullable<Parameters<typeof session>[1]>['runs']>) =>
    runProgress(
      runs.map((run, at) => session(`2026-11-${24 - at}`, { runs: [run] })),
      span,
      goal,
      today,
    ).bestSplits.map(({ meters, seconds, date, count }) => [meters, seconds, date.slice(-2), count])

  it('is at least 100 m long, with a known distance and time', () => {
    expect(best({ repeats: true, splits: [split(99, 15), split(100, 16)], meters: 199 })).toEqual([
      [100, 16, '24', 1],
    ])
    expect(
      best({ splits: [split(null, 15), split(1000, null), split(1000, 240)], meters: 2000, seconds: null }),
    ).toEqual([[1000, 240, '24', 1]])
  })

  it('is never the short last split of a distance that its splits do not divide', () => {
    const inMiles = {
      of: [
        [1609.344, 460],
        [1609.344, 480],
        [1781.312, 520],
      ] as [number, number][],
    }
    expect(best(inMiles).map(([meters]) => meters)).toEqual([1609.344, 1781.312, 5000])
    const withRest = {
      of: [
        [1609.344, 460],
        [1609.344, 480],
        [1609.344, 480],
        [171.968, 40],
      ] as [number, number][],
    }
    expect(best(withRest).map(([meters]) => meters)).toEqual([1609.344, 5000])
  })

  it('is the earliest of equals, and lengths are the same to the nearest metre', () => {
    expect(best({ of: [[500, 100]] }, { of: [[500, 100]] })).toEqual([[500, 100, '23', 2]])
    expect(best({ of: [[500.4, 100]] }, { of: [[499.6, 101]] })).toEqual([[500.4, 100, '24', 2]])
    expect(best({ of: [[500.6, 100]] }, { of: [[500.4, 101]] })).toHaveLength(1)
    expect(best({ of: [[501, 101]] }, { of: [[500, 100]] })).toHaveLength(2)
  })
})

describe('a continuous run with splits that were not recorded', () => {
  const kilometres = (seconds: number, count: number) => Array(count).fill([1000, seconds])
  const interval = (word: string | null, gaps: number[]) => [
    session('2026-11-24', { runs: [{ word, gaps, of: kilometres(237, 4) }] }),
  ]
  const distances = (gaps: number[]) =>
    runProgress(interval(null, gaps), span, goal, today).bestSplits.map(({ meters }) => meters)

  it('is whole if they come before or after the others, not between', () => {
    expect(distances([0, 4])).toEqual([1000, 4000])
    expect(distances([2])).toEqual([1000])
  })

  it('is not a race, because its distance and time would not be its own', () => {
    const race = (gaps: number[]) =>
      runProgress(interval('race', gaps), span, goal, today).towardRace?.lastRace
    expect(race([])?.meters).toBe(4000)
    expect([race([0]), race([2]), race([4])]).toEqual([null, null, null])
  })
})

describe('the facts about the race', () => {
  /* Source: Daniels and Gilbert 1979, computed from the equations: a value of 50 is 5 km in 19:56.0 and 10 km
   * in 41:19.6. Riegel 1981: 10 km is 5 km times 2^1.06. */
  it('include the last race or trial with the results of both equations', () => {
    const sessions = [
      session('2026-11-24', { runs: [{ word: 'easy', of: [[5000, 1500]] }] }),
      session('2026-09-22', { id: 'trial001', runs: [{ word: 'trial', of: [[5000, 1196]] }] }),
      session('2026-08-22', { runs: [{ word: 'race', of: [[5000, 1100]] }] }),
    ]
    const race = runProgress(sessions, span, goal, today).towardRace
    expect(race?.lastRace).toMatchObject({ session: 'trial001', word: 'trial', meters: 5000, seconds: 1196 })
    expect(race?.lastRace?.danielsGilbert?.seconds).toBeCloseTo(2479.6, 0)
    expect(race?.lastRace?.danielsGilbert?.holds).toBe(true)
    expect(race?.lastRace?.riegel?.seconds).toBeCloseTo(1196 * 2 ** 1.06, 6)
    expect(race?.goal.secondsPerKm).toBe(237)
  })

  it('leave out repeats marked as a trial, and results that an equation refuses', () => {
    const repeats = session('2026-11-24', { runs: [{ word: 'trial', repeats: true, of: [[500, 100]] }] })
    expect(runProgress([repeats], span, goal, today).towardRace?.lastRace).toBeNull()
    const slow = session('2026-11-24', { runs: [{ word: 'race', of: [[5000, 15_000]] }] })
    const race = runProgress([slow], span, goal, today).towardRace?.lastRace
    expect(race?.danielsGilbert).toBeNull()
    expect(race?.riegel?.holds).toBe(false)
  })

  it('include the best over the distances nearest to it, of the last 120 days', () => {
    const race = (date: string, meters: number, seconds: number) =>
      session(date, { id: `${date} ${meters}`, runs: [{ word: 'race', of: [[meters, seconds]] }] })
    const sessions = [
      race('2026-11-20', 5000, 1196),
      race('2026-11-10', 5000, 1190),
      race('2026-11-08', 5000, 1210),
      race('2026-11-01', 3000, 700),
      race('2026-10-01', 10_000, 2500),
      race('2026-07-28', 21_097, 5500),
      race('2026-07-27', 8000, 1900),
    ]
    const facts = runProgress(sessions, span, goal, today).towardRace
    expect(facts?.races.map(({ session, seconds }) => [session, seconds])).toEqual([
      ['2026-10-01 10000', 2500],
      ['2026-11-10 5000', 1190],
      ['2026-07-28 21097', 5500],
    ])
  })

  it('prefer a level race to one with a slope, of each the fastest, and of equals the newest', () => {
    const best = (...times: [seconds: number, text?: string][]) =>
      runProgress(
        times.map(([seconds, text = '5 km race'], at) =>
          session(`2026-11-${24 - at}`, { runs: [{ word: 'race', text, of: [[5000, seconds]] }] }),
        ),
        span,
        goal,
        today,
      ).towardRace?.races.map(({ seconds, date }) => [seconds, date.slice(-2)])
    const downhill = '5 km race, "downhill"'
    expect(best([1100, downhill], [1200])).toEqual([[1200, '23']])
    expect(best([1200], [1100, downhill])).toEqual([[1200, '24']])
    expect(best([1100, downhill], [1050, downhill])).toEqual([[1050, '23']])
    expect(best([1200], [1200])).toEqual([[1200, '24']])
  })

  /* Source: the ranges of Daniels and Gilbert 1979 (3.5 min to 4 h) and Riegel 1981 (3.5 to 230 min). */
  it.each([
    // 2:05 over 800 m is too short, although 10 km in its equal time of about 30 min is not.
    [800, 125, 10_000, false],
    // 40:00 is in the range, but an equal time over 100 km is beyond four hours.
    [10_000, 2400, 100_000, false],
    [10_000, 2400, 21_097.5, true],
  ])('hold for %d m in %d s against %d m: %s', (meters, seconds, goalMeters, holds) => {
    const sessions = [session('2026-11-24', { runs: [{ word: 'race', of: [[meters, seconds]] }] })]
    const far = { ...goal, meters: goalMeters }
    const last = runProgress(sessions, span, far, today).towardRace?.lastRace
    expect([last?.danielsGilbert?.holds, last?.riegel?.holds]).toEqual([holds, holds])
  })

  it("leave out of the athlete's own exponent what is older than 120 days at the end, or today", () => {
    const races = (...dates: [string, string]) =>
      dates.map((date, at) =>
        session(date, { runs: [{ word: 'race', of: [at === 0 ? [5000, 1200] : [10_000, 2520]] }] }),
      )
    const own = (to: string, ...dates: [string, string]) =>
      runProgress(races(...dates), { from: '2026-08-03', to }, goal, today).form.ownExponent
    // 120 and 121 days before 25 November; the span ends on the 29th.
    expect(own('2026-11-29', '2026-11-20', '2026-07-28')).not.toBeNull()
    expect(own('2026-11-29', '2026-11-20', '2026-07-27')).toBeNull()
    // 120 and 121 days before the end of the span on 9 August.
    expect(own('2026-08-09', '2026-08-09', '2026-04-11')).not.toBeNull()
    expect(own('2026-08-09', '2026-08-09', '2026-04-10')).toBeNull()
  })

  it('include the days left until the race, none on its day', () => {
    expect(runProgress([], span, goal, today).towardRace?.daysLeft).toBe(144)
    expect(runProgress([], span, goal, '2027-04-18').towardRace?.daysLeft).toBe(0)
    expect(runProgress([], span, { ...goal, date: null }, today).towardRace?.daysLeft).toBeNull()
  })
})
