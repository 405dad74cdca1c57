import { lstatSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, dirname, join, relative } from 'node:path'
import { max, sort } from 'd3-array'
import { LowSync } from 'lowdb'
import { stepsIn } from '../prescription/expandRun.ts'
import type { Prescription } from '../prescription/model.ts'
import type { Saved, Session, SessionEvent } from '../session/model.ts'
import { sessionFormat } from '../session/replay.ts'
import { counted } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import {
  addDurably,
  backupOf,
  ChangedElsewhere,
  durableFile,
  flushFolder,
  freePath,
  removeFile,
  writeDurably,
} from './durableFile.ts'
import { attempt, ifKnown, reasonOf } from './errors.ts'
import { eventShape, sessionShape } from './generated/shapes.js'
import type { Lock } from './lock.ts'
import { versionId } from './logbookFiles.ts'
import type { SessionEntry } from './model.ts'
import {
  type ExchangedKind,
  fitting,
  type Loaded,
  loadStored,
  printEvents,
  type Reading,
  readStored,
  repairStored,
} from './storedFile.ts'
import { tooLargeIn } from './text.ts'

export type SessionFile = ReturnType<typeof sessionFileOf>

/** A session that this process records: it holds the session's lock until `close`. Every event writes the whole file:
 * at its size that takes less than a millisecond and needs no journal.
 * @param start the session as it was read from its file, whose lock this process has; or a new one, which is written at
 * once: `place` makes its folder and takes its lock, again at each save until it can */
export function sessionFileOf(
  entry: SessionEntry,
  start: { known: Session; lock: Lock } | { fresh: Session; place: () => Lock },
) {
  const parse = (text: string) => {
    const reading = readSession(text, entry.id)
    if ('value' in reading) return reading.value
    throw new Error(`the file ${reading.wrong}`)
  }
  const file = durableFile<Session>(entry.path, parse, printSession)
  const isFresh = 'fresh' in start
  let lock = isFresh ? null : start.lock
  const low = new LowSync<Session>(file, isFresh ? start.fresh : start.known)
  // A save replaces only what was read before: a file that another program changes later is left as it is. If it cannot
  // be read now, the session in memory counts, and the next write reports the file.
  if (!isFresh) attempt(() => low.read())
  let state: Saved = { ok: true }
  let isClosed = false
  let savedEvents = isFresh ? 0 : low.data.events.length
  let version: string | null = null

  /** Keeps the results as another version of the session if another program has written the session's file since. */
  const keepAsVersion = (): Saved => {
    const changed = 'another program changed its file'
    try {
      version ??= asVersion(low.data).id
      const path = join(dirname(entry.path), `${entry.date}-${version}.json`)
      writeDurably(path, printSession({ ...low.data, id: version }))
      const reason = `${changed}. Your results are kept as the session ${version}; "pausebook sync --keep ID" keeps one of the two`
      return { ok: false, reason, isKept: true }
    } catch (error) {
      return { ok: false, reason: `${changed}, and your results cannot be kept: ${reasonOf(error)}` }
    }
  }

  const save = (): Saved => {
    try {
      if (isFresh) lock ??= start.place()
      low.write()
      state = { ok: true }
      savedEvents = low.data.events.length
    } catch (error) {
      state = error instanceof ChangedElsewhere ? keepAsVersion() : { ok: false, reason: reasonOf(error) }
    }
    return state
  }
  if (isFresh) save()

  const release = () => {
    isClosed = true
    lock?.release()
  }

  return {
    id: entry.id,
    path: entry.path,
    /** The session so far, including events that are not saved yet. */
    get session() {
      return low.data
    },
    /** Result of the last write. */
    get state() {
      return state
    },
    /** Events that are only in memory. */
    get unsaved(): readonly SessionEvent[] {
      return state.ok ? [] : low.data.events.slice(savedEvents)
    },
    /** Appends events and writes the whole file durably before it returns. Events that cannot be saved are kept for the
     * next append or retry.
     * @throws TypeError for an invalid event; nothing is added then */
    append(events: readonly SessionEvent[]): Saved {
      if (isClosed) throw new TypeError(`the session ${entry.id} is closed and takes no more events`)
      const added = events.map(eventOf)
      low.data = { ...low.data, events: [...low.data.events, ...added] }
      return save()
    },
    /** Tries again to write what could not be written. */
    retry: (): Saved => (isClosed || state.ok ? state : save()),
    /** Tries once more to save unsaved events, and releases the lock. */
    close(): Saved {
      if (isClosed) return state
      if (!state.ok) save()
      release()
      return state
    },
    /** Removes the session and its previous copy from the logbook and releases the lock. */
    discard(): void {
      if (lock !== null && !isClosed) {
        // Remove the copy first: alone it would count as the session.
        removeFile(backupOf(entry.path))
        removeFile(entry.path)
        flushFolder(dirname(entry.path))
      }
      release()
    },
  }
}

/** Writes a session that cannot be saved in its place to a new file, private to the user, in the temporary folder.
 * @returns its path; null if that fails too */
export function spillSession(session: Session, place: string, folder = tmpdir()): string | null {
  const name = basename(place, '.json')
  return ifKnown(() => {
    const path = freePath((number) => join(folder, `pausebook-${name}-${number}.json`))
    return addDurably(path, printSession(session)) ? path : null
  })
}

