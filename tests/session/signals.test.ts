import { describe, expect, test } from 'vitest'
import { momentAfter } from '../../src/session/clock.ts'
import { signalBetween } from '../../src/session/timers.ts'
import { type Walked, walkThrough } from '../day.ts'

const straight = 'One\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 1:00\n'
const repeats = 'Track\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n'

/** The signals between two readings, in seconds after now. */
const between = (walked: Walked, from: number, to: number) =>
  signalBetween(walked.state, momentAfter(walked.now, from), momentAfter(walked.now, to))

describe('a countdown', () => {
  const rest = walkThrough(straight).effort(20)

  test('has a short signal 3, 2 and 1 second before its end, and a long one at its end', () => {
    expect(between(rest, 56.5, 57.25)).toBe('short')
    expect(between(rest, 57.5, 58)).toBe('short')
    expect(between(rest, 58.5, 59)).toBe('short')
    expect(between(rest, 59.5, 60)).toBe('long')
  })

  test('is silent in between, before and after', () => {
    expect(between(rest, 0, 56.9)).toBeNull()
    expect(between(rest, 57, 57.9)).toBeNull()
    expect(between(rest, 60, 61)).toBeNull()
  })

  test('sounds once for each moment, at the reading that reaches it', () => {
    expect(between(rest, 59, 60)).toBe('long')
    expect(between(rest, 60, 60.5)).toBeNull()
  })

  test('sounds the last of several moments between two readings, unless it is over a second and a half late', () => {
    expect(between(rest, 56, 60.5)).toBe('long')
    expect(between(rest, 56, 61.5)).toBe('long')
    expect(between(rest, 56, 61.6)).toBeNull()
    expect(between(rest, 50, 3600)).toBeNull()
  })

  test('does not sound before it has begun: one of 2 s has no third second', () => {
    const short = walkThrough(straight.replace('1:00', '0:02')).effort(20)
    expect(between(short, -2, -0.5)).toBeNull()
    expect(between(short, -0.1, 0.5)).toBe('short')
  })

  test('is silent while stopped', () => {
    const held = walkThrough(straight).effort(20).typed('h')
    expect(between(held, 0, 60)).toBeNull()
  })
})

test('the expected end of a jog has one short signal', () => {
  // 200 m at 7:00/km are 84 s.
  const jog = walkThrough(repeats).effort(110)
  expect(between(jog, 80.5, 81.5)).toBeNull()
  expect(between(jog, 83.5, 84)).toBe('short')
})

test('a clock that only counts up never sounds', () => {
  const set = walkThrough(straight).space()
  expect(between(set, 0, 1)).toBeNull()
  expect(between(walkThrough(straight), 0, 1)).toBeNull()
})

test('the wall clock decides across a start of the machine', () => {
  const rest = walkThrough(straight).effort(20)
  const other = (seconds: number) => ({ ...momentAfter(rest.now, seconds), boot: 'second', up: 5 + seconds })
  expect(signalBetween(rest.state, other(59.5), other(60))).toBe('long')
})
