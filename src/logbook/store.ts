import { lstatSync, mkdirSync, readdirSync, rmdirSync } from 'node:fs'
import { basename, dirname, join, relative, resolve } from 'node:path'
import { nanoid } from 'nanoid'
import type { Prescription } from '../prescription/model.ts'
import type { Session, SessionEvent } from '../session/model.ts'
import { sessionFormat } from '../session/replay.ts'
import type { EventOf } from '../session/state.ts'
import {
  flushFolder,
  makeFolder,
  removeQuietly,
  renameOver,
  sweepLogbook,
  temporaryOf,
  unlessCode,
  writeFlushed,
} from './durableFile.ts'
import { type Damage, LogbookError, orRefuse, reasonOf, writingAdvice } from './errors.ts'
import { updateIndex } from './index.ts'
import { type Lock, lockOrRefuse, lockOwner } from './lock.ts'
import {
  emptyText,
  findVersions,
  isSessionName,
  lockPathOf,
  newId,
  pathsInFolder,
  sessionEntriesOf,
  sessionPathOf,
} from './logbookFiles.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { IndexEntry, SessionEntry, SessionView } from './model.ts'
import { prescriptionsIn } from './ownTexts.ts'
import {
  loadSession,
  newestFirst,
  printSession,
  readSession,
  repairSession,
  type SessionFile,
  sessionFileOf,
} from './sessionFile.ts'
import { readSettings } from './settings.ts'

export type Logbook = ReturnType<typeof openLogbook>

export interface NewSession {
  prescription: Prescription
  start: EventOf<'sessionStarted'>
  events: readonly SessionEvent[]
}

/** The logbook in a directory, which need not exist yet: nothing is created before something is stored. Removes what
 * killed programs left in it. Everything is synchronous: when a call returns, its data is on the disk, or its result
 * says that it is not.
 * @param directory any path; a relative one starts at the working directory
 * @param onMany called before so many sessions are read that it takes a second or more */
export function openLogbook(
  directory: string,
  machine: Machine = thisMachine(),
  onMany?: (sessions: number) => void,
) {
  const home = resolve(directory)
  const damages: Damage[] = []
  sweepLogbook(home, machine)

  const addDamage = (damage: Damage | null) => {
    const isKnown = damages.some(({ file, wrong }) => file === damage?.file && wrong === damage.wrong)
    if (damage !== null && !isKnown) damages.push(damage)
  }
  addDamage(storeArrivals(home))
  const list = () => newestFirst(home, sessionEntriesOf(home, addDamage))
  const entryOf = (which: string) => {
    const entries = list()
    if (entries.length > 0) return newestFirst(home, findVersions(which, entries))[0] as SessionEntry
    const damage = damages.at(-1)
    if (damage === undefined) throw new LogbookError('no_such_session', emptyText(home))
    const { file, wrong, done } = damage
    throw new LogbookError('damaged', `No session can be read. ${file}: ${wrong} ${done}`)
  }
  const loaded = (entry: SessionEntry, load = loadSession) => {
    const found = load(home, entry)
    addDamage(found.damage)
    return found
  }
  const sessionIn = (entry: SessionEntry, load: typeof loadSession): Session => {
    const { value: session, damage } = loaded(entry, load)
    if (session !== null) return session
    const { wrong, done } = damage ?? { wrong: '', done: '' }
    throw new LogbookError(
      'damaged',
      `The session ${relative(home, entry.path)} cannot be read. ${wrong} ${done}`,
    )
  }
  const view = (entry: SessionEntry, session: Session): SessionView => ({
    entry,
    session,
    recordedBy: lockOwner(lockPathOf(entry.path), machine),
  })
  /** Every session, newest first, from the index, which is updated first.
   * @param settings that the figures depend on, by default as they are read now */
  const index = (settings = readSettings(home).settings): IndexEntry[] =>
    updateIndex({ home, settings, onDamage: addDamage, onMany }).entries

  return {
    /** Absolute. */
    directory: home,
    /** Damage that this logbook has met so far, each once. */
    damages: damages as readonly Damage[],
    /** Creates a session under a new id and locks it. Its `state` tells whether the start could be saved.
     * @param more events that follow the start at once, such as a whole session kept on paper
     * @throws LogbookError `cannot_write` if the input is not a session */
    create(
      prescription: Prescription,
      start: EventOf<'sessionStarted'>,
      more: readonly SessionEvent[] = [],
    ): SessionFile {
      const fresh = freshSession(prescription, [start, ...more])
      const { id } = fresh
      const entry = { id, date: start.date, path: sessionPathOf(home, start.date, id) }
      const place = () => {
        makeFolder(dirname(entry.path))
        return lockFor(entry, machine)
      }
      return sessionFileOf(entry, { fresh, place })
    },
    /** Stores new finished sessions, all of them or none, wherever it is interrupted; returns their ids.
     * @throws LogbookError `cannot_write` */
    createAll(days: readonly NewSession[]): string[] {
      const stored = days.map(({ prescription, start, events }) => {
        const session = freshSession(prescription, [start, ...events])
        return { session, path: sessionPathOf(home, start.date, session.id) }
      })
      storeTogether(home, stored)
      return stored.map(({ session }) => session.id)
    },
    /** Opens a session to record in it.
     * @throws LogbookError `no_such_session`, `ambiguous_session`, `locked`, `damaged`, `cannot_write` */
    open(which: string): SessionFile {
      const entry = entryOf(which)
      const message = (reason: string) =>
        `The session cannot be locked: ${reason}. Make room or change the permissions of ${dirname(entry.path)}.`
      const lock = orRefuse('cannot_write', message, () => lockFor(entry, machine))
      try {
        return sessionFileOf(entry, { known: sessionIn(entry, repairSession), lock })
      } catch (error) {
        lock.release()
        throw error
      }
    },
    /** @param which `newest`, an id, the beginning of exactly one id, or a session that was listed
     * @throws LogbookError `no_such_session`, `ambiguous_session`, `damaged` */
    read(which: string | SessionEntry): SessionView {
      const entry = typeof which === 'string' ? entryOf(which) : which
      return view(entry, sessionIn(entry, loadSession))
    },
    /** A session that was listed; null if it cannot be read, which is then one of the damages. */
    sessionOf: (entry: SessionEntry): Session | null => loaded(entry).value,
    /** Newest first. */
    list,
    /** Sessions that are not finished, newest first.
     * @param entries the index, if it has just been read */
    unfinished: (entries: readonly IndexEntry[] = index()): SessionView[] =>
      entries
        .filter((entry) => !entry.finished)
        .flatMap((entry) => {
          const { value: session } = loaded(entry)
          return session === null ? [] : [view(entry, session)]
        }),
    index,
    /** The prescriptions that are ready, by name. */
    prescriptions: () => prescriptionsIn(home, 'prescriptions/', addDamage),
  }
}

