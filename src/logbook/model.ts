import * as z from 'zod'
import { formulaNames } from '../figures/oneRepMax.ts'
import { MorningEvent } from '../plan/morningModel.ts'
import type { Prescription } from '../prescription/model.ts'
import type { Saved, Session, SessionEvent } from '../session/model.ts'
import { Digest, type Summary } from '../summary/model.ts'
import { MassUnit } from '../units/model.ts'
import type { Damage } from './errors.ts'
import { morningFormat, settingsFormat } from './text.ts'

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

/** A year of mornings: what was typed, in order. A later entry corrects an earlier one of the same morning; "undone"
 * undoes the last entry for it. */
export const Mornings = z.strictObject({
  format: z.literal(morningFormat),
  /** SHA-256 of the file with these digits as zeros; absent if the file was edited by hand. */
  checksum: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
  events: z.array(MorningEvent),
})
export type Mornings = z.infer<typeof Mornings>

/** What the index keeps of a session. */
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
  ...Digest.shape,
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

/* The logbook's interface for the rooms above it. Everything is synchronous: when a call returns, its data is on
 * the disk, or its result says that it is not. */

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
export interface IndexEntry extends SessionEntry, Digest, Pick<IndexRow, 'finished' | 'started'> {
  /** When it began, else when its file last changed: the sort key for the sessions of one day. */
  begun: number
  /** The id of the older version that sync kept when two machines changed this session; that one does not count. Absent
   * without one. */
  otherVersion?: string
  /** An exercise with its sets; null if it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): Digest['lifts'][number] | null
  /** All its figures, read from its own file; null if the file was damaged since the index was read. */
  summary(): Summary | null
}

/** A session that this process records: it holds the session's lock until `close`. */
export interface SessionFile {
  readonly id: string
  readonly path: string
  /** The session so far, including events that are not saved yet. */
  readonly session: Session
  /** Result of the last write. */
  readonly state: Saved
  /** Events that are only in memory. */
  readonly unsaved: readonly SessionEvent[]
  /** Appends events and writes the whole file durably before it returns. Events that cannot be saved are kept for the
   * next append or retry.
   * @throws TypeError for an invalid event; nothing is added then */
  append(events: readonly SessionEvent[]): Saved
  /** Tries again to write what could not be written. */
  retry(): Saved
  /** Tries once more to save unsaved events, updates the index and releases the lock. */
  close(): Saved
  /** Removes the session and its previous copy from the logbook and releases the lock. */
  discard(): void
}

/** A session read without recording it. */
export interface SessionView {
  entry: SessionEntry
  session: Session
  /** The process that is recording it now; null if nobody is. */
  recordedBy: Owner | null
}

export type SessionStart = Extract<SessionEvent, { type: 'sessionStarted' }>

export interface Logbook {
  /** Absolute. */
  readonly directory: string
  /** Damage that this logbook has met so far, each once. */
  readonly damages: readonly Damage[]
  /** Creates a session under a new id and locks it. Its `state` tells whether the start could be saved.
   * @param more events that follow the start at once, such as a whole session kept on paper
   * @throws LogbookError `cannot_write` if not even its folder can be made, or if the input is not a session */
  create(prescription: Prescription, start: SessionStart, more?: readonly SessionEvent[]): SessionFile
  /** Writes a session that could not even be created into the temporary folder.
   * @returns where it is and where it belongs; null if it cannot be written there either */
  spill(prescription: Prescription, events: readonly SessionEvent[]): { path: string; place: string } | null
  /** Stores new finished sessions, all of them or none, wherever it is cut off; returns their ids.
   * @param onProgress called now and then: how many of how many are written
   * @throws LogbookError `cannot_write` */
  createAll(
    sessions: readonly { prescription: Prescription; start: SessionStart; events: readonly SessionEvent[] }[],
    onProgress?: (done: number, of: number) => void,
  ): string[]
  /** Opens a session to record in it.
   * @throws LogbookError `no_such_session`, `ambiguous_session`, `locked`, `damaged` */
  open(which: string): SessionFile
  /** @param which `newest`, an id, the beginning of exactly one id, or a session that was listed
   * @throws LogbookError `no_such_session`, `ambiguous_session`, `damaged` */
  read(which: string | SessionEntry): SessionView
  /** Newest first. */
  list(): SessionEntry[]
  /** Sessions that are not finished, newest first.
   * @param entries the index, if it has just been read */
  unfinished(entries?: readonly IndexEntry[]): SessionView[]
  /** Every session, newest first, from the index, which is updated first.
   * @param onProgress called now and then: how many of how many sessions were checked
   * @param settings that the figures depend on, by default as they are read now */
  index(onProgress?: (done: number, of: number) => void, settings?: Settings): IndexEntry[]
  /** The prescriptions that are ready, by name. */
  prescriptions(): { name: string; path: string }[]
}
