import type { Prescription } from '../prescription/model.ts'
import type { Session, SessionEvent } from '../session/model.ts'
import type { Brief, Summary } from '../summary/model.ts'
import type { IndexRow } from './storedModels.ts'

/* What the logbook offers to those above it. Everything is synchronous: when a call returns, it is on
 * the disk, or its result says that it is not. */

/** `false`: the events are kept in memory and saved by the next append or retry that gets through. */
export type Saved = { saved: true } | { saved: false; reason: string }

/** The process that holds a lock. */
export interface Owner {
  pid: number
  host: string
  /** Of the machine since it was started; null where it cannot be known. */
  boot: string | null
  /** When the process began, in a form of the platform's own; null where it cannot be known. */
  began: string | null
  /** When the lock was taken: local time with its offset. */
  at: string
}

/** A session on the disk, by its file name alone. */
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
  /** Milliseconds since 1970; null where the start is not known. */
  started: number | null
  /** When it began, or else when its file was changed last: what a day's sessions are sorted by. */
  begun: number
  brief: Brief
  heavyLegSets: number
  lifts: IndexRow['lifts']
  running: IndexRow['running']
  /** The id of an older version of it, which was kept after a conflict and does not count. */
  otherVersion?: string
  /** Whether an exercise was lifted, by its `exerciseKey`. */
  hasLifted(key: string): boolean
  /** An exercise with its sets; null where it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): IndexRow['lifts'][number] | null
  /** All its figures, read from its own file; null where that was damaged since the index was read. */
  summary(): Summary | null
}

/** Damage that was found: which file, what is wrong with it, what was done. Whole sentences; the file is
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
  /** Outcome of the last write. */
  readonly state: Saved
  /** Events that are in memory only. */
  readonly unsaved: readonly SessionEvent[]
  /** Adds events at the end and writes the whole file durably before it returns.
   * @throws TypeError for an invalid event: nothing is added then */
  append(events: readonly SessionEvent[]): Saved
  /** Writes again what could not be written. */
  retry(): Saved
  /** Tries once more to save what is not saved, brings the index up to date and gives the lock back. */
  close(): Saved
  /** Takes the session and its earlier copy off the logbook and gives the lock back. */
  discard(): void
}

/** A session read without recording it. */
export interface SessionView {
  entry: SessionEntry
  session: Session
  /** The process that is recording it just now; null when none is. */
  recordedBy: Owner | null
}

export type SessionStart = Extract<SessionEvent, { type: 'sessionStarted' }>

export interface Logbook {
  /** Absolute. */
  readonly directory: string
  /** Damage met so far by this logbook, each once. */
  readonly damages: readonly Damage[]
  /** A new session under a new id, locked. Its `state` tells whether the start could be saved.
   * @param more events that follow the start at once: a whole session kept on paper
   * @throws LogbookError `cannot_write` when not even its folder can be made, or when what is given is no session */
  create(prescription: Prescription, start: SessionStart, more?: readonly SessionEvent[]): SessionFile
  /** Puts a session that could not even be created into the temporary folder.
   * @returns where it is and where it belongs; null where it cannot be written there either */
  spill(prescription: Prescription, events: readonly SessionEvent[]): { path: string; place: string } | null
  /** New sessions, finished ones, all of which are stored or none, wherever it is cut off; their ids.
   * @param onProgress told now and then how many of how many are written
   * @throws LogbookError `cannot_write` */
  createAll(
    sessions: readonly { prescription: Prescription; start: SessionStart; events: readonly SessionEvent[] }[],
    onProgress?: (done: number, of: number) => void,
  ): string[]
  /** Takes a session up to record in it.
   * @throws LogbookError `no_such_session`, `ambiguous_session`, `locked`, `damaged` */
  open(which: string): SessionFile
  /** @param which `newest`, an id, or the beginning of exactly one id
   * @throws LogbookError `no_such_session`, `ambiguous_session`, `damaged` */
  read(which: string): SessionView
  /** Newest first. */
  list(): SessionEntry[]
  /** Sessions that are not finished, newest first. */
  unfinished(): SessionView[]
  /** Every session, newest first, from the index, which is brought up to date first.
   * @param onProgress told now and then how many of how many sessions were looked at */
  index(onProgress?: (done: number, of: number) => void): IndexEntry[]
  /** The process that is recording this session; null when none is. */
  recordedBy(entry: SessionEntry): Owner | null
  /** The prescriptions that lie ready, by name. */
  prescriptions(): { name: string; path: string }[]
}
