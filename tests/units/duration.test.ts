import { expect, test } from 'vitest'
import {
  formatClock,
  formatClockShort,
  printDuration,
  printDurationSpan,
  printTime,
  readDuration,
} from '../../src/units/duration.ts'
import fc from '../fastCheck.ts'

test('seconds are rounded before they are split', () => {
  expect(formatClock(59.6)).toBe('1:00')
  expect(formatClock(59.96, 1)).toBe('1:00.0')
  expect(formatClock(3599.7)).toBe('1:00:00')
  expect(formatClock(366.15)).toBe('6:06')
  expect(formatClock(227.515, 1)).toBe('3:47.5')
  expect(formatClock(-3)).toBe('-0:03')
  expect(formatClock(-0.2)).toBe('0:00')
})

test('no clock ever shows 60 seconds or 60 minutes', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      fc.constantFrom(0, 1, 2),
      (seconds, decimals) => {
        expect(formatClock(seconds, decimals as 0 | 1 | 2)).not.toMatch(/:60/)
      },
    ),
  )
})

test('a short clock has only the decimals it needs', () => {
  expect(formatClockShort(109.2)).toBe('1:49.2')
  expect(formatClockShort(227)).toBe('3:47')
  expect(formatClockShort(88.45)).toBe('1:28.45')
})

test('a duration is printed in seconds below a minute, a span below 100 s, and as a clock from there', () => {
  expect([7.5, 45, 60, 88.4, 3731].map(printDuration)).toEqual(['7.5 s', '45 s', '1:00', '1:28.4', '1:02:11'])
  const spans = [
    [33, 35],
    [55, 65],
    [95, 99],
    [95, 100],
    [90, 90],
  ] as const
  expect(spans.map(([from, to]) => printDurationSpan({ from, to }))).toEqual([
    '33-35 s',
    '55-65 s',
    '95-99 s',
    '1:35-1:40',
    '1:30',
  ])
})

test('a time is printed in minutes where they are whole, else in seconds', () => {
  expect([60, 300, 3600].map(printTime)).toEqual(['1 min', '5 min', '60 min'])
  expect([0, 45, 90, 300.5].map(printTime)).toEqual(['0 s', '45 s', '90 s', '300.5 s'])
})

test('a printed duration reads back as exactly the same number', () => {
  const seconds = fc.oneof(
    fc.double({ min: 1e-9, max: 1e12, noNaN: true }),
    fc.integer({ min: 1, max: 99999 }),
    fc.integer({ min: 1, max: 9999999 }).map((tenths) => tenths / 10),
  )
  fc.assert(
    fc.property(seconds, (value) => {
      expect(readDuration(printDuration(value))).toBe(value)
      expect(readDuration(printTime(value))).toBe(value)
    }),
  )
})

test('a text that is not a time is not read as one', () => {
  for (const text of [
    '3:60',
    '3:75',
    '3:5',
    '1:60:00',
    '1:5:00',
    '0:00',
    '0 s',
    '90',
    '-5 s',
    '1e3 s',
    '5 m',
    '',
  ])
    expect(readDuration(text)).toBeNull()
  expect(readDuration('2 min')).toBe(120)
  expect(readDuration('1.5h')).toBe(5400)
  expect(readDuration('90:00')).toBe(5400)
})

// The digits of a time: at least those with which it was typed, and all that it has.
test.each([
  [88, null, '1:28'],
  [88, 1, '1:28'],
  [88, 0.1, '1:28.0'],
  [88, 0.01, '1:28.00'],
  [88.4, 1, '1:28.4'],
  [88.4, 0.01, '1:28.40'],
  [88.45, 0.1, '1:28.45'],
  [88.45, null, '1:28.45'],
])('writes %d s with a precision of %j as %s', (seconds, precision, text) => {
  expect(formatClockShort(seconds, precision)).toBe(text)
})
