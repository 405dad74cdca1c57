import type { Prescription } from '../prescription/model.ts'
import type { Session, SessionEvent } from '../session/model.ts'
import type { Brief, Summary } from '../summary/model.ts'
import type { IndexRow } from './storedModels.ts'

/* The logbook's interface for the rooms above it. Everything is synchronous: when a call returns, its data is on
 * the disk, or its result says that it is not. */

/** `false`: the events are kept in memory and saved by the next append or retry that succeeds. */
export type Saved = { saved: true } | { saved: false; reason: string }

/** The process that holds a lock. */
export interface Owner {
  pid: number
  host: string
  /** Boot id of the machine; null if unknown. */
  boot: string | null
  /** When the process began, in the platform's own form; null if unknown. */
  began: string | null
  /** When the lock was taken: local time with its offset. */
  at: string
}

/** A session on the disk, known only by its file name. */
export interface SessionEntry {
  id: string
  /** Local date of the start. */
  date: string
  /** Absolute. */
  path: string
}

/** A session as the index has it. */
export interface IndexEntry extends SessionEntry {
  readonly row: IndexRow
  finished: boolean
  /** Milliseconds since 1970; null if the start is unknown. */
  started: number | null
  /** When it began, else when its file last changed: the sort key for the sessions of one day. */
  begun: number
  brief: Brief
  heavyLegSets: number
  lifts: IndexRow['lifts']
  running: IndexRow['running']
  /** The session's id if this is an older version of it, kept after a conflict; it does not count. */
  otherVersion?: string
  /** Whether an exercise was lifted, by its `exerciseKey`. */
  hasLifted(key: string): boolean
  /** An exercise with its sets; null if it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): IndexRow['lifts'][number] | null
  /** All its figures, read from its own file; null if the file was damaged since the index was read. */
  summary(): Summary | null
}

/** Damage that was found: which file, what is wrong with it, what was done, in whole sentences. The file is
 * relative to the logbook. */
export interface Damage {
  file: string
  wrong: string
  done: string
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
  /** Appends events and writes the whole file durably before it returns.
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
  /** @param which `newest`, an id, or the beginning of exactly one id
   * @throws LogbookError `no_such_session`, `ambiguous_session`, `damaged` */
  read(which: string): SessionView
  /** Newest first. */
  list(): SessionEntry[]
  /** Sessions that are not finished, newest first. */
  unfinished(): SessionView[]
  /** Every session, newest first, from the index, which is updated first.
   * @param onProgress called now and then: how many of how many sessions were checked */
  index(onProgress?: (done: number, of: number) => void): IndexEntry[]
  /** The process that is recording this session; null if nobody is. */
  recordedBy(entry: SessionEntry): Owner | null
  /** The prescriptions that are ready, by name. */
  prescriptions(): { name: string; path: string }[]
}
