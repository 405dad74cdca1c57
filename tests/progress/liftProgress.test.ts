import { describe, expect, it } from 'vitest'
import { afterRunText, liftProgress } from '../../src/progress/lift.ts'
import { kilogramsOfLoad } from '../../src/session/load.ts'
import type { SetDone } from '../../src/summary/model.ts'
import { dayAfter } from '../../src/units/calendarDate.ts'
import { session, set } from './doneSessions.ts'

const span = { from: '2026-11-02', to: '2026-11-29' }
const squat = (oneRepMax: object | null, ...sets: ReturnType<typeof set>[]) => ({
  name: 'front squat',
  sets,
  oneRepMax,
})
const repsAndKg = ({ reps, load }: Pick<SetDone, 'reps' | 'load'>) => [reps, kilogramsOfLoad(load)]

describe('a lift over the weeks', () => {
  it('is the same in every spelling, with the name as last written', () => {
    const lift = liftProgress(
      [
        session('2026-11-24', { lifts: [{ name: 'Front squat', sets: [set(3, 95)] }] }),
        session('2026-11-03', { lifts: [{ name: 'front-squats', sets: [set(5, 90)] }] }),
      ],
      'FRONT SQUATS',
      span,
      span.to,
    )
    expect(lift.name).toBe('Front squat')
    expect(lift.bestSets.map(repsAndKg)).toEqual([
      [5, 90],
      [3, 95],
    ])
  })

  it('never joins estimates after a run, or from clusters, with fresh and unbroken ones', () => {
    const kinds = [
      { cluster: false, afterRun: false },
      { cluster: false, afterRun: true },
      { cluster: true, afterRun: false },
      { cluster: true, afterRun: true },
    ]
    const sessions = [23, 16, 9, 2].flatMap((day) =>
      [3, 2, 1, 0].map((index) =>
        session(`2026-11-${String(day + index).padStart(2, '0')}`, {
          lifts: [squat({ kg: 100 + 10 * index + day / 7, ...kinds[index] })],
        }),
      ),
    )
    const { estimates, trends } = liftProgress(sessions, 'front squat', span, span.to)
    expect(estimates.map(({ kind }) => kind)).toEqual(
      [1, 2, 3, 4].flatMap(() => ['fresh', 'afterRun', 'cluster', 'clusterAfterRun']),
    )
    expect(trends.map(({ kind, trend }) => [kind, trend.count])).toEqual([
      ['fresh', 4],
      ['afterRun', 4],
      ['cluster', 4],
      ['clusterAfterRun', 4],
    ])
    for (const { trend } of trends) expect(trend.perWeek).toBeCloseTo(1, 9)
  })

  it('draws no line through estimates that are "at least"', () => {
    const sessions = ['23', '16', '09', '02'].map((day) =>
      session(`2026-11-${day}`, { lifts: [squat({ atLeast: true })] }),
    )
    const { estimates, trends } = liftProgress(sessions, 'front squat', span, span.to)
    expect(estimates).toHaveLength(4)
    expect(trends).toEqual([])
  })

  it('tells what running costs from 26 weeks, without estimates that are "at least"', () => {
    const day = (back: number) => new Date(Date.UTC(2026, 10, 29 - back)).toISOString().slice(0, 10)
    const sessions = (atLeast: boolean, days = 10, begin = 0) =>
      Array.from({ length: days }, (_, at) => {
        const afterRun = at % 2 === 1
        const kg = (afterRun ? 94 : 100) + (at % 3)
        return session(day(begin + at * 7), {
          lifts: [squat({ kg, afterRun, atLeast: atLeast && at === 9 })],
        })
      })
    const cost = (all: ReturnType<typeof session>[], today = span.to) =>
      liftProgress(all, 'front squat', span, today).runCost
    expect(cost(sessions(false))?.days).toBe(5)
    expect(cost(sessions(true))).toBeNull()
    expect(cost(sessions(false, 10, 26 * 7 - 9 * 7))).not.toBeNull()
    expect(cost(sessions(false, 10, 26 * 7 - 9 * 7 + 1))).toBeNull()
    // As in the recorder, the 26 weeks end today, not on the Sunday of this week.
    expect(cost(sessions(false, 10, 26 * 7 - 9 * 7 + 1), day(1))).not.toBeNull()
  })

  // This program's own rule.
  it('takes a lift as after running if an earlier session of its day has hard running, not one after it or an easy one', () => {
    const track = (date: string) =>
      session(date, { id: `track-${date}`, hardRunMeters: 3000, runs: [{ meters: 3000 }] })
    const lift = (date: string, kg: number) => session(date, { lifts: [squat({ kg })] })
    const easy = (date: string) => session(date, { id: `easy-${date}`, runs: [{ meters: 8000 }] })
    const kinds = (...sessions: ReturnType<typeof session>[]) =>
      liftProgress(sessions, 'front squat', span, span.to).estimates.map(({ kind }) => kind)
    const date = '2026-11-24'
    expect(kinds(lift(date, 100), track(date))).toEqual(['afterRun'])
    expect(kinds(lift(date, 100), easy(date), track(date))).toEqual(['afterRun'])
    expect(kinds(lift(date, 100), easy(date))).toEqual(['fresh'])
    // 6 x 3 min hard on a treadmill, whose distance nobody typed.
    const treadmill = { ...easy(date), day: { ...easy(date).day, hardSeconds: 1080 } }
    expect(kinds(lift(date, 100), treadmill)).toEqual(['afterRun'])
    expect(kinds(track(date), lift(date, 100))).toEqual(['fresh'])
    expect(kinds(lift(date, 100), track('2026-11-23'))).toEqual(['fresh'])
    const days = [28, 27, 26, 25, 24].flatMap((day) => [
      lift(`2026-11-${day}`, 95),
      track(`2026-11-${day}`),
      lift(`2026-11-${day - 10}`, 100),
    ])
    const inOrder = days.sort((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : 0))
    expect(liftProgress(inOrder, 'front squat', span, span.to).runCost).toMatchObject({ days: 5 })
  })

  it('tells what running costs on the newest day, on the straight line of a lift that rises', () => {
    const sessions = Array.from({ length: 10 }, (_, at) => {
      const afterRun = at % 2 === 1
      const kg = (afterRun ? 95 : 100) * Math.exp(-0.01 * at)
      return session(new Date(Date.UTC(2026, 10, 29 - at)).toISOString().slice(0, 10), {
        lifts: [squat({ kg, afterRun })],
      })
    })
    const cost = liftProgress(sessions, 'front squat', span, span.to).runCost
    expect(cost?.percent).toBeCloseTo(-5, 9)
    expect(cost?.freshKg).toBeCloseTo(100, 9)
    expect(cost?.afterRunKg).toBeCloseTo(95, 9)
  })

  it('is a share of all that is lifted in a lift on the body, and loads are named with it', () => {
    const sessions = Array.from({ length: 10 }, (_, at) => {
      const afterRun = at % 2 === 1
      // A body of 70 kg: 95 % of 80 kg are 76 kg.
      const lifted = { ...squat({ kg: afterRun ? 6 : 10, afterRun }), name: 'pull-up', bodyKg: 70 }
      return session(dayAfter('2026-11-29', -at), { lifts: [lifted] })
    })
    const { runCost } = liftProgress(sessions, 'pull-up', span, span.to)
    expect(runCost?.percent).toBeCloseTo(-5, 9)
    expect(runCost && afterRunText(runCost, 'kg')).toBe(
      'estimated maximum after running: about bodyweight+6 kg (+10 fresh)',
    )
  })

  describe('per kilometre of hard running before it', () => {
    const days = (hardMetersOf: (km: number) => number) =>
      [5, 4, 3, 2, 1].flatMap((km) => [
        session(`2026-11-${20 + km}`, {
          lifts: [squat({ kg: 100 * Math.exp(-0.01 * km), afterRun: true })],
          hardRunMeters: hardMetersOf(km),
        }),
        session(`2026-11-${10 + km}`, { lifts: [squat({ kg: 100 })] }),
      ])
    const cost = (all: ReturnType<typeof session>[], to = span.to) =>
      liftProgress(all, 'front squat', { from: span.from, to }, to).runCost

    it('is told from the hard running of each day, unless it is always the same', () => {
      // 1 % less in logarithms for each kilometre: 100 (e^-0.01 - 1).
      expect(cost(days((km) => km * 1000))?.perHardKm?.percent).toBeCloseTo(100 * Math.expm1(-0.01), 9)
      expect(cost(days(() => 0))).toMatchObject({ days: 5, perHardKm: null })
    })

    it('is not told from a day after the last, or from an estimate that is not above 0', () => {
      const with5th = (kg: number) => [
        ...days((km) => km * 1000).slice(1),
        session('2026-11-25', { lifts: [squat({ kg, afterRun: true })] }),
      ]
      expect(cost(with5th(95), '2026-11-25')?.days).toBe(5)
      expect(cost(with5th(95), '2026-11-24')).toBeNull()
      expect([cost(with5th(0)), cost(with5th(-5))]).toEqual([null, null])
    })
  })

  it('has sets, repetitions and tonnage by week, and 0 in a week without', () => {
    const sessions = [
      session('2026-11-22', { lifts: [squat(null, set(2, 100))] }),
      session('2026-11-16', { lifts: [squat(null, set(4, 95), set(4, 95))] }),
      session('2026-11-02', { lifts: [squat(null, set(5, 90))] }),
      session('2026-11-01', { lifts: [squat(null, set(5, 200))] }),
    ]
    expect(liftProgress(sessions, 'front squat', span, span.to).weeks).toEqual([
      { week: '2026-W45', monday: '2026-11-02', sessions: 1, sets: 1, reps: 5, tonnageKg: 450 },
      { week: '2026-W46', monday: '2026-11-09', sessions: 0, sets: 0, reps: 0, tonnageKg: 0 },
      { week: '2026-W47', monday: '2026-11-16', sessions: 2, sets: 3, reps: 10, tonnageKg: 960 },
      { week: '2026-W48', monday: '2026-11-23', sessions: 0, sets: 0, reps: 0, tonnageKg: 0 },
    ])
  })
})

