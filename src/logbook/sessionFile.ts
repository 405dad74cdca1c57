import { rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { LowSync } from 'lowdb'
import type { Session, SessionEvent } from '../session/model.ts'
import { faultsIn } from '../shapes/faults.ts'
import { DurableFile } from './durableFile.ts'
import { backupOf, flushFolder } from './durableWrite.ts'
import { faultText } from './faultText.ts'
import { eventShape } from './generated/shapes.js'
import type { Lock } from './lock.ts'
import type { Saved, SessionEntry, SessionFile } from './model.ts'
import { printableValueOf, tooLargeIn } from './printable.ts'
import { printSession } from './printSession.ts'
import { readSession } from './readSession.ts'
import { reasonOf } from './reasons.ts'

/** A session that is being recorded. The whole file is written at every event: at its size that costs less
 * than a millisecond and needs no journal.
 * @param known the session as it was read from its file; null for a new one, which is written at once
 * @param whenClosed called once it is closed and all of it saved */
export function recordingOf(
  entry: SessionEntry,
  start: { known: Session } | { fresh: Session },
  lock: Lock,
  whenClosed: () => void,
): SessionFile {
  const file = new DurableFile<Session>(entry.path, (text) => parsedSession(text, entry.id), printSession)
  const isFresh = 'fresh' in start
  const low = new LowSync<Session>(file, isFresh ? start.fresh : start.known)
  let state: Saved = { saved: true }
  let isClosed = false

  const save = (): Saved => {
    try {
      low.write()
      state = { saved: true }
    } catch (error) {
      state = { saved: false, reason: reasonOf(error) }
    }
    return state
  }
  if (isFresh) save()

  const letGo = () => {
    isClosed = true
    lock.release()
  }

  return {
    id: entry.id,
    path: entry.path,
    get session() {
      return low.data
    },
    get state() {
      return state
    },
    append(events) {
      if (isClosed) throw new TypeError(`the session ${entry.id} is closed and takes no more events`)
      const added = events.map(eventOf)
      low.data = { ...low.data, events: [...low.data.events, ...added] }
      return save()
    },
    retry: () => (isClosed || state.saved ? state : save()),
    close() {
      if (isClosed) return state
      if (!state.saved) save()
      try {
        if (state.saved) whenClosed()
      } finally {
        letGo()
      }
      return state
    },
    discard() {
      if (isClosed) return
      rmSync(entry.path, { force: true })
      rmSync(backupOf(entry.path), { force: true })
      flushFolder(dirname(entry.path))
      letGo()
    },
  }
}

function eventOf(event: SessionEvent): SessionEvent {
  const own = printableValueOf(structuredClone(event)) as SessionEvent
  const [fault] = faultsIn(eventShape(), own, 1)
  const large = tooLargeIn(own)
  if (fault === undefined && large === null) return own
  const why = fault === undefined ? `it has the number ${large}` : faultText(fault, own)
  throw new TypeError(`${event.type} cannot be recorded as it is: ${why}`)
}

function parsedSession(text: string, id: string): Session {
  const reading = readSession(text, id)
  if (reading.outcome === 'session') return reading.session
  throw new Error(`the file ${reading.wrong}`)
}
