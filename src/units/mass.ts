import { z } from 'zod'

/** Kilograms in a pound, exact: international yard and pound agreement, 1959. */
export const kilogramsInPound = 0.45359237

export const MassUnit = z.enum(['kg', 'lb'])
export type MassUnit = z.infer<typeof MassUnit>

/** A mass in the unit in which it was written: 45 lb stays 45 lb and never becomes 20 kg. */
export const Mass = z.strictObject({ value: z.number().positive(), unit: MassUnit })
export type Mass = z.infer<typeof Mass>

/** Kilograms of a number of kilograms or pounds; the number may be 0 or negative (assistance). */
export function kilogramsOf(mass: { value: number; unit: MassUnit }): number {
  return mass.unit === 'kg' ? mass.value : mass.value * kilogramsInPound
}
