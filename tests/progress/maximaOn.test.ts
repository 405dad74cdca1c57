import { describe, expect, it } from 'vitest'
import type { IndexEntry } from '../../src/logbook/model.ts'
import { maximaOn } from '../../src/progress/earlierLoads.ts'

/** A session of that day with only its maxima; invented. */
function session(date: string, ...estimates: [name: string, kg: number, atLeast: boolean][]): IndexEntry {
  const exercises = estimates.map(([name, kg, atLeast]) => ({ name, oneRepMax: { kg, atLeast } }))
  const lifts = [...exercises, { name: 'plank', oneRepMax: null }].map((figures) => ({ figures, sets: [] }))
  return { id: date, date, path: date, finished: true, started: null, lifts } as unknown as IndexEntry
}

describe('the base of percentages on a day', () => {
  it('is the mean of the last three of 42 days that are not "at least", weighted 3 : 2 : 1, by exercise', () => {
    const entries = [
      session('2026-11-20', ['front squat', 108, false], ['pull-up', 22, false]),
      session('2026-11-12', ['Front Squats', 110.5, false]),
      session('2026-11-10', ['front squat', 118, true]),
      session('2026-10-15', ['front squat', 111, false]),
      session('2026-10-14', ['front squat', 125, false]),
      session('2026-11-27', ['front squat', 130, false]),
    ]
    expect(maximaOn(entries, '2026-11-26')).toEqual([
      // (3 x 108 + 2 x 110.5 + 111) / 6
      { name: 'front squat', kg: expect.closeTo(656 / 6, 9), basis: 'mean of 3 estimates to 20 Nov 2026' },
      { name: 'pull-up', kg: 22, basis: 'estimate of 20 Nov 2026' },
    ])
  })

  it('takes estimates from the day itself back to 42 days before, but not from 43', () => {
    const of = (date: string) => maximaOn([session(date, ['squat', 100, false])], '2026-11-26')
    expect(of('2026-11-26')).toEqual([{ name: 'squat', kg: 100, basis: 'estimate of 26 Nov 2026' }])
    expect(of('2026-10-15')).toHaveLength(1)
    expect(of('2026-10-14')).toEqual([])
    expect(of('2026-11-27')).toEqual([])
  })

  it('is missing without an estimate above 0', () => {
    expect(maximaOn([], '2026-11-26')).toEqual([])
    expect(
      maximaOn([session('2026-11-20', ['pull-up', -5, false], ['dip', 30, true])], '2026-11-26'),
    ).toEqual([])
  })
})