function eventOf(event: SessionEvent): SessionEvent {
  const fitted = fitting<SessionEvent>(eventShape(), structuredClone(event))
  const large = tooLargeIn(event)
  if (typeof fitted !== 'string' && large === null) return fitted
  const why = typeof fitted === 'string' ? fitted : `it has the number ${large}`
  throw new TypeError(`${event.type} cannot be recorded as it is: ${why}`)
}

/** The file of a session. Reading makes its strings printable.
 * @param id the id in the file's name; null accepts any */
export function sessionKind(id: string | null): ExchangedKind<Session> {
  return {
    what: 'a session',
    format: sessionFormat,
    read: (content) => {
      const session = sessionIn(content)
      if (typeof session === 'string') return { wrong: session }
      if (id === null || session.id === id) return { value: session }
      return { wrong: `holds the session ${session.id}, which is not the one it is named for` }
    },
    print: printSession,
    union: (one, other) => (continues(one, other) ? one : continues(other, one) ? other : null),
    sizeOf: ({ events }) => counted(events.length, 'event'),
    absent: null,
  }
}

/** Parses the text of a session's file, or says what is wrong with it.
 * @param id as in `sessionKind` */
export function readSession(text: string, id: string | null): Reading<Session> {
  return readStored(text, sessionKind(id))
}

function sessionIn(content: Record<string, unknown>): Session | string {
  try {
    const large = tooLargeIn(content)
    if (large !== null) return `has a number too large for any day: ${large}`
    const session = fitting<Session>(sessionShape(), content)
    if (typeof session === 'string') return session
    return sizeProblemOf(session.prescription) ?? orderProblemOf(session.events) ?? session
  } catch (error) {
    // Groups nested so deeply that checking them overflows the stack.
    if (error instanceof RangeError) return 'is nested too deeply'
    throw error
  }
}

/** Ten times the limit for a written day, because a file could otherwise expand to any number of steps. */
const mostSteps = 200_000

function sizeProblemOf(prescription: Prescription): string | null {
  const lap = prescription.lap === null ? 400 : metersOf(prescription.lap)
  const steps = prescription.parts.reduce((sum, part) => sum + stepsIn(part, lap), 0)
  return steps <= mostSteps
    ? null
    : `prescribes ${steps} steps, more than the ${mostSteps} that a day can have`
}

function orderProblemOf(events: readonly SessionEvent[]): string | null {
  if (events.length === 0) return 'has no events'
  if (events[0]?.type !== 'sessionStarted') return 'does not begin with its start'
  const again = events.findIndex((event, index) => index > 0 && event.type === 'sessionStarted')
  if (again > 0) return `starts twice: event number ${again + 1}`
  const ahead = events.findIndex(
    (event, index) => event.type === 'undone' && (event.from >= index || event.from === 0),
  )
  if (ahead > 0) return `undoes what cannot be undone: event number ${ahead + 1}`
  return null
}

/** A session as its file holds it. */
export const printSession: (session: Session) => string = printEvents

/** Whether one version of a session is the other plus later events. */
function continues(longer: Session, shorter: Session): boolean {
  const events = longer.events.slice(0, shorter.events.length)
  return (
    JSON.stringify(longer.prescription) === JSON.stringify(shorter.prescription) &&
    JSON.stringify(events) === JSON.stringify(shorter.events)
  )
}

/** A session under the id of another version, to be stored next to the one that has its id. */
export function asVersion(session: Session): Session {
  return { ...session, id: versionId(session.id, printSession(session)) }
}

/** Reads a session without changing anything. If its file is ruined or gone, it reads the previous copy instead. */
export function loadSession(home: string, { path, id }: SessionEntry): Loaded<Session> {
  return loadStored(home, relative(home, path), sessionKind(id))
}

/** Reads a session and repairs what it can. The caller must hold the session's lock. */
export function repairSession(home: string, { path, id }: SessionEntry): Loaded<Session> {
  return repairStored(home, relative(home, path), sessionKind(id))
}

/** Sorts the sessions of the newest date by their start, and versions of one session by their last event, which only
 * their files tell. */
export function newestFirst<Entry extends SessionEntry>(home: string, entries: Entry[]): Entry[] {
  const sameDay = entries.filter((entry) => entry.date === entries[0]?.date)
  if (sameDay.length < 2) return entries
  const read = sameDay.map((entry) => {
    const times = timesIn(loadSession(home, entry).value?.events ?? [])
    const changed = ifKnown(() => lstatSync(entry.path).mtimeMs) ?? 0
    return { entry, begun: times[0] ?? changed, last: max(times) ?? 0, changed }
  })
  // If two versions have the same events, the one with the plain id counts.
  const newest = sort(
    read,
    ({ begun }) => -begun,
    ({ last }) => -last,
    ({ entry }) => entry.id.length,
    ({ changed }) => -changed,
  )
  return [...newest.map(({ entry }) => entry), ...entries.slice(sameDay.length)]
}

/** The known times of events, in milliseconds. The first one orders the sessions of a day: the start, on paper else the
 * first result with a time, else when it was typed in. */
export function timesIn(events: Session['events']): number[] {
  return events.flatMap(({ at }) => (at === null ? [] : Date.parse(at)))
}
