import { describe, expect, it } from 'vitest'
import { lastLoadsOf } from '../../src/progress/earlierLoads.ts'
import type { DoneSession } from '../../src/progress/weeks.ts'
import type { SetDone } from '../../src/summary/model.ts'
import { dayOf } from '../day.ts'

const set = (value: number, reps: number, failed = false): SetDone => ({
  reps,
  groups: null,
  seconds: null,
  meters: null,
  load: { kind: 'mass', value, unit: 'kg', pair: false },
  rpe: null,
  failed,
  isShort: reps < 4,
  isTotal: false,
})
/** A session of that day with only its sets of squats; invented. */
const session = (date: string, sets: SetDone[], hurt = false) =>
  ({
    date,
    lifted: (key: string) => (key === 'squat' ? { figures: {}, sets, hurt } : null),
  }) as unknown as DoneSession
const squats = dayOf('Day\n\nlift\n  squats 4 x 4 @ last + 2 kg\n  bench 3 x 5 @ 60 kg\n')
const from = (entries: DoneSession[]) => lastLoadsOf(squats, { entries, pains: [] }, '2026-11-26')

// These are this program's own rules.
describe('the load that "last" starts from', () => {
  it('is the heaviest completed load of the newest session up to that day', () => {
    const entries = [
      session('2026-11-27', [set(150, 4)]),
      session('2026-11-19', [set(100, 4), set(110, 4), set(105, 4)]),
      session('2026-11-12', [set(140, 4)]),
    ]
    expect(from(entries)).toEqual([
      { name: 'squats', date: '2026-11-19', load: expect.objectContaining({ value: 110 }), isKept: false },
    ])
  })

  it('leaves out a failed set and a set without repetitions, and adds nothing after a failure', () => {
    // The fifth of four repetitions failed; as many as possible were none.
    for (const left of [set(120, 4, true), { ...set(130, 0), isShort: false }])
      expect(from([session('2026-11-19', [set(110, 4), left])])).toMatchObject([
        { load: { value: 110 }, isKept: left.failed },
      ])
  })

  it('leaves out a set with fewer repetitions than prescribed, and adds nothing after it', () => {
    expect(from([session('2026-11-19', [set(100, 4), set(105, 3)])])).toMatchObject([
      { load: { value: 100 }, isKept: true },
    ])
  })

  it('takes the session of the day itself, and of two on one day the later one', () => {
    const today = (value: number) => session('2026-11-26', [set(value, 4)])
    expect(from([today(100), session('2026-11-25', [set(90, 4)])])).toMatchObject([{ load: { value: 100 } }])
    expect(from([today(120), today(110)])).toMatchObject([{ load: { value: 120 } }])
  })

  it('goes back to an earlier session if the newest has no completed load, adds nothing to it, and counts both of a pair', () => {
    const pair = { ...set(60, 4), load: { kind: 'mass', value: 60, unit: 'kg', pair: true } } as SetDone
    const bare = { ...set(0, 4), load: null } as SetDone
    const entries = [
      session('2026-11-19', [set(110, 3, true), bare]),
      session('2026-11-12', [set(100, 4), pair]),
    ]
    expect(from(entries)).toMatchObject([
      { date: '2026-11-12', load: { value: 60, pair: true }, isKept: true },
    ])
  })

  it('looks past a session without the exercise', () => {
    const run = { date: '2026-11-25', lifted: () => null } as unknown as DoneSession
    expect(from([run, session('2026-11-19', [set(100, 4)])])).toMatchObject([{ date: '2026-11-19' }])
  })

  it('is kept after pain', () => {
    expect(from([session('2026-11-19', [set(110, 4)], true)])).toMatchObject([{ isKept: true }])
  })

  it('is kept while a pain of the last 14 days covers the lift', () => {
    const after = (date: string, place: string, level = 5) => {
      const noted = { date, place, level, at: 0, session: null }
      const entries = [session('2026-11-19', [set(110, 4)])]
      const pains = [{ ...noted, level: 5 }, noted]
      return lastLoadsOf(squats, { entries, pains }, '2026-11-26')[0]?.isKept
    }
    expect(after('2026-11-24', 'left knee')).toBe(true)
    expect(after('2026-11-24', 'left knee', 0)).toBe(false)
    expect(after('2026-11-11', 'left knee')).toBe(false)
    expect(after('2026-11-24', 'left elbow')).toBe(false)
  })

  it('is none after more than eight weeks without the exercise, because that is no load to come back to', () => {
    // 1 October is 56 days before.
    expect(from([session('2026-10-01', [set(110, 4)])])).toMatchObject([
      { load: { value: 110 }, isKept: true },
    ])
    expect(from([session('2026-09-30', [set(110, 4)])])).toEqual([])
  })

  it('is kept after more than three weeks without the exercise', () => {
    expect(from([session('2026-11-05', [set(110, 4)])])).toMatchObject([{ isKept: false }])
    expect(from([session('2026-11-04', [set(110, 4)])])).toMatchObject([{ isKept: true }])
  })

  it('does not exist without such a session, and no sessions are read for a day without such a load', () => {
    expect(from([session('2026-11-19', [set(110, 0)])])).toEqual([])
    const unread = {
      get entries(): never {
        throw new Error('read')
      },
      get pains(): never {
        throw new Error('read')
      },
    }
    expect(lastLoadsOf(dayOf('Day\n\nlift\n  squat 3 x 5 @ 60 kg\n'), unread, '2026-11-26')).toEqual([])
  })
})
