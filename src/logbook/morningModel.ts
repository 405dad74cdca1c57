import * as z from 'zod'
import { Mass } from '../units/model.ts'
import { morningFormat } from './morningFormat.ts'

const when = {
  /** When it was typed: local time with its offset. */
  at: z.iso.datetime({ offset: true }),
  /** The morning that is meant: local date. */
  date: z.iso.date(),
}

/** What was said of a morning; what is absent was not said. */
const MorningWords = z.strictObject({
  sleepSeconds: z.number().min(0).max(86_400).optional(),
  /** Beats a minute. */
  restingHeartRate: z.int().min(1).max(300).optional(),
  bodyMass: Mass.optional(),
  /** By place, from 0 to 10. */
  soreness: z.array(z.strictObject({ place: z.string(), level: z.number().min(0).max(10) })).optional(),
  note: z.string().optional(),
})

/** A year of mornings: what was typed, in order. A later word corrects an earlier one of the same morning; "undone"
 * takes back the last that was typed for it. */
export const Mornings = z.strictObject({
  format: z.literal(morningFormat),
  /** SHA-256 of the file with these digits as zeros; absent where it was edited by hand. */
  checksum: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
  events: z.array(
    z.discriminatedUnion('type', [
      z.strictObject({ type: z.literal('typed'), ...when, values: MorningWords }),
      z.strictObject({ type: z.literal('undone'), ...when }),
    ]),
  ),
})
export type Mornings = z.infer<typeof Mornings>
