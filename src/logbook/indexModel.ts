import * as z from 'zod'
import { SetResult } from '../session/result.ts'
import { Brief, Summary } from '../summary/model.ts'

const { running, lifting } = Summary.shape

const IndexSet = SetResult.omit({ note: true, pain: true })
export type IndexSet = z.infer<typeof IndexSet>

const RunningKind = z.strictObject({
  /** Repeats, rather than the splits of one continuous run. */
  repeats: z.boolean(),
  /** The word of its target: easy, race, trial and so on; null without one. */
  word: z.string().nullable(),
  /** For each of its splits that was not recorded, how many recorded ones are before it. */
  gaps: z.array(z.int()),
})

/** What the index keeps of a session: what the history, the load and the best sets need. */
export const IndexRow = z.strictObject({
  /** Below the folder of the sessions: `2026/2026-11-26-ID.json`. */
  file: z.string(),
  /** Bytes. */
  size: z.number(),
  /** Of the file's last change: milliseconds since 1970. */
  mtime: z.number(),
  /** Names the version of the row and the settings that its figures depend on. */
  basis: z.string(),
  finished: z.boolean(),
  /** Milliseconds since 1970; null where the start is not known. */
  started: z.number().nullable(),
  brief: Brief,
  /** In the order in which they were first done. */
  lifts: z.array(
    z.strictObject({
      figures: lifting.shape.exercises.element,
      sets: z.array(IndexSet),
      /** Pain was noted with one of the sets. */
      hurt: z.boolean(),
    }),
  ),
  /** `kinds` in the order of the figures' items. */
  running: z.strictObject({ figures: running, kinds: z.array(RunningKind) }),
})
export type IndexRow = z.infer<typeof IndexRow>
