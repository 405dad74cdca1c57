import { describe, expect, it } from 'vitest'
import { type Equipment, usualPlates } from '../../src/figures/bar.ts'
import type { Load } from '../../src/prescription/model.ts'
import { loadKilograms } from '../../src/progress/loadSteps.ts'
import { changedLoad } from './nextDays.ts'

/* A load that lies exactly at a limit. These are this program's own rules; the steps are common practice, no source. */

/** A bar of 20 kg that makes 20, 30, 40 or 50 kg, and the lightest plate of 5 kg. */
const equipmentOf = (): Equipment => ({
  bar: 20,
  collar: 0,
  plates: [
    { mass: 10, pairs: 1 },
    { mass: 5, pairs: 1 },
  ],
  isOnBar: true,
})
const mass = (from: number, pair = false, unit: 'kg' | 'lb' = 'kg'): Load => ({
  kind: 'mass',
  from,
  to: from,
  unit,
  pair,
})
const changed = (load: Load, share: number, toward: 'share' | 'near' | 'above', least = 1) => {
  const made = changedLoad(load, share, toward, equipmentOf, { name: 'dip', bodyKg: 70, least })
  return made?.kind === 'mass' ? made.from : made?.kind === 'bodyweight' ? made.added : null
}

describe('a load at a limit', () => {
  it('is on the bar from the empty bar on', () => {
    expect(changed(mass(20), 1, 'above')).toBe(30)
    // Below it, whole steps of 2.5 kg.
    expect(changed(mass(18), 1, 'above')).toBe(20)
    expect(changed(mass(17), 1, 'above')).toBe(17.5)
  })

  it('is the exact load where the bar allows it', () => {
    expect([changed(mass(40), 0.75, 'share'), changed(mass(40), 1, 'above', 1.25)]).toEqual([30, 50])
    expect(changed(mass(50), 0.8, 'share')).toBe(40)
  })

  it('is the exact load where it is a whole number of steps of dumbbells', () => {
    expect([changed(mass(25, true), 0.9, 'near'), changed(mass(25, true), 0.9, 'share')]).toEqual([
      22.5, 22.5,
    ])
    expect(changed(mass(25, true), 1, 'above', 1.1)).toBe(27.5)
    expect(changed(mass(50, true, 'lb'), 0.9, 'share')).toBe(45)
    expect(changed(mass(50, true, 'lb'), 1, 'above', 1.1)).toBe(55)
  })

  it('is a step of the dumbbells that the athlete has', () => {
    const twos = () => ({ ...equipmentOf(), dumbbellStep: 2 })
    const change = (toward: 'above' | 'near', share: number) =>
      changedLoad(mass(20, true), share, toward, twos, { name: 'db press', bodyKg: 70, least: 1 })
    expect(change('above', 1)).toMatchObject({ from: 22 })
    expect(change('near', 0.9)).toMatchObject({ from: 18 })
    // By steps of 2.5 kg the next ones would be 12 % off.
    expect(changed(mass(20, true), 1, 'above')).toBe(22.5)
    expect(changed(mass(20, true), 0.9, 'near')).toBeNull()
  })

  it('is never more than 10 % lighter at once', () => {
    expect([changed(mass(25, true), 0.9, 'near'), changed(mass(22.5, true), 0.9, 'near')]).toEqual([
      22.5,
      null,
    ])
  })

  it('goes up from the body by the plates that make it heavy enough, and down to no load at all', () => {
    const body = (added: number): Load => ({ kind: 'bodyweight', added, unit: 'kg' })
    expect([changed(body(0), 1, 'above', 75 / 70), changed(body(5), 0.9, 'near')]).toEqual([5, 0])
    expect([changed(body(5), 0.9, 'share'), changed(body(0), 0.9, 'near')]).toEqual([0, null])
  })

  it('is more assistance where it is assisted, by the moved mass: 5 % of 50 kg, and 10 %', () => {
    const help = (added: number, unit: 'kg' | 'lb' = 'kg'): Load => ({ kind: 'bodyweight', added, unit })
    // 47.5 and 45 kg moved are 22.5 and 25 kg of help, by steps of 5 kg.
    expect([changed(help(-20), 0.95, 'near'), changed(help(-20), 0.9, 'share')]).toEqual([-25, -25])
    // 70 kg are 154.3 lb: 5 % of 114.3 lb are 5.7 lb more, nearest to a step of 5 lb.
    expect(changed(help(-40, 'lb'), 0.95, 'near')).toBe(-45)
    const unknown = { name: 'dip', bodyKg: null, least: 1 }
    expect(changedLoad(help(-20), 0.95, 'near', equipmentOf, unknown)).toBeNull()
    expect(changed(help(-70), 0.95, 'near')).toBeNull()
  })

  it('is nothing but the body without plates, unless something was added', () => {
    const none = () => ({ ...equipmentOf(), plates: [] })
    const lifter = { name: 'chin-up', bodyKg: 70, least: 1.025 }
    const by = (added: number, toward: 'above' | 'near', share: number) =>
      changedLoad({ kind: 'bodyweight', added, unit: 'kg' }, share, toward, none, lifter)
    expect(by(0, 'above', 1)).toBeNull()
    expect(by(5, 'above', 1)).toMatchObject({ added: 7.5 })
    expect(by(-20, 'near', 0.95)).toMatchObject({ added: -22.5 })
  })

  it('takes off help in steps of 2.5 kg where the lightest plate is 1.25 kg, as a band or a machine has none smaller', () => {
    const help: Load = { kind: 'bodyweight', added: -20, unit: 'kg' }
    const plates = () => ({ ...equipmentOf(), plates: usualPlates.kg })
    const by = (toward: 'above' | 'near', share: number) =>
      changedLoad(help, share, toward, plates, { name: 'chin-up', bodyKg: 70, least: 1.025 })
    expect(by('above', 1)).toMatchObject({ added: -17.5 })
    expect(by('near', 0.95)).toMatchObject({ added: -22.5 })
  })

  it('has neither mass nor steps if it follows the last one', () => {
    const last: Load = { kind: 'last', added: 2.5, unit: 'kg' }
    expect(['share', 'near', 'above'].map((toward) => changed(last, 0.9, toward as 'share'))).toEqual([
      ...[null, null, null],
    ])
    expect(loadKilograms(last, 'squat', 70)).toBeNull()
  })
})