describe('best sets', () => {
  const best = (...lifts: [date: string, ...ReturnType<typeof set>[]][]) =>
    liftProgress(
      lifts.map(([date, ...sets]) => session(date, { lifts: [squat(null, ...sets)] })),
      'front squat',
      span,
      span.to,
    )

  it('are those that no other beats in both load and repetitions', () => {
    const { bestSets } = best(['2026-11-24', set(5, 100), set(3, 100), set(1, 110), set(8, 80), set(2, 105)])
    expect(bestSets.map((each) => repsAndKg(each).join(' x '))).toEqual([
      '8 x 80',
      '5 x 100',
      '2 x 105',
      '1 x 110',
    ])
  })

  it('have the date on which they were first done, also before the weeks shown', () => {
    const { bestSets } = best(
      ['2026-11-24', set(3, 100)],
      ['2025-05-01', set(3, 100)],
      ['2024-05-01', set(3, 95)],
    )
    expect(bestSets).toEqual([
      {
        reps: 3,
        groups: null,
        seconds: null,
        meters: null,
        load: { kind: 'mass', value: 100, unit: 'kg', pair: false },
        date: '2025-05-01',
        session: 'session-2025-05-01',
      },
    ])
  })

  it('take in the last day, which estimates and weeks do too, but those only from the first on', () => {
    const on = (date: string) => session(date, { lifts: [squat({ kg: 100 }, set(3, 100))] })
    const lift = liftProgress([on('2026-11-29'), on('2026-11-01')], 'front squat', span, span.to)
    expect(lift.bestSets.map(({ date }) => date)).toEqual(['2026-11-01'])
    expect(lift.estimates.map(({ date }) => date)).toEqual(['2026-11-29'])
    expect(lift.weeks.map(({ sets }) => sets)).toEqual([0, 0, 0, 1])
    expect(best(['2026-11-29', set(3, 100)]).bestSets).toHaveLength(1)
  })

  it('are each heavier than all with more repetitions', () => {
    const sets = [set(5, 100), set(3, 110), set(2, 105), set(8, 80), set(6, 70)]
    expect(best(['2026-11-24', ...sets]).bestSets.map(repsAndKg)).toEqual([
      [8, 80],
      [5, 100],
      [3, 110],
    ])
  })

  it('leave out sets without a load, and those of which nothing was counted', () => {
    const odd = [
      { ...set(5, 100), load: null },
      { ...set(0, 100), reps: null },
      { ...set(0, 100, [1, 1]), load: null },
    ]
    const { bestSets } = best(['2026-11-24', ...odd])
    expect(bestSets.filter(({ load }) => load !== null)).toEqual([])
  })

  it('leave out sets after the last day, and failed sets without a repetition', () => {
    expect(best(['2026-12-01', set(3, 150)], ['2026-11-24', set(0, 140)]).bestSets).toEqual([])
  })

  it('list clusters separately, by their groups', () => {
    const { bestSets } = best([
      '2026-11-24',
      set(3, 92.5, [1, 1, 1]),
      set(3, 95, [1, 1, 1]),
      set(4, 90, [2, 2]),
    ])
    expect(bestSets.map((each) => [each.groups?.join('+'), repsAndKg(each)[1]])).toEqual([
      ['2+2', 90],
      ['1+1+1', 95],
    ])
  })

  it('list clusters with their earliest date, those of most repetitions first and of as many the heaviest', () => {
    const { bestSets } = best(
      ['2026-11-25', set(2, 95, [1, 1]), set(3, 90, [2, 1])],
      ['2026-11-24', set(2, 100, [1, 1]), set(3, 92.5, [1, 2]), set(3, 95, [1, 1, 1]), set(4, 85, [2, 2])],
      ['2026-11-23', set(2, 100, [1, 1]), set(3, 85, [2, 1])],
    )
    expect(bestSets.map((each) => `${each.groups?.join('+')} x ${repsAndKg(each)[1]}, ${each.date}`)).toEqual(
      [
        '2+2 x 85, 2026-11-24',
        '1+1+1 x 95, 2026-11-24',
        '1+2 x 92.5, 2026-11-24',
        '2+1 x 90, 2026-11-25',
        '1+1 x 100, 2026-11-23',
      ],
    )
  })
})
