import * as z from 'zod'

export const MassUnit = z.enum(['kg', 'lb'])
export type MassUnit = z.infer<typeof MassUnit>

/** The unit that distances and paces are shown in. */
export const DistanceUnit = z.enum(['km', 'mi'])
export type DistanceUnit = z.infer<typeof DistanceUnit>

/** A mass in the unit in which it was written: 45 lb stays 45 lb and never becomes 20 kg. */
export const Mass = z.strictObject({ value: z.number().positive(), unit: MassUnit })
export type Mass = z.infer<typeof Mass>

/** A length as it was written, so that it prints the same. */
export const Length = z.strictObject({
  value: z.number().positive(),
  unit: z.enum(['m', 'km', 'mi', 'yd', 'lap', 'half marathon', 'marathon']),
})
export type Length = z.infer<typeof Length>
export type LengthUnit = Length['unit']
