import { describe, expect, test } from 'vitest'
import { type DayLoad, dayLoad, effortMinutes, sessionLoad, weekLoad } from '../../src/figures/load.ts'

const known = (load: number): DayLoad => ({ effortMinutes: load, known: true })

describe('effort-minutes', () => {
  test('of a part are its effort times its minutes', () => {
    expect([effortMinutes(8, 62), effortMinutes(0, 30), effortMinutes(10, 0)]).toEqual([496, 0, 0])
  })
  test.each([11, -1, 10.5, Number.NaN])('an effort of %s is refused', (effort) => {
    expect(() => effortMinutes(effort, 60)).toThrow(
      new RangeError(`an effort must be from 0 to 10, and ${effort} arrived`),
    )
  })
  test.each([-1, Number.POSITIVE_INFINITY])('%s minutes are refused', (minutes) => {
    expect(() => effortMinutes(5, minutes)).toThrow(
      new RangeError(`the minutes must be 0 or a number above it, and ${minutes} arrived`),
    )
  })
  test('of a session are the sum of its known parts', () => {
    expect(sessionLoad([496, null, 336])).toBe(832)
  })
  test('of a session without a known part are unknown, and not 0', () => {
    expect(sessionLoad([null, null])).toBeNull()
    expect(sessionLoad([])).toBeNull()
  })
  test('of a day are the sum of its sessions', () => {
    expect(dayLoad([300, 200])).toEqual(known(500))
    expect(dayLoad([])).toEqual(known(0))
  })
  test('of a day are unknown where a session is', () => {
    expect(dayLoad([300, null])).toEqual({ effortMinutes: 300, known: false })
    expect(dayLoad([null])).toEqual({ effortMinutes: 0, known: false })
  })
})

describe('a week', () => {
  test('with an unknown day is "at least", without monotony and strain', () => {
    const days = [
      known(360),
      known(0),
      { effortMinutes: 100, known: false },
      known(0),
      known(0),
      known(0),
      known(0),
    ]
    expect(weekLoad(days)).toEqual({ effortMinutes: 460, atLeast: true, monotony: null, strain: null })
  })
  test('of rest has no monotony', () => {
    expect(weekLoad(Array<DayLoad>(7).fill(known(0)))).toEqual({
      effortMinutes: 0,
      atLeast: false,
      monotony: null,
      strain: null,
    })
  })
  test('has monotony mean / deviation, and strain sum x monotony', () => {
    const week = weekLoad([...Array<DayLoad>(3).fill(known(700)), ...Array<DayLoad>(4).fill(known(0))])
    expect(week.monotony).toBeCloseTo(300 / Math.sqrt((3 * 400 ** 2 + 4 * 300 ** 2) / 6), 12)
    expect(week.strain).toBeCloseTo(2100 * (week.monotony ?? 0), 12)
  })
  test('has no monotony with two training days, or with days that vary by less than 5 %', () => {
    const two = weekLoad([known(400), known(300), ...Array<DayLoad>(5).fill(known(0))])
    expect(two).toMatchObject({ effortMinutes: 700, monotony: null, strain: null })
    const alike = (last: number) => weekLoad([...Array<DayLoad>(6).fill(known(300)), known(last)])
    // Six days of 300 and one of 340: deviation 15.1 of a mean of 305.7 is 4.9 %; one of 345: 5.5 %.
    expect(alike(340).monotony).toBeNull()
    expect(alike(345).monotony).not.toBeNull()
  })
  test('of six days is refused', () => {
    expect(() => weekLoad(Array<DayLoad>(6).fill(known(1)))).toThrow(
      new RangeError('a week has 7 days, and 6 arrived'),
    )
  })
})
