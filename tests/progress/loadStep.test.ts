import { describe, expect, it } from 'vitest'
import { rackOf, usualPlates } from '../../src/figures/bar.ts'
import type { Load } from '../../src/prescription/model.ts'
import { heavierLoad, lighterLoad } from '../../src/progress/loadStep.ts'

const atHand = (unit: 'kg' | 'lb') => ({
  rack: rackOf({ bar: unit === 'kg' ? 20 : 45, collar: 0, plates: usualPlates[unit] }),
  smallest: unit === 'kg' ? 1.25 : 2.5,
})
const few = () => ({
  rack: rackOf({
    bar: 20,
    collar: 0,
    plates: [
      { mass: 20, pairs: 1 },
      { mass: 10, pairs: 1 },
    ],
  }),
  smallest: 10,
})
const mass = (value: number, unit: 'kg' | 'lb' = 'kg', pair = false): Load => ({
  kind: 'mass',
  from: value,
  to: value,
  unit,
  pair,
})
const body = (added: number): Load => ({ kind: 'bodyweight', added, unit: 'kg' })

// By hand: a 20 kg bar and pairs down to 1.25 kg make every 2.5 kg; 5 % of 92.5 kg is 4.625 kg.
describe('the next load', () => {
  it.each<[string, Load, Load | null, Load | null]>([
    ['a load on the bar', mass(92.5), mass(95), mass(87.5)],
    ['a load that the plates cannot make', mass(91), mass(92.5), mass(85)],
    ['pounds', mass(225, 'lb'), mass(230, 'lb'), mass(210, 'lb')],
    ['the empty bar', mass(20), mass(22.5), null],
    ['less than the bar', mass(16), mass(18.5), mass(15)],
    ['a pair', mass(22.5, 'kg', true), mass(25, 'kg', true), mass(20, 'kg', true)],
    ['an added load', body(10), body(11.25), body(8.75)],
    ['a small added load', body(1.25), body(2.5), body(0)],
    ['the body alone', body(0), null, null],
    ['assistance', body(-20), null, null],
    ['a percentage', { kind: 'percent', from: 85, to: 85 }, null, null],
    [
      'a range',
      { kind: 'mass', from: 90, to: 100, unit: 'kg', pair: false },
      { kind: 'mass', from: 92.5, to: 102.5, unit: 'kg', pair: false },
      { kind: 'mass', from: 85, to: 95, unit: 'kg', pair: false },
    ],
  ])('of %s', (_, load, heavier, lighter) => {
    expect(heavierLoad(load, atHand)).toEqual(heavier)
    expect(lighterLoad(load, atHand)).toEqual(lighter)
  })

  it('is what few plates make, and nothing above all of them', () => {
    expect(heavierLoad(mass(40), few)).toEqual(mass(60))
    expect(lighterLoad(mass(60), few)).toEqual(mass(40))
    expect(heavierLoad(mass(80), few)).toBeNull()
  })
})
