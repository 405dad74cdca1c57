import { lstatSync } from 'node:fs'
import { basename, relative } from 'node:path'
import type { Session } from '../session/model.ts'
import { backupOf, replaceDamaged } from './durableFile.ts'
import type { Damage, SessionEntry } from './model.ts'
import { printSession, readSession, type SessionReading } from './sessionFile.ts'
import { readTextFile, UnreadableFile } from './text.ts'

export interface Loaded {
  /** Null if neither the file nor its earlier copy can be read. */
  session: Session | null
  /** Null if the file is sound. */
  damage: Damage | null
  /** Whether the file has a checksum. */
  isSealed: boolean
}

/** Reads a session without changing anything. If its file is ruined or gone, it reads the previous copy instead. */
export function loadSession(logbook: string, entry: SessionEntry): Loaded {
  const reading = readSessionAt(entry.path, entry.id)
  if (reading.outcome === 'session') return { ...reading, damage: null }
  const earlier = reading.isRuined ? earlierOf(entry) : null
  const done =
    earlier === null
      ? leftAlone(reading)
      : `It was left alone; ${namedCopy(entry, earlier)} is shown instead. "pausebook verify --repair" puts it in its place.`
  return { session: earlier, damage: damageOf(logbook, entry, reading.wrong, done), isSealed: false }
}

/** Reads a session and repairs what it can: the previous copy replaces a ruined file, and the ruined file is
 * kept under another name. The caller must hold the session's lock. */
export function repairSession(logbook: string, entry: SessionEntry): Loaded {
  const reading = readSessionAt(entry.path, entry.id)
  if (reading.outcome === 'session') return { ...reading, damage: null }
  const earlier = reading.isRuined ? earlierOf(entry) : null
  if (earlier === null)
    return {
      session: null,
      damage: damageOf(logbook, entry, reading.wrong, leftAlone(reading)),
      isSealed: false,
    }
  let done: string
  try {
    const aside = replaceDamaged(entry.path, printSession(earlier))
    const kept = aside === null ? '' : `It was set aside as ${aside}; `
    done = `${kept}${namedCopy(entry, earlier)} is in its place.`
  } catch (error) {
    done = `It could not be set aside (${(error as NodeJS.ErrnoException).code ?? 'unknown error'}) and was left alone.`
  }
  return { session: earlier, damage: damageOf(logbook, entry, reading.wrong, done), isSealed: false }
}

function damageOf(logbook: string, entry: SessionEntry, wrong: string, done: string): Damage {
  return { file: relative(logbook, entry.path), wrong: `The file ${wrong}.`, done }
}

function leftAlone({ isRuined }: { isRuined: boolean }): string {
  return isRuined ? 'It was left alone; there is no copy before it.' : 'It was left alone.'
}

function readSessionAt(path: string, id: string): SessionReading {
  try {
    const text = readTextFile(path)
    if (text === null) return { outcome: 'wrong', wrong: 'is gone', isRuined: true }
    return readSession(text, id)
  } catch (error) {
    if (error instanceof UnreadableFile)
      return { outcome: 'wrong', wrong: error.message, isRuined: error.isRuined }
    throw error
  }
}

function earlierOf(entry: SessionEntry): Session | null {
  const reading = readSessionAt(backupOf(entry.path), entry.id)
  return reading.outcome === 'session' ? reading.session : null
}

function namedCopy(entry: SessionEntry, earlier: Session): string {
  const events = earlier.events.length
  return `the copy before it (${basename(entry.path)}.bak, ${events} event${events === 1 ? '' : 's'})`
}

/** Sorts the sessions of the newest date by their start, which only their files tell. */
export function newestFirst(home: string, entries: SessionEntry[]): SessionEntry[] {
  const [first, second] = entries
  if (first === undefined || second === undefined || first.date !== second.date) return entries
  const sameDay = entries.filter((entry) => entry.date === first.date)
  const started = new Map(sameDay.map((entry) => [entry, startedAt(home, entry)]))
  sameDay.sort((a, b) => (started.get(b) ?? 0) - (started.get(a) ?? 0))
  return [...sameDay, ...entries.slice(sameDay.length)]
}

function startedAt(home: string, entry: SessionEntry): number {
  const at = loadSession(home, entry).session?.events[0]?.at
  return typeof at === 'string'
    ? Date.parse(at)
    : (lstatSync(entry.path, { throwIfNoEntry: false })?.mtimeMs ?? 0)
}
