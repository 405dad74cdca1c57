import { lstatSync, readdirSync, rmSync } from 'node:fs'
import { basename, dirname, join, relative } from 'node:path'
import type { Session } from '../session/model.ts'
import { sanitize } from '../validate/unsafe.ts'
import { backupOf, flushFolder, linkBeside, writeDurably } from './durableFile.ts'
import type { Damage, SessionEntry } from './model.ts'
import { printSession, readSession, type SessionReading } from './sessionFile.ts'
import { yearFoldersOf } from './sessionName.ts'
import { readTextFile, UnreadableFile } from './text.ts'

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
    if (earlier === null) done = `It was set aside as ${quarantine(entry.path)}; there is no copy before it.`
    else {
      // Replaced in one step: a crash after a removal would leave no session of that name.
      const aside = linkAside(entry.path)
      writeDurably(entry.path, printSession(earlier), false)
      done = `It was set aside as ${aside}; ${asItStood(entry, earlier)} is in its place.`
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

/** Puts those of the newest date in order: which of the newest date was started last can only be read from the files. */
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

/** Gives a damaged file another name beside, `NAME.damaged-1` or the next number that is free, and takes it
 * out of the way. Nothing is ever written over by this.
 * @returns the new name, without its folder */
export function quarantine(path: string): string {
  const aside = linkAside(path)
  rmSync(path)
  flushFolder(dirname(path))
  return aside
}

/** The second name is flushed before the first may go. */
function linkAside(path: string): string {
  for (let number = 1; ; number += 1) {
    const aside = `${path}.damaged-${number}`
    try {
      linkBeside(path, aside)
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') continue
      throw error
    }
    flushFolder(dirname(path))
    return basename(aside)
  }
}

/** What was set aside by an earlier repair may hold what the copy in its place does not: it is damage until
 * the athlete has looked at it and removed it. */
export function quarantinedFiles(home: string): Damage[] {
  return [home, ...yearFoldersOf(home)].flatMap((folder) =>
    filesIn(folder)
      .filter((name) => /\.json\.damaged-\d+$/.test(name))
      .map((name) => ({
        file: sanitize(relative(home, join(folder, name))),
        wrong: 'The file was damaged and set aside before.',
        done: 'It was left alone; take from it what can be saved, then remove it.',
      })),
  )
}

/** Nothing for a folder that is not there, or cannot be listed, which is named as such. */
function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder).sort()
  } catch {
    return []
  }
}
