import { describe, expect, test } from 'vitest'
import {
  elapsedSeconds,
  type Moment,
  momentAfter,
  momentOf,
  timeTextOf,
  whenOf,
} from '../../src/session/clock.ts'
import fc from '../fastCheck.ts'

const morning: Moment = Object.freeze({
  wall: Date.parse('2026-11-26T06:40:00.250+01:00'),
  offset: 60,
  up: 1000.5,
  boot: 'first',
})

describe('seconds between two moments', () => {
  test('follow the uptime within one start of the machine, whatever the wall clock says', () => {
    const later = { ...morning, up: 1060.5, wall: morning.wall + 3_660_000 }
    expect(elapsedSeconds(morning, later)).toBe(60)
  })

  test('follow the wall clock across a start of the machine, or if a start or an uptime is unknown', () => {
    const later = { ...morning, wall: morning.wall + 90_000, up: 10 }
    expect(elapsedSeconds(morning, { ...later, boot: 'second' })).toBe(90)
    expect(elapsedSeconds({ ...morning, boot: null }, { ...later, boot: null })).toBe(90)
    expect(elapsedSeconds({ ...morning, up: null }, later)).toBe(90)
    expect(elapsedSeconds(morning, { ...later, up: null })).toBe(90)
  })

  test('are never below 0', () => {
    expect(elapsedSeconds(morning, momentAfter(morning, -5))).toBe(0)
    expect(elapsedSeconds(morning, { ...morning, boot: null, wall: morning.wall - 3_600_000 })).toBe(0)
  })
})

test('the same seconds are added to both clocks of a later moment', () => {
  expect(momentAfter(morning, 1.5)).toEqual({ ...morning, wall: morning.wall + 1500, up: 1002 })
  expect(momentAfter({ ...morning, up: null }, 1.5).up).toBeNull()
  expect(momentAfter({ ...morning, up: 1 }, -5).up).toBe(0)
})

describe('the time of an event', () => {
  test('is local, with its offset, to the millisecond', () => {
    expect(whenOf(morning)).toEqual({ at: '2026-11-26T06:40:00.250+01:00', up: 1000.5 })
    expect(timeTextOf({ wall: 0, offset: -210 })).toBe('1969-12-31T20:30:00.000-03:30')
    expect(timeTextOf({ wall: 0, offset: 345 })).toBe('1970-01-01T05:45:00.000+05:45')
    expect(timeTextOf({ wall: 0, offset: 0 })).toBe('1970-01-01T00:00:00.000+00:00')
  })

  test('reads back to the same moment', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4_000_000_000_000 }),
        fc.integer({ min: -14 * 60, max: 14 * 60 }),
        fc.option(
          fc.integer({ min: 0, max: 1e9 }).map((value) => value / 1000),
          { nil: null },
        ),
        (wall, offset, up) => {
          const moment: Moment = { wall, offset, up, boot: 'first' }
          expect(momentOf(whenOf(moment), 'first')).toEqual(moment)
        },
      ),
    )
  })

  test('is in UTC with Z, and is missing for paper without a time', () => {
    expect(momentOf({ at: '2026-11-26T05:40:00Z', up: null }, null)).toEqual({
      wall: Date.parse('2026-11-26T05:40:00Z'),
      offset: 0,
      up: null,
      boot: null,
    })
    expect(momentOf({ at: null, up: null }, 'first')).toBeNull()
  })
})
