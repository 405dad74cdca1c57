import { describe, expect, it } from 'vitest'
import { loadProgress } from '../../src/progress/load.ts'
import { session } from './doneSessions.ts'

const part = (kind: 'run' | 'lift' | 'cross', effort: number | null, minutes: number) => ({
  kind,
  name: null,
  effort,
  minutes,
  effortMinutes: effort === null ? null : effort * minutes,
})
const week = { from: '2026-11-16', to: '2026-11-22' }

describe('session load over the weeks', () => {
  /* Source: the formulas of Foster 1998 (mean of the days / their standard deviation; sum x monotony) put
   * through a pocket calculator with the sample standard deviation: 360, 0, 315, 160, 0, 720, 180. */
  it('has the sum, the monotony and their product', () => {
    const sessions = [
      session('2026-11-22', { parts: [part('run', 3, 60)] }),
      session('2026-11-21', { parts: [part('run', 8, 60), part('lift', 6, 40)] }),
      session('2026-11-19', { parts: [part('lift', 4, 40)] }),
      session('2026-11-18', { parts: [part('run', 7, 45)] }),
      session('2026-11-16', { parts: [part('lift', 6, 60)] }),
    ]
    const { weeks } = loadProgress(sessions, week, '2026-11-25')
    expect(weeks).toHaveLength(1)
    const [only] = weeks
    expect(only?.days.map((day) => day.effortMinutes)).toEqual([360, 0, 315, 160, 0, 720, 180])
    expect(only?.effortMinutes).toBe(1735)
    expect(only?.monotony).toBeCloseTo(0.991174, 6)
    expect(only?.effortMinutesTimesMonotony).toBeCloseTo(1719.69, 2)
    expect([only?.run, only?.lift, only?.other]).toEqual([975, 760, 0])
    expect(only?.days[0]).toMatchObject({ run: 0, lift: 360, other: 0 })
    expect(only?.days[2]).toMatchObject({ run: 315, lift: 0, other: 0 })
  })

  it('is "at least", without monotony, if a session of the week has no effort', () => {
    const sessions = [
      session('2026-11-19', { id: 'unknown1', title: 'track', parts: [part('run', null, 40)] }),
      session('2026-11-19', { parts: [part('lift', 5, 40)] }),
    ]
    const { weeks } = loadProgress(sessions, week, '2026-11-25')
    expect(weeks[0]).toMatchObject({ effortMinutes: 200, atLeast: true, monotony: null })
    expect(weeks[0]?.days[3]).toMatchObject({ effortMinutes: 200, known: false, sessions: 2 })
  })

  it('has no monotony for a week of which the last day is not past and has no session', () => {
    const sessions = ['2026-11-16', '2026-11-17', '2026-11-18'].map((date) =>
      session(date, { parts: [part('run', 5, 60)] }),
    )
    expect(loadProgress(sessions, week, '2026-11-22').weeks[0]).toMatchObject({
      isOver: false,
      monotony: null,
    })
    // Three days of 300: mean 900 / 7, SD 300 x square root of 2 / 7.
    expect(loadProgress(sessions, week, '2026-11-23').weeks[0]?.monotony).toBeCloseTo(
      3 / 7 / Math.sqrt(2 / 7),
      9,
    )
  })

  it('has a week over on its Sunday once that has its session', () => {
    const sessions = ['2026-11-16', '2026-11-18', '2026-11-22'].map((date) =>
      session(date, { parts: [part('run', 5, 60)] }),
    )
    expect(loadProgress(sessions, week, '2026-11-22').weeks[0]).toMatchObject({ isOver: true })
    expect(loadProgress(sessions.slice(0, 2), week, '2026-11-22').weeks[0]).toMatchObject({ isOver: false })
  })

  it('has no monotony for a week with one day of training', () => {
    const sessions = [session('2026-11-16', { parts: [part('run', 5, 60)] })]
    expect(loadProgress(sessions, week, '2026-11-22').weeks[0]?.monotony).toBeNull()
  })

  it('is separate for parts that are neither run nor lift, and 0 on days without a session', () => {
    const sessions = [session('2026-11-17', { parts: [part('cross', 4, 30)] })]
    const { weeks } = loadProgress(sessions, week, '2026-11-25')
    expect(weeks[0]).toMatchObject({ run: 0, lift: 0, other: 120, effortMinutes: 120, atLeast: false })
    expect(weeks[0]?.days.filter((day) => day.effortMinutes === 0 && day.known)).toHaveLength(6)
  })
})