/** Refuses to begin a session that could not be read again. */
function freshSession(prescription: Prescription, events: SessionEvent[]): Session {
  const session = { format: sessionFormat, id: newId(), prescription, events } as const
  const reading = readSession(printSession(session), session.id)
  if ('value' in reading) return reading.value
  throw new LogbookError(
    'cannot_write',
    `The session cannot be stored: it ${reading.wrong}. Correct the prescription.`,
  )
}

function lockFor({ id, path }: SessionEntry, machine: Machine): Lock {
  return lockOrRefuse(`The session ${id}`, lockPathOf(path), machine)
}

/* Stores several sessions, all or none. They are written into a temporary folder; renaming that folder marks them as
 * complete; then each file moves to its place. If the run is killed before the rename, the next one removes the folder;
 * if after it, the next one to open the logbook moves the rest. */

const arrived = /^arrived-[\w-]{8}$/

/** @throws LogbookError `cannot_write`; none of them is stored then */
function storeTogether(home: string, sessions: readonly { path: string; session: Session }[]): void {
  const folder = temporaryOf(join(home, 'arrived'))
  try {
    makeFolder(home)
    for (const { path } of sessions) makeFolder(dirname(path))
    mkdirSync(folder, { mode: 0o700 })
    for (const { path, session } of sessions)
      writeFlushed(join(folder, basename(path)), printSession(session))
    flushFolder(folder)
    renameOver(folder, join(home, `arrived-${nanoid(8)}`))
  } catch (error) {
    removeQuietly(folder)
    throw new LogbookError(
      'cannot_write',
      `The sessions cannot be saved in ${home}: ${reasonOf(error)}. Nothing was stored. ${writingAdvice}`,
    )
  }
  const message = (reason: string) =>
    `The sessions are written, but not all are in their places yet: ${reason}. Do not import them again: the next command puts them there.`
  orRefuse('cannot_write', message, () => {
    flushFolder(home)
    putInPlaceAll(home)
  })
}

/** Moves the sessions that a killed run stored together to their places. A failure is returned, not thrown, so that the
 * logbook still opens. */
export function storeArrivals(home: string): Damage | null {
  try {
    putInPlaceAll(home)
    return null
  } catch (error) {
    const wrong = `Imported sessions cannot be put in their places: ${reasonOf(error)}.`
    return { file: 'sessions', wrong, done: 'They are kept beside it, and each command tries again.' }
  }
}

/** Another process may be moving the same files: those that are gone are in their places already. */
function putInPlaceAll(home: string): void {
  // A folder that cannot be listed is reported by whoever reads it.
  for (const name of pathsInFolder(home, '')) {
    // A folder of that name with anything else in it is the user's.
    if (arrived.test(name) && namesIfAny(join(home, name)).every(isSessionName))
      putInPlace(home, join(home, name))
  }
}

function putInPlace(home: string, folder: string): void {
  const places = new Set<string>()
  for (const name of namesIfAny(folder)) {
    const path = sessionPathOf(home, name.slice(0, 10), name.slice(11, -'.json'.length))
    makeFolder(dirname(path))
    places.add(dirname(path))
    unlessCode('ENOENT', () => renameOver(join(folder, name), path))
  }
  for (const place of places) flushFolder(place)
  // Removes the folder only if it is empty: another process may still be moving files out of it.
  if (namesIfAny(folder).length === 0) unlessCode('ENOENT', () => rmdirSync(folder))
}

function namesIfAny(folder: string): string[] {
  const isFolder = lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true
  return (isFolder && unlessCode('ENOENT', () => readdirSync(folder))) || []
}
