import { printNumber, roundTo } from './decimal.ts'
import type { Mass, MassUnit } from './model.ts'
import { massUnitOf, numberAndWord } from './words.ts'

/** Kilograms in a pound, exact: international yard and pound agreement, 1959. */
export const kilogramsInPound = 0.45359237

/** Kilograms of a mass, which may be 0 or negative (assistance). */
export function kilogramsOf(mass: { value: number; unit: MassUnit }): number {
  return mass.unit === 'kg' ? mass.value : mass.value * kilogramsInPound
}

/** Writes a mass in the notation, exactly: `92.5 kg`. */
export function printMass(mass: { value: number; unit: MassUnit }): string {
  return `${printNumber(mass.value)} ${mass.unit}`
}

/** Writes a mass for the screen, with up to two decimals: `100.8 kg`. */
export function formatMass(mass: { value: number; unit: MassUnit }): string {
  return `${roundTo(mass.value, 2)} ${mass.unit}`
}

/** Reads a mass such as `92.5 kg`, `135lbs`, or a bare number in `unit`. Null for other text, and for a mass that is 0
 * or not finite. */
export function readMass(text: string, unit: MassUnit): Mass | null {
  const read = numberAndWord(text)
  const typed = read?.word === '' ? unit : massUnitOf(read?.word ?? '')
  return read && typed && { value: read.value, unit: typed }
}

export function kilogramsIn(kg: number, unit: MassUnit): number {
  return massIn({ value: kg, unit: 'kg' }, unit)
}

/** Converts a mass to another unit, without rounding. */
export function massIn(mass: { value: number; unit: MassUnit }, unit: MassUnit): number {
  if (mass.unit === unit) return mass.value
  return unit === 'kg' ? mass.value * kilogramsInPound : mass.value / kilogramsInPound
}
