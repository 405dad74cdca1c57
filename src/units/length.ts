import { z } from 'zod'

/** Metres in each unit of length that does not depend on a track. Exact by definition:
 * international yard and pound agreement, 1959; the marathon distances: World Athletics. */
const metersIn = {
  m: 1,
  km: 1000,
  mi: 1609.344,
  yd: 0.9144,
  'half marathon': 21097.5,
  marathon: 42195,
} as const

const units = ['m', 'km', 'mi', 'yd', 'lap', 'half marathon', 'marathon'] as const

/** A length as it was written, so that it can be printed back as it was written. */
export const Length = z.strictObject({
  value: z.number().positive(),
  unit: z.enum(units),
})
export type Length = z.infer<typeof Length>

/** Metres of a length.
 * @param lapMeters what one lap is on the track in question, in metres */
export function metersOf(length: Length, lapMeters = 400): number {
  return length.value * (length.unit === 'lap' ? lapMeters : metersIn[length.unit])
}
