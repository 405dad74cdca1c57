import { describe, expect, it } from 'vitest'
import { weekOf } from '../../src/progress/week.ts'
import { doneDay, plannedDay } from '../../src/summary/day.ts'
import { figuresOf } from '../../src/summary/summarise.ts'
import { dayOf } from '../day.ts'
import { bareContext } from '../summary/bareContext.ts'
import { Kept } from '../summary/kept.ts'
import { restDay } from './doneSessions.ts'

const day = (lines: string, headers = '') => dayOf(`Thursday\n${headers}\n${lines}\n`)
const goal = 'goal: 10 km in 40:00\n'

describe('a prepared day', () => {
  const planned = (lines: string, headers = '', maxima: { name: string; kg: number }[] = []) =>
    plannedDay(
      day(lines, headers),
      () => [],
      maxima.map((each) => ({ ...each, basis: 'known' })),
    )

  it('has its running, hard and total, its sets and its minutes', () => {
    const { minutes, ...rest } = planned(
      'run\n  2 km easy\n  6 x 500 m @ 3:35-3:45/km, jog 200 m\n  10 min hard\n\ncross: rower\n  5 km hard\n\nlift\n  bench 3 x 5 @ 60 kg\n',
    )
    expect(rest).toEqual({
      title: 'Thursday',
      meters: 6000,
      longestMeters: 6000,
      unmeasuredSeconds: 600,
      hardMeters: 3000,
      hardSeconds: 600,
      sets: 3,
      heavyLegSets: 0,
      contacts: 0,
      isHard: true,
      special: null,
      harderThanMeant: null,
    })
    expect(minutes).toBeGreaterThan(30)
  })

  // 4 x 3, both legs of 2 x 5, and 3 rounds of 10: the jumps and hops of a day in every form.
  it('counts the landings of jumps and hops', () => {
    const day = planned(
      'lift\n  box jump 4 x 3 at 60 cm\n  pogo hop 2 x 5 each leg\n  for time: 3 rounds of 10 squat jump, 100 m run\n  squat 3 x 5 @ 60 kg\n',
    )
    expect(day.contacts).toBe(12 + 20 + 30)
  })

  it.each([
    ['front squat 3 x 5 @ 92.5 kg', '', 0],
    ['front squat 3 x 5 @ 92.5 kg rpe 8', '', 3],
    ['split squat 3 x 6 @ 2x20 kg rpe 8', '', 3],
    ['walking lunge 3 x 6 @ 2x20 kg rpe 8', '', 3],
    ['Romanian deadlift 3 x 6 @ 100 kg rpe 7', '', 0],
    ['front squat 3 x 8 @ 60 kg', '', 0],
    ['front squat 3 x 8 @ 60 kg rpe 8', '', 0],
    ['front squat 3 x 5 @ 85 kg', 'max: front squat 110 kg\n', 0],
    ['front squat 3 x 5 @ 88 kg', 'max: front squat 110 kg\n', 3],
    ['front squat 2 x 8 @ 80%', 'max: front squat 110 kg\n', 2],
    ['bench 3 x 3 @ 80 kg rpe 9', '', 0],
    ['plank 3 x 45 s', '', 0],
    ['pistol squat 3 x 5 @ bodyweight', '', 0],
  ])('%s: heavy for the legs', (line, headers, sets) => {
    expect(planned(`lift\n  ${line}`, headers).heavyLegSets).toBe(sets)
  })

  it.each([
    ['15 km easy', 'long run'],
    ['14.9 km easy', null],
    ['75 min easy', 'long run'],
    ['74 min easy', null],
    ['8 km easy\n  7 km easy', 'long run'],
    ['16 km easy, split 1 km', 'long run'],
    ['16 x 1 km easy, jog 200 m', null],
    ['5 km', null],
    // Not all of one part.
    ['8 km easy\nrun\n  8 km easy', null],
    ['15 km easy\nrun\n  2 km easy', 'long run'],
    ['5 km race', 'race'],
    ['3 km trial', 'trial'],
    ['3 km trial\n  5 km race', 'race'],
  ])('with %j is special: %s', (lines, special) => {
    expect(planned(`run\n  ${lines}`).special).toBe(special)
    expect(planned(`cross\n  ${lines}`).special).toBeNull()
  })

  it('is hard by its hard running, by distance or by time, or by its heavy sets', () => {
    const isHard = (lines: string) => planned(lines).isHard
    expect(isHard('run\n  1 km hard')).toBe(true)
    expect(isHard('run\n  1 min hard')).toBe(true)
    expect(isHard('lift\n  squat 1 x 5 @ 100 kg rpe 8')).toBe(true)
    expect(isHard('run\n  1 km easy\nlift\n  squat 1 x 5 @ 100 kg')).toBe(false)
    expect(isHard('cross\n  1 km hard')).toBe(false)
  })

  it('does not count pull-ups in a part called legs', () => {
    expect(planned('lift: legs\n  pull-up 3 x 5 @ bodyweight rpe 9').heavyLegSets).toBe(0)
  })

  it('uses the name of the part too, and maxima of earlier days', () => {
    expect(planned('lift: legs\n  toe press 2 x 5 @ 100 kg rpe 8').heavyLegSets).toBe(2)
    const maxima = [{ name: 'Toe Presses', kg: 120 }]
    expect(planned('lift: legs\n  toe press 2 x 5 @ 100 kg', '', maxima).heavyLegSets).toBe(2)
  })
})

