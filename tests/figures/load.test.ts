import { describe, expect, test } from 'vitest'
import { dayLoad, effortMinutes, sessionLoad, weekLoad } from '../../src/figures/load.ts'

const known = (load: number) => ({ effortMinutes: load, known: true })

describe('session load', () => {
  test('multiplies the effort of a part by its minutes', () => {
    expect([effortMinutes(8, 62), effortMinutes(0, 30), effortMinutes(10, 0)]).toEqual([496, 0, 0])
  })
  test('adds the parts of a session, and is a minimum if one has no effort', () => {
    expect(sessionLoad([496, 336])).toEqual({ effortMinutes: 832, atLeast: false })
    expect(sessionLoad([210, null])).toEqual({ effortMinutes: 210, atLeast: true })
  })
  test('is unknown, not 0, for a session without a known part', () => {
    expect(sessionLoad([null, null])).toEqual({ effortMinutes: null, atLeast: true })
    expect(sessionLoad([])).toEqual({ effortMinutes: null, atLeast: false })
  })
  const session = (load: number | null, atLeast = false) => ({ effortMinutes: load, atLeast })
  test('adds the sessions of a day', () => {
    expect(dayLoad([session(300), session(200)])).toEqual(known(500))
    expect(dayLoad([])).toEqual(known(0))
  })
  test('is unknown for a day with an unknown session, or an unknown part of one', () => {
    expect(dayLoad([session(300), session(null)])).toEqual({ effortMinutes: 300, known: false })
    expect(dayLoad([session(210, true)])).toEqual({ effortMinutes: 210, known: false })
    expect(dayLoad([session(null)])).toEqual({ effortMinutes: 0, known: false })
  })
})

describe('a week', () => {
  test('is "at least" with an unknown day, without monotony and strain', () => {
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
  test('has no monotony if all of it is rest', () => {
    expect(weekLoad(Array(7).fill(known(0)))).toEqual({
      effortMinutes: 0,
      atLeast: false,
      monotony: null,
      strain: null,
    })
  })
  const weekOf = (...loads: number[]) => weekLoad([...loads, ...Array(7 - loads.length).fill(0)].map(known))
  test('has monotony mean / deviation, and sum x monotony', () => {
    const week = weekOf(700, 350, 350)
    // Mean 200; squares 500^2 + 2 x 150^2 + 4 x 200^2 = 455 000.
    expect(week.monotony).toBeCloseTo(200 / Math.sqrt(455_000 / 6), 12)
    expect(week.strain).toBeCloseTo(1400 * (week.monotony ?? 0), 12)
  })
  test('has no monotony with two days of training', () => {
    expect(weekOf(700, 700)).toMatchObject({ effortMinutes: 1400, monotony: null, strain: null })
  })
  test('has no monotony if its days are within 5 % of each other, and has one just above', () => {
    expect(weekOf(300, 300, 300, 300, 300, 300, 300).monotony).toBeNull()
    expect(weekOf(300, 310, 300, 310, 300, 310, 300).monotony).toBeNull()
    expect(weekOf(280, 320, 280, 320, 280, 320, 280).monotony).not.toBeNull()
  })
})
