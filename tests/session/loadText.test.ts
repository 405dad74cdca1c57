import { describe, expect, it } from 'vitest'
import { loadText } from '../../src/session/load.ts'

const mass = (value: number, pair = false) => ({ kind: 'mass', value, unit: 'kg', pair }) as const
const bodyweight = (added: number) => ({ kind: 'bodyweight', added, unit: 'kg' }) as const

describe('a load', () => {
  it.each([
    [mass(137.5), '137.5 kg'],
    [mass(22.5, true), '2x22.5 kg'],
    [bodyweight(0), 'bodyweight'],
    [bodyweight(10), 'bodyweight+10 kg'],
    [bodyweight(-20), 'bodyweight-20 kg'],
    [mass(60.123456), '60.12 kg'],
  ])('%j is written %s', (load, text) => {
    expect(loadText(load)).toBe(text)
  })

  it('is printed in the requested unit', () => {
    expect(loadText(mass(100), 'lb')).toBe('220.46 lb')
    expect(loadText(bodyweight(-20), 'lb')).toBe('bodyweight-44.09 lb')
  })
})