describe('a day that was done', () => {
  const doneOf = (lines: string, entries: string[], effort: number | null, hrMax: number | null = null) => {
    const kept = new Kept(day(lines, goal)).type(...entries).close(0, effort, 40)
    return doneDay(figuresOf(kept.session, { ...bareContext, hrMax }))
  }

  it('has what was recorded of it, and nothing that was only planned', () => {
    const found = doneOf(
      'run\n  2 km easy\n  3 x 1 km @ 3:50/km, jog 200 m\nlift\n  squat jump 2 x 5\n  pogo hop 1 x 6 each leg\n  squat 2 x 5 @ 100 kg\n',
      ['10:00', '3:50', '3:52', '-', '5', '-', '6', '5 @9', '5 @7'],
      null,
    )
    expect(found).toEqual({
      title: 'Thursday',
      meters: 4400,
      longestMeters: 4400,
      unmeasuredSeconds: 0,
      hardMeters: 2000,
      hardSeconds: 0,
      sets: 4,
      heavyLegSets: 1,
      // 5 jumps, and 6 hops on each leg.
      contacts: 17,
      isHard: true,
      special: null,
      harderThanMeant: null,
      minutes: 40,
    })
  })

  it('is hard if one of its parts was, and tells which part was harder than meant', () => {
    const lines = 'run: recovery\n  20 min easy\nrun: recovery\n  20 min easy\n'
    const hard = { isHard: true, harderThanMeant: 'hr 180 in fact' }
    expect(doneOf(lines, ['20:00 hr 140', '20:00 hr 180'], null, 200)).toMatchObject(hard)
    expect(doneOf(lines, ['20:00 hr 180', '20:00 hr 140'], null, 200)).toMatchObject(hard)
    expect(doneOf(lines, ['20:00 hr 140', '20:00 hr 140'], null, 200)).toMatchObject({
      isHard: false,
      harderThanMeant: null,
    })
  })

  it('is long by what was run, and harder than meant by its heart rate', () => {
    expect(doneOf('run\n  16 km easy\n', ['15 km in 1:20:00'], 3)).toMatchObject({ special: 'long run' })
    expect(doneOf('run\n  16 km easy\n', ['14 km in 1:10:00'], 3)).toMatchObject({ special: null })
    expect(doneOf('run\n  16 km easy\n', ['-'], 3)).toMatchObject({ special: null, meters: 0 })
    expect(doneOf('run\n  20 min easy\n', ['20:00 hr 180'], 4, 200)).toMatchObject({
      hardSeconds: 1200,
      harderThanMeant: 'hr 180 and effort 4 in fact',
      isHard: true,
    })
    expect(doneOf('run\n  20 min easy\n', ['20:00 hr 170'], 4, 200)).toMatchObject({
      hardSeconds: 0,
      harderThanMeant: null,
      isHard: false,
    })
  })
})

