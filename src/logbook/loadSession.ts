import { basename, relative } from 'node:path'
import type { Session } from '../session/model.ts'
import { backupOf, writeDurably } from './durableWrite.ts'
import type { Damage, SessionEntry } from './model.ts'
import { printSession } from './printSession.ts'
import { readSession, type SessionReading } from './readSession.ts'
import { quarantine } from './quarantine.ts'
import { readTextFile, UnreadableFile } from './textFile.ts'

export interface Loaded {
  /** Null where neither the file nor its earlier copy can be read. */
  session: Session | null
  /** Null where nothing was wrong. */
  damage: Damage | null
}

/** Reads a session without touching anything. Where its file is no session any more, the copy before it
 * is read instead. */
export function loadSession(logbook: string, entry: SessionEntry): Loaded {
  const reading = readSessionAt(entry.path, entry.id)
  if (reading.outcome === 'session') return { session: reading.session, damage: null }
  const file = relative(logbook, entry.path)
  const earlier = reading.isNoText ? earlierOf(entry) : null
  const done =
    earlier === null
      ? 'It was left alone.'
      : `It was left alone; ${asItStood(entry, earlier)} is shown instead.`
  return { session: earlier, damage: { file, wrong: `The file ${reading.wrong}.`, done } }
}

/** Reads a session and mends what can be mended: a file that is no session any more is set aside beside
 * under another name, and the copy before it put in its place. Its lock must be held. */
export function repairSession(logbook: string, entry: SessionEntry): Loaded {
  const reading = readSessionAt(entry.path, entry.id)
  if (reading.outcome === 'session') return { session: reading.session, damage: null }
  const file = relative(logbook, entry.path)
  const wrong = `The file ${reading.wrong}.`
  if (!reading.isNoText) return { session: null, damage: { file, wrong, done: 'It was left alone.' } }
  const earlier = earlierOf(entry)
  let done: string
  try {
    done = `It was set aside as ${quarantine(entry.path)}; `
    if (earlier === null) done += 'there is no copy before it.'
    else {
      writeDurably(entry.path, printSession(earlier), false)
      done += `${asItStood(entry, earlier)} is in its place.`
    }
  } catch (error) {
    done = `It could not be set aside (${(error as NodeJS.ErrnoException).code ?? 'unknown error'}) and was left alone.`
  }
  return { session: earlier, damage: { file, wrong, done } }
}

function readSessionAt(path: string, id: string): SessionReading {
  try {
    const text = readTextFile(path)
    if (text === null) return { outcome: 'wrong', wrong: 'is gone', isNoText: false }
    return readSession(text, id)
  } catch (error) {
    if (error instanceof UnreadableFile)
      return { outcome: 'wrong', wrong: error.message, isNoText: error.isNoText }
    throw error
  }
}

function earlierOf(entry: SessionEntry): Session | null {
  const reading = readSessionAt(backupOf(entry.path), entry.id)
  return reading.outcome === 'session' ? reading.session : null
}

function asItStood(entry: SessionEntry, earlier: Session): string {
  const events = earlier.events.length
  return `the copy before it (${basename(entry.path)}.bak, ${events} event${events === 1 ? '' : 's'})`
}
