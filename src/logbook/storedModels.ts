import * as z from 'zod'
import { formulaNames } from '../figures/oneRepMax.ts'
import { SetResult } from '../session/result.ts'
import { Brief, Summary } from '../summary/model.ts'
import { Mass, MassUnit } from '../units/model.ts'
import { morningFormat, settingsFormat } from './formats.ts'

/** Heavier than any bar; a larger mass is a typing error. */
const mass = z.number().positive().max(500)
const plates = z.array(z.strictObject({ mass, pairs: z.int().min(1).max(99) })).max(40)

/** What an athlete sets once for all days. */
export const Settings = z.strictObject({
  format: z.literal(settingsFormat),
  /** The unit for printing, and for a prescription that names none. */
  units: z.strictObject({ distance: z.enum(['km', 'mi']), mass: MassUnit }),
  /** Each valid from its local date on; in order of dates, one for each date. */
  bodyMasses: z.array(
    z.strictObject({ date: z.iso.date(), value: z.number().positive().max(1000), unit: MassUnit }),
  ),
  /** By the unit of the plates. */
  bar: z.strictObject({ kg: mass, lb: mass }),
  /** One collar; 0 if not used. */
  collar: z.strictObject({ kg: z.number().min(0).max(100), lb: z.number().min(0).max(100) }),
  plates: z.strictObject({ kg: plates, lb: plates }),
  /** Exercises that are on a bar, or are not, whatever their names suggest. Files before 0.1 lack them. */
  onBar: z.array(z.string().min(1)).max(100).optional(),
  offBar: z.array(z.string().min(1)).max(100).optional(),
  /** The equation for one-repetition maxima: the median of the seven, or one of them. */
  formula: z.enum(formulaNames),
  /** Highest heart rate, beats a minute; null if unknown. */
  hrMax: z.int().min(100).max(240).nullable(),
  /** A list is a command and its arguments, called without a shell. */
  bell: z.union([z.enum(['on', 'off']), z.array(z.string()).min(1)]),
  /** Seconds for each repetition, when the clock ends the groups of a set. */
  secondsPerRepetition: z.number().min(0.5).max(60),
  advice: z.boolean(),
  /** `blocks`: digits five rows high if there is room; `plain`: digits as text. */
  clock: z.enum(['blocks', 'plain']),
  /** `auto`: what the terminal's character set can show. */
  characters: z.enum(['auto', 'unicode', 'ascii']),
  screenReader: z.boolean(),
  notifications: z.boolean(),
  /** What kinds of day follow each other; may be empty. */
  rotation: z.array(z.string().min(1)).max(30),
  /** The remote that sync pushes to; null if not set. */
  syncRemote: z.string().min(1).nullable(),
  firstStartSeen: z.boolean(),
})
export type Settings = z.infer<typeof Settings>

const when = {
  /** When it was typed: local time with its offset. */
  at: z.iso.datetime({ offset: true }),
  /** The morning it is about: local date. */
  date: z.iso.date(),
}

/** What was typed for a morning; a property that was not typed is absent. */
const MorningWords = z.strictObject({
  sleepSeconds: z.number().min(0).max(86_400).optional(),
  /** Beats a minute. */
  restingHeartRate: z.int().min(1).max(300).optional(),
  bodyMass: Mass.optional(),
  /** By place, from 0 to 10. */
  soreness: z.array(z.strictObject({ place: z.string(), level: z.number().min(0).max(10) })).optional(),
  note: z.string().optional(),
})

/** A year of mornings: what was typed, in order. A later entry corrects an earlier one of the same morning; "undone"
 * undoes the last entry for it. */
export const Mornings = z.strictObject({
  format: z.literal(morningFormat),
  /** SHA-256 of the file with these digits as zeros; absent if the file was edited by hand. */
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

const { running, lifting } = Summary.shape

const IndexSet = SetResult.omit({ note: true, pain: true })
export type IndexSet = z.infer<typeof IndexSet>

const RunningKind = z.strictObject({
  /** Repeats, rather than the splits of one continuous run. */
  repeats: z.boolean(),
  /** The word of its target: easy, race, trial and so on; null without one. */
  word: z.string().nullable(),
  /** For each of its splits that was not recorded, the number of recorded ones before it. */
  gaps: z.array(z.int()),
  /** Session RPE of its part, 0 to 10; null if none was typed. */
  effort: z.number().nullable(),
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
  /** Milliseconds since 1970; null if the start is unknown. */
  started: z.number().nullable(),
  brief: Brief,
  /** Sets that were heavy for the legs. */
  heavyLegSets: z.int(),
  /** In the order in which they were first done. */
  lifts: z.array(
    z.strictObject({
      figures: lifting.shape.exercises.element,
      sets: z.array(IndexSet),
      /** One of the sets has a pain noted. */
      hurt: z.boolean(),
    }),
  ),
  /** `kinds` follows the order of the figures' items. */
  running: z.strictObject({ figures: running, kinds: z.array(RunningKind) }),
})
export type IndexRow = z.infer<typeof IndexRow>

/** Who holds a lock, and a name unique to this lock. */
export const LockText = z.object({
  pid: z.int(),
  host: z.string(),
  boot: z.string().nullable(),
  began: z.string().nullable(),
  /** The space of process numbers; absent in locks of earlier versions. */
  space: z.string().nullable().optional(),
  at: z.string(),
  name: z.string().regex(/^[\w-]{1,40}$/),
})
export type LockText = z.infer<typeof LockText>