describe('a week', () => {
  const entry = (more: { meters?: number }) => ({
    ...restDay,
    title: 'Day',
    longestMeters: more.meters ?? 0,
    ...more,
  })
  const calendar = (date: string, done: object[] = [], ready: object[] = []) => ({
    date,
    done: done.map((each) => ({ ...entry(each), id: 'abcdef', finished: true })),
    ready: ready.map((each) => ({ ...entry(each), file: 'day.txt' })),
  })
  const week = (days: ReturnType<typeof calendar>[], before: ReturnType<typeof calendar>) =>
    weekOf({ week: '2026-W48', days, undated: [], unreadable: [], pain: [], due: null, planned: null }, [
      before,
    ])

  it('adds up what was done and what is prepared', () => {
    const { done, ready } = week(
      [
        calendar('2026-11-23', [{ meters: 8000, hardMeters: 3000 }], [{ meters: 5000 }]),
        calendar('2026-11-24', [{ meters: 2000, hardSeconds: 600 }]),
      ],
      calendar('2026-11-22', [{ meters: 99 }]),
    )
    expect(done).toEqual({ meters: 10000, unmeasuredSeconds: 0, hardMeters: 3000, hardSeconds: 600 })
    expect(ready).toEqual({ meters: 5000, unmeasuredSeconds: 0, hardMeters: 0, hardSeconds: 0 })
  })

  it('has one line for a race, trial or long run on the day after heavy legs', () => {
    const { afterHeavyLegs } = week(
      [calendar('2026-11-23', [{ special: 'long run' }]), calendar('2026-11-24', [], [{ special: 'race' }])],
      calendar('2026-11-22', [{ heavyLegSets: 3 }]),
    )
    expect(afterHeavyLegs).toEqual([{ date: '2026-11-23', what: 'long run' }])
  })

  it('finds the race, and the hard run, among several sessions of a day', () => {
    const { afterHeavyLegs } = week(
      [calendar('2026-11-23', [{}, { special: 'race', hardMeters: 5000 }])],
      calendar('2026-11-22', [{}, { heavyLegSets: 3 }]),
    )
    expect(afterHeavyLegs).toEqual([{ date: '2026-11-23', what: 'race' }])
    const easy = week(
      [calendar('2026-11-23', [{ meters: 5000 }])],
      calendar('2026-11-22', [{ heavyLegSets: 3 }]),
    )
    expect(easy.afterHeavyLegs).toEqual([])
  })

  it('lists three hard days in a row, starting with the days before', () => {
    const hard = [{ isHard: true }]
    const days = [calendar('2026-11-23', hard), calendar('2026-11-24', hard), calendar('2026-11-25')]
    const given = { week: '2026-W48', days, undated: [], unreadable: [], pain: [], due: null, planned: null }
    const before = [calendar('2026-11-21', hard), calendar('2026-11-22', hard)]
    expect(weekOf(given, before).hardDaysInARow).toEqual([{ date: '2026-11-24', days: 4 }])
    expect(weekOf(given, before.slice(1)).hardDaysInARow).toEqual([{ date: '2026-11-24', days: 3 }])
    // Those that ended before the week were lines of the week before.
    const ended = [calendar('2026-11-20', hard), ...before]
    expect(weekOf({ ...given, days: days.slice(2) }, ended).hardDaysInARow).toEqual([])
  })

  it("has the longest run's share, with at least two runs, and the easy days that turned out hard", () => {
    const fact = 'hr 168 and effort 8 in fact'
    const days = [
      calendar('2026-11-23', [{ meters: 15_000, harderThanMeant: fact }]),
      calendar('2026-11-24', [{ meters: 5000 }]),
    ]
    const found = week(days, calendar('2026-11-22'))
    expect(found.longestRunShare).toBe(0.75)
    expect(found.harderThanMeant).toEqual([{ date: '2026-11-23', fact }])
    expect(week(days.slice(0, 1), calendar('2026-11-22')).longestRunShare).toBeNull()
    const timed = calendar('2026-11-25', [{ unmeasuredSeconds: 3600 }])
    expect(week([...days, timed], calendar('2026-11-22')).longestRunShare).toBeNull()
    const warmUp = calendar('2026-11-25', [{ unmeasuredSeconds: 600 }])
    expect(week([...days, warmUp], calendar('2026-11-22')).longestRunShare).toBe(0.75)
    const twoRuns = calendar('2026-11-25', [{ meters: 16_000, longestMeters: 9000 }])
    expect(week([twoRuns], calendar('2026-11-22')).longestRunShare).toBe(9 / 16)
    const lift = calendar('2026-11-25', [{ meters: 0, sets: 12 }])
    expect(week([...days.slice(0, 1), lift], calendar('2026-11-22')).longestRunShare).toBeNull()
  })

  it('points out a hard run on the day after heavy legs, starting with the Sunday before', () => {
    const heavy = [{ heavyLegSets: 3 }]
    const hard = [{ hardMeters: 3000 }]
    const { afterHeavyLegs } = week(
      [
        calendar('2026-11-23', hard),
        calendar('2026-11-24', [{ heavyLegSets: 3, hardMeters: 3000 }]),
        calendar('2026-11-25', [{ meters: 8000 }]),
        calendar('2026-11-26', [], heavy),
        calendar('2026-11-27', [], [{ hardSeconds: 60 }]),
        calendar('2026-11-28', hard),
      ],
      calendar('2026-11-22', heavy),
    )
    expect(afterHeavyLegs.map(({ date, what }) => `${date} ${what}`)).toEqual([
      '2026-11-23 hard running',
      '2026-11-27 hard running',
    ])
  })
})
