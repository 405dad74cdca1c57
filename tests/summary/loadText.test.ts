import { describe, expect, it } from 'vitest'
import { loadText, prescribedLoadText, shortLoadText } from '../../src/summary/loadText.ts'

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
  })
})

describe('a prescribed load', () => {
  const last = (added: number) => ({ kind: 'last', added, unit: 'kg' }) as const
  const span = (from: number, to: number, pair = false) =>
    ({ kind: 'mass', from, to, unit: 'kg', pair }) as const

  it.each([
    [{ kind: 'percent', from: 80, to: 80 } as const, '80%', '80%'],
    [{ kind: 'percent', from: 75, to: 80 } as const, '75-80%', '75-80%'],
    [last(0), 'last', 'last'],
    [last(2.5), 'last + 2.5 kg', 'last + 5.51 lb'],
    [last(-5), 'last - 5 kg', 'last - 11.02 lb'],
    [bodyweight(0), 'bodyweight', 'bodyweight'],
    [bodyweight(-20), 'bodyweight-20 kg', 'bodyweight-44.09 lb'],
    [bodyweight(10), 'bodyweight+10 kg', 'bodyweight+22.05 lb'],
    [span(100, 100), '100 kg', '220.46 lb'],
    [span(90, 100, true), '2x90-100 kg', '2x198.42-220.46 lb'],
  ])('%j is written %s, in pounds %s', (load, text, pounds) => {
    expect(prescribedLoadText(load)).toBe(text)
    expect(prescribedLoadText(load, 'lb')).toBe(pounds)
  })
})
