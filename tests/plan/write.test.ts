import { describe, expect, it } from 'vitest'
import { isHardOnLegs } from '../../src/plan/model.ts'
import { readPlan } from '../../src/plan/read.ts'
import { newPlanText, withDaysSwapped } from '../../src/plan/write.ts'

function swapped(text: string, date: string): string {
  const reading = readPlan(text)
  if ('problems' in reading) throw new Error(reading.problems[0]?.message)
  return withDaysSwapped(text, reading.plan, date, 'Thu', 'Fri')
}

describe('withDaysSwapped', () => {
  it("writes into this week's line and leaves line ends, comments and order as they are", () => {
    const text =
      'A\r\nweek: Thu tempo + legs\r\n# mine\r\n2026-12-07: 42 km, "a, b" # here\r\n2026-12-14: 45 km\r\n'
    expect(swapped(text, '2026-12-10')).toBe(
      'A\r\nweek: Thu tempo + legs\r\n# mine\r\n2026-12-07: 42 km, "a, b", Thu rest, Fri tempo + legs # here\r\n2026-12-14: 45 km\r\n',
    )
  })

  it('swaps back what it swapped', () => {
    const text = 'A\nweek: Thu tempo, Fri pull\n2026-12-07: 42 km\n'
    expect(swapped(swapped(text, '2026-12-07'), '2026-12-13')).toBe(
      'A\nweek: Thu tempo, Fri pull\n2026-12-07: 42 km, Thu tempo, Fri pull\n',
    )
  })

  it("adds a missing week's line in the right place", () => {
    const text = 'A\nweek: Thu tempo\n2026-12-07: 42 km\n2026-12-21: 30 km'
    expect(swapped(text, '2026-12-14')).toBe(
      'A\nweek: Thu tempo\n2026-12-07: 42 km\n2026-12-14: Thu rest, Fri tempo\n2026-12-21: 30 km',
    )
    expect(swapped('A\nweek: Thu tempo', '2026-12-14')).toBe(
      'A\nweek: Thu tempo\n2026-12-14: Thu rest, Fri tempo\n',
    )
  })
})

// This program's own rule.
it.each([
  ['legs', true],
  ['Squats', true],
  ['long + strides', true],
  ['no legs', false],
  ['fresh legs', false],
  ['no long run', false],
  ['tempo', false],
])('the words %s are hard on the legs or not', (words, isHard) => {
  expect(isHardOnLegs(words)).toBe(isHard)
})

describe('newPlanText', () => {
  const weeks = (meters: number[], longest: number[]) =>
    meters.map((each, at) => ({ meters: each, longestMeters: longest[at] ?? 0, unmeasuredSeconds: 0 }))
  const last = weeks([40_000, 44_000, 36_000, 48_000], [15_000, 16_000, 17_000, 16_000])
  const race = { length: { value: 10, unit: 'km' }, seconds: 2370, on: '2027-01-24' } as const

  it('counts a single week as one', () => {
    expect(newPlanText(last, race, '2027-01-18', 1, 'km')).toMatch(/^1 week to 10 km\n/)
  })

  it('makes weeks like the mean of the last four, every fourth a third less, the last two a taper', () => {
    const text = newPlanText(last, race, '2026-11-30', 8, 'km')
    const reading = readPlan(text)
    if ('problems' in reading) throw new Error(reading.problems[0]?.message)
    expect(reading.plan.weeks.map(({ distance, kind }) => [distance?.value ?? null, kind])).toEqual([
      [42, null],
      [42, null],
      [42, null],
      [28, 'easy'],
      [42, null],
      [42, null],
      [null, 'taper'],
      [null, 'race week'],
    ])
    expect(reading.plan.weeks.at(-1)?.monday).toBe('2027-01-18')
    expect(text).toContain('Bosquet et al. 2007')
  })

  it('says of how many weeks its mean is, where the logbook is younger than four', () => {
    const young = weeks([30_000, 40_000], [10_000, 12_000])
    expect(newPlanText(young, race, '2026-11-30', 8, 'km')).toContain(
      '# 35 km is the mean of the last two weeks.',
    )
    const one = weeks([30_000], [10_000])
    expect(newPlanText(one, race, '2026-11-30', 8, 'km')).toContain("# 30 km is last week's. No growth")
  })

  it('says at what pace running without a distance counts', () => {
    const run = { meters: 30_000, longestMeters: 10_000, unmeasuredSeconds: 3600 }
    const basis = (unit: 'km' | 'mi') => newPlanText([run], race, '2026-11-30', 8, unit).split('\n')[3]
    expect(basis('km')).toMatch(/^# 30 km is last week's, running without a distance at 6:00\/km\. No growth/)
    expect(basis('mi')).toContain('at 9:39/mi. No')
  })

  it('has no taper without a race', () => {
    const reading = readPlan(newPlanText(last, null, '2026-11-30', 3, 'mi'))
    if ('problems' in reading) throw new Error(reading.problems[0]?.message)
    expect(reading.plan.weeks.map(({ distance, kind }) => [distance, kind])).toEqual(
      [1, 2, 3].map(() => [{ value: 26, unit: 'mi' }, null]),
    )
  })
})
