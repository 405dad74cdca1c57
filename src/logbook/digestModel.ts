import * as z from 'zod'
import { SetResult } from '../session/result.ts'
import { Brief, Summary } from '../summary/model.ts'

const DoneSet = SetResult.omit({ note: true, pain: true })
export type DigestSet = z.infer<typeof DoneSet>

const Work = z.strictObject({
  /** Repeats, rather than the splits of one continuous piece. */
  repeats: z.boolean(),
  /** The word of its target: easy, race, trial and so on; null without one. */
  word: z.string().nullable(),
  /** For each of its splits that was not recorded, how many recorded ones lie before it. */
  gaps: z.array(z.int()),
})

/** What the digest keeps of a session: its summary, what was lifted set by set, and what kind each piece of
 * work is, in the order of `summary.running.items` and `summary.cross.items`. */
export const DigestDay = z.strictObject({
  summary: Summary,
  lifts: z.array(z.strictObject({ name: z.string(), sets: z.array(DoneSet) })),
  running: z.array(Work),
  cross: z.array(Work),
})
export type DigestDay = z.infer<typeof DigestDay>

/* A day lies in its line in sections, one for each exercise among them, so that a question about ten thousand
 * days reads of each only what it is about. */

const { session, parts, running, cross, lifting, fuel, notes, changes } = Summary.shape
const { sets, reps, tonnageKg } = lifting.shape

export const digestSections = {
  brief: Brief,
  lift: z.strictObject({
    figures: lifting.shape.exercises.element,
    sets: DigestDay.shape.lifts.element.shape.sets,
  }),
  running: z.strictObject({ figures: running, kinds: DigestDay.shape.running }),
  rest: z.strictObject({
    session,
    parts,
    totals: z.strictObject({ sets, reps, tonnageKg }),
    cross,
    crossKinds: DigestDay.shape.cross,
    fuel,
    notes,
    changes,
  }),
}

type Schemas = typeof digestSections
export type SectionName = keyof Schemas
export type Section<Name extends SectionName> = z.infer<Schemas[Name]>
