import * as z from 'zod'
import { partKinds } from './syntax.ts'

/* A day laid out, as other programs read it: SI units, named in the keys. Figures of what is planned, none
 * of what was done. */

export const Plan = z.strictObject({
  title: z.string(),
  date: z.iso.date().nullable(),
  parts: z.array(
    z.strictObject({
      kind: z.enum(partKinds),
      name: z.string().nullable(),
      items: z.array(
        z.strictObject({
          text: z.string(),
          line: z.int(),
          /** How many results a results file has for it. */
          entries: z.int(),
          /** Work and recoveries by distance; 0 without any. */
          meters: z.number(),
          /** From and to, for one entry; absent where nothing fixes it, or it is not the same for all full ones. */
          targetSeconds: z.tuple([z.number(), z.number()]).optional(),
        }),
      ),
    }),
  ),
  entries: z.int(),
  runMeters: z.number(),
  liftSets: z.int(),
  /** Added load counts, the body does not; loads that are not known are left out. */
  plannedTonnageKg: z.number(),
  /** To be said as rough. */
  expectedMinutes: z.int(),
})
export type Plan = z.infer<typeof Plan>
