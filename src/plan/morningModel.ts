import * as z from 'zod'
import { Mass } from '../units/model.ts'

const when = {
  /** When it was typed: local time with its offset. */
  at: z.iso.datetime({ offset: true }),
  /** The morning it is about: local date. */
  date: z.iso.date(),
}

/** What was typed for a morning; a property that was not typed is absent. */
const MorningValues = z.strictObject({
  sleepSeconds: z.number().min(0).max(86_400).optional(),
  /** Beats a minute. */
  restingHeartRate: z.int().min(1).max(300).optional(),
  bodyMass: Mass.optional(),
  /** How sore or painful places are, from 0 to 10. */
  soreness: z.array(z.strictObject({ place: z.string(), level: z.number().min(0).max(10) })).optional(),
  note: z.string().optional(),
})
export type MorningValues = z.infer<typeof MorningValues>

/** Typed for a morning, or the undoing of the last entry for it. */
export const MorningEvent = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('typed'), ...when, values: MorningValues }),
  z.strictObject({ type: z.literal('undone'), ...when }),
])
export type MorningEvent = z.infer<typeof MorningEvent>
