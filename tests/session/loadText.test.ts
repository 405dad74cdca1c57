import { describe, expect, it } from 'vitest'
import { loadText, shortLoadText } from '../../src/session/load.ts'

const mass = (value: number, pair = false) => ({ kind: 'mass', value, unit: 'kg', pair }) as const
const bodyweight = (added: number) => ({ kind: 'bodyweight', added, unit: 'kg' }) as const

describe('a load', () => {
  it.each([
    [mass(137.5), '137.5 kg', '137.5'],
    [mass(22.5, true), '2x22.5 kg', '2x22.5'],
    [bodyweight(0), 'bodyweight', 'bodyweight'],
    [bodyweight(10), 'bodyweight+10 kg', 'bw+10'],
    [bodyweight(-20), 'bodyweight-20 kg', 'bw-20'],
    [mass(60.123456), '60.12 kg', '60.12'],
  ])('%j is written %s, in short %s', (load, text, short) => {
    expect(loadText(load)).toBe(text)
    expect(shortLoadText(load)).toBe(short)
  })

  it('is printed in the requested unit', () => {
    expect(loadText(mass(100), 'lb')).toBe('220.46 lb')
    expect(loadText(bodyweight(-20), 'lb')).toBe('bodyweight-44.09 lb')
  })
})
