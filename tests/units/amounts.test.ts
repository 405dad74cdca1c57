import { expect, test } from 'vitest'
import { printNumber } from '../../src/units/decimal.ts'
import { formatPace, metersPerSecondOf, paceIn, printPace, secondsPerKmOf } from '../../src/units/duration.ts'
import { formatAsWritten, formatMeters, metersOf, printLength, readLength } from '../../src/units/length.ts'
import { formatMass, kilogramsOf, massIn, printMass, readMass } from '../../src/units/mass.ts'
import fc from '../fastCheck.ts'

test('a number is printed without an exponent and reads back the same', () => {
  expect(printNumber(1e21)).toBe('1000000000000000000000')
  expect(printNumber(1.5e-7)).toBe('0.00000015')
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      const text = printNumber(value)
      expect(text).toMatch(/^-?\d+(\.\d+)?$/)
      expect(Number(text) === value).toBe(true)
    }),
  )
})

test('45 lb is 20.412 kg, not 20', () => {
  expect(kilogramsOf({ value: 45, unit: 'lb' })).toBeCloseTo(20.412, 3)
  expect(massIn({ value: 20, unit: 'kg' }, 'lb')).toBeCloseTo(44.092, 3)
  expect(massIn({ value: 45, unit: 'lb' }, 'lb')).toBe(45)
})

test('a half marathon in 1:20:00 is 227.515 s a kilometre and 366.150 s a mile', () => {
  expect(paceIn(4800 / 21.0975, 'km')).toBeCloseTo(227.515, 3)
  expect(paceIn(4800 / 21.0975, 'mi')).toBeCloseTo(366.15, 2)
  expect(formatPace(227.515, 'mi')).toBe('6:06/mi')
  expect(secondsPerKmOf(366.15, 'mi')).toBeCloseTo(227.515, 2)
  expect([metersPerSecondOf(36, 'km/h'), metersPerSecondOf(10, 'mph')]).toEqual([10, 4.4704])
})

test('lengths and masses are read in every spelling and printed in one', () => {
  for (const text of ['5k', '5 km', '5KM']) expect(printLength(readLength(text)!)).toBe('5 km')
  for (const text of ['1 mile', '1mi', '1 miles']) expect(printLength(readLength(text)!)).toBe('1 mi')
  expect(printLength(readLength('2 laps')!)).toBe('2 laps')
  expect(printLength(readLength('Half  Marathon')!)).toBe('half marathon')
  expect(printMass(readMass('135lbs', 'kg')!)).toBe('135 lb')
  expect(printMass(readMass('92.5', 'kg')!)).toBe('92.5 kg')
  for (const text of ['0 m', '5', '5 feet', '-5 m', '1e3 m', 'constructor'])
    expect(readLength(text)).toBeNull()
  for (const text of ['0', '5 stone', '135#', '1,5']) expect(readMass(text, 'kg')).toBeNull()
})

test('lengths, masses and paces for the screen have no more digits than they need', () => {
  const inKm = (meters: number) => formatMeters(meters, 'km')
  const inMiles = (meters: number) => formatMeters(meters, 'mi')
  expect([500, 999, 1000, 13_600].map(inKm)).toEqual(['500 m', '999 m', '1 km', '13.6 km'])
  expect([799, 804.672, 1609.344].map(inMiles)).toEqual(['799 m', '0.5 mi', '1 mi'])
  expect(formatMass({ value: 100.84219, unit: 'kg' })).toBe('100.84 kg')
  expect(printPace({ from: 245, to: 250, per: 'km' })).toBe('4:05-4:10/km')
  expect(printPace({ from: 110.5, to: 110.5, per: '500 m' })).toBe('1:50.5/500 m')
})

test('a mile stays a mile and forty yards forty yards, whatever unit the rest is printed in', () => {
  const text = (value: number, unit: 'mi' | 'yd' | 'm' | 'km' | 'lap', shown: 'km' | 'mi' = 'km') =>
    formatAsWritten(metersOf({ value, unit }), shown)
  expect([1, 3, 0.5, 26].map((miles) => text(miles, 'mi'))).toEqual(['1 mi', '3 mi', '0.5 mi', '26 mi'])
  expect([3.1, 2.2, 0.3, 3.11, 0.1].map((miles) => text(miles, 'mi'))).toEqual([
    '3.1 mi',
    '2.2 mi',
    '0.3 mi',
    '3.11 mi',
    '0.1 mi',
  ])
  expect([40, 100, 500].map((yards) => text(yards, 'yd', 'mi'))).toEqual(['40 yd', '100 yd', '500 yd'])
  // A session of miles and 200 yd repeats adds up to a whole number of yards, too.
  expect([1650, 11_960].map((yards) => text(yards, 'yd', 'mi'))).toEqual(['1650 yd', '6.8 mi'])
  expect([200, 500, 800, 1500].map((meters) => text(meters, 'm'))).toEqual([
    '200 m',
    '500 m',
    '800 m',
    '1.5 km',
  ])
  expect([800, 1500, 3000].map((meters) => text(meters, 'm', 'mi'))).toEqual(['800 m', '1500 m', '3000 m'])
  expect([5, 10, 7.5].map((km) => text(km, 'km', 'mi'))).toEqual(['5 km', '10 km', '7.5 km'])
  // No odd number of metres is rounded to the kilometre of a track session.
  expect([1001, 1150].map((meters) => text(meters, 'm'))).toEqual(['1001 m', '1150 m'])
  expect(text(1150, 'm', 'mi')).toBe('1150 m')
  expect(text(5005, 'm', 'mi')).toBe('3.11 mi')
  expect(text(5, 'km')).toBe('5 km')
  fc.assert(
    fc.property(fc.integer({ min: 3001, max: 100_000 }), (meters) => {
      expect(formatAsWritten(meters, 'km')).toBe(formatMeters(meters, 'km'))
    }),
  )
})
