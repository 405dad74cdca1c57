import { describe, expect, test } from 'vitest'
import { roundTo, signed, toDecimals } from '../../src/units/decimal.ts'
import { formatMeters } from '../../src/units/length.ts'

describe('rounding in decimal', () => {
  test.each([
    [1.005, 2, '1.01'],
    [1.015, 2, '1.02'],
    [0.285, 2, '0.29'],
    [2.5, 0, '3'],
    [-2.5, 0, '-3'],
    [1.0049999, 2, '1.00'],
  ])('%s to %s decimals is %s, ties away from 0', (value, decimals, text) => {
    expect(toDecimals(value, decimals)).toBe(text)
  })
  test('no zero has a sign', () => {
    expect([signed(-0.04, 1), signed(-0.05, 1), signed(0.4, 0), signed(3, 0)]).toEqual([
      '0.0',
      '-0.1',
      '0',
      '+3',
    ])
    expect([toDecimals(-0.001, 2), toDecimals(-0, 0), toDecimals(-0.04, 1)]).toEqual(['0.00', '0', '0.0'])
  })
  test('every metre that ends in 5 rounds up by its written digits', () => {
    const wrong = Array.from({ length: 4200 }, (_, index) => 1005 + 10 * index).filter(
      (meters) => formatMeters(meters, 'km') !== `${(meters + 5) / 1000} km`,
    )
    expect(wrong).toEqual([])
    expect(formatMeters(1005, 'km')).toBe('1.01 km')
  })
  test('sums of binary fractions round as intended', () => {
    expect(roundTo(0.1 + 0.2, 12)).toBe(0.3)
    expect(roundTo(1.1 * 1.15, 3)).toBe(1.265)
  })
})
