import * as z from 'zod'
import { formulaNames } from '../figures/oneRepMax.ts'
import { MorningEvent } from '../plan/morningModel.ts'
import type { Session } from '../session/model.ts'
import { IndexedFigures, type Summary } from '../summary/model.ts'
import { DistanceUnit, MassUnit } from '../units/model.ts'
import { morningFormat, settingsFormat } from './text.ts'

/** Heavier than any bar; a larger mass is a typing error. */
const mass = z.number().positive().max(500)
const plates = z.array(z.strictObject({ mass, pairs: z.int().min(1).max(99) })).max(40)

/** What an athlete sets once for all days. */
export const Settings = z.strictObject({
  format: z.literal(settingsFormat),
  /** The unit for printing, and for a prescription that names none. */
  units: z.strictObject({ distance: DistanceUnit, mass: MassUnit }),
  /** Each valid from its local date on; in order of dates, one for each date. */
  bodyMasses: z.array(
    z.strictObject({ date: z.iso.date(), value: z.number().positive().max(1000), unit: MassUnit }),
  ),
  /** By the unit of the plates. */
  bar: z.strictObject({ kg: mass, lb: mass }),
  /** One collar; 0 if not used. */
  collar: z.strictObject({ kg: z.number().min(0).max(100), lb: z.number().min(0).max(100) }),
  plates: z.strictObject({ kg: plates, lb: plates }),
  /** From one dumbbell, or plate of a stack, to the next. */
  dumbbellStep: z.strictObject({ kg: mass, lb: mass }),
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

/** SHA-256 of the file with these digits as zeros; absent if the file was edited by hand. */
export const Checksum = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .optional()

/** A year of mornings: what was typed, in order. A later entry corrects an earlier one of the same morning; "undone"
 * undoes the last entry for it. */
export const Mornings = z.strictObject({
  format: z.literal(morningFormat),
  checksum: Checksum,
  events: z.array(MorningEvent),
})

/** What the index keeps of a session. */
export const IndexRow = z.strictObject({
  /** Below the folder of the sessions: `2026/2026-11-26-ID.json`. */
  file: z.string(),
  /** Bytes. */
  size: z.number(),
  /** When the file was last changed, in milliseconds since 1970. */
  mtime: z.number(),
  /** Names the version of the row and the settings that its figures depend on. */
  basis: z.string(),
  finished: z.boolean(),
  /** Milliseconds since 1970; null if the start is unknown. */
  started: z.number().nullable(),
  /** The first known time of an event; null without any. */
  begun: z.number().nullable(),
  ...IndexedFigures.shape,
})
export type IndexRow = z.infer<typeof IndexRow>

/** Who holds a lock, and a name unique to this lock. */
export const LockText = z.object({
  pid: z.int(),
  host: z.string(),
  /** Boot id of the machine; null if unknown. */
  boot: z.string().nullable(),
  /** When the process began, in the platform's own form; null if unknown. */
  began: z.string().nullable(),
  /** The space of process numbers; absent in locks of earlier versions. */
  space: z.string().nullable().optional(),
  /** When the lock was taken: local time with its offset. */
  at: z.string(),
  name: z.string().regex(/^[\w-]{1,40}$/),
})
export type LockText = z.infer<typeof LockText>

/** The process that holds a lock. */
export type Owner = Omit<LockText, 'space' | 'name'>

/** A session on the disk, known only by its file name. */
export interface SessionEntry {
  id: string
  /** Local date of the start. */
  date: string
  /** Absolute. */
  path: string
}

/** A session as the index has it. */
export interface IndexEntry
  extends SessionEntry,
    IndexedFigures,
    Pick<IndexRow, 'finished' | 'started' | 'mtime'> {
  /** The first known time of an event, else when its file last changed: the sort key for the sessions of one day. */
  begun: number
  /** The ids of the older versions of this session, with commas between them; they do not count. Absent without one. */
  otherVersion?: string
  /** An exercise with its sets; null if it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): IndexedFigures['lifts'][number] | null
  /** All its figures, read from its own file; null if the file was damaged since the index was read. */
  summary(): Summary | null
}

/** A session read without recording it. */
export interface SessionView {
  entry: SessionEntry
  session: Session
  /** The process that is recording it now; null if nobody is. */
  recordedBy: Owner | null
}
