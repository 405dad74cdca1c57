import { lstatSync, mkdirSync, readdirSync, rmdirSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { nanoid } from 'nanoid'
import type { Session } from '../session/model.ts'
import { flushFolder, makeFolder, renameOver, temporaryOf, writeDurably } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import type { Damage, SessionEntry } from './model.ts'
import { printSession } from './sessionFile.ts'
import { isSessionName, sessionPathOf } from './sessionName.ts'

/* Sessions that are stored together, all or none. They are written into a folder of their own; its new name says that
 * all of them are there; then each takes its place. A run that is killed before that leaves a folder that is swept,
 * and one that is killed after it leaves a folder that whoever opens the logbook next puts in place. */

const arrived = /^arrived-[\w-]{8}$/

/** @param onProgress told how many of how many are written
 * @throws LogbookError `cannot_write`: none of them is stored then */
export function storeTogether(
  home: string,
  sessions: readonly { entry: SessionEntry; session: Session }[],
  onProgress: (done: number, of: number) => void,
): void {
  const folder = temporaryOf(join(home, 'arriving'))
  try {
    makeFolder(home)
    for (const { entry } of sessions) placeFor(entry.path)
    mkdirSync(folder, { mode: 0o700 })
    sessions.forEach(({ entry, session }, index) => {
      onProgress(index, sessions.length)
      writeDurably(join(folder, basename(entry.path)), printSession(session), false)
    })
    renameOver(folder, join(home, `arrived-${nanoid(8)}`))
  } catch (error) {
    rmSync(folder, { recursive: true, force: true })
    throw new LogbookError(
      'cannot_write',
      `The sessions cannot be saved: ${reasonOf(error)}. Nothing was stored.`,
    )
  }
  try {
    flushFolder(home)
    putInPlaceAll(home)
  } catch (error) {
    throw new LogbookError(
      'cannot_write',
      `The sessions are written, but not all are in their places yet: ${reasonOf(error)}. Do not import them again: the next command puts them there.`,
    )
  }
}

/** Puts in place what a run that was killed has left whole. Nobody is kept from the logbook where that cannot be. */
export function storeArrivals(home: string): Damage | null {
  try {
    putInPlaceAll(home)
    return null
  } catch (error) {
    const wrong = `Sessions that were imported cannot be put in their places: ${reasonOf(error)}.`
    return { file: 'sessions', wrong, done: 'They are kept beside it, and it is tried again each time.' }
  }
}

/** Another process may be about the same. */
function putInPlaceAll(home: string): void {
  for (const name of namesIn(home)) {
    // A folder of that name that holds anything else is somebody's own.
    if (arrived.test(name) && namesIn(join(home, name)).every(isSessionName))
      putInPlace(home, join(home, name))
  }
}

function putInPlace(home: string, folder: string): void {
  const places = new Set<string>()
  for (const name of namesIn(folder)) {
    const path = sessionPathOf(home, name.slice(0, 10), name.slice(11, -'.json'.length))
    placeFor(path)
    places.add(dirname(path))
    unlessGone(() => renameOver(join(folder, name), path))
  }
  for (const place of places) flushFolder(place)
  // Without its files only: what a process that is about the same has not moved yet stays.
  if (namesIn(folder).length === 0) unlessGone(() => rmdirSync(folder))
}

function placeFor(path: string): void {
  makeFolder(dirname(path))
  if (!statSync(dirname(path)).isDirectory())
    throw new Error(`${dirname(path)} is a file where a folder of sessions should be`)
}

function namesIn(folder: string): string[] {
  return lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() ? readdirSync(folder) : []
}

function unlessGone(work: () => void): void {
  try {
    work()
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
  }
}
