import {
  closeSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { dirname, resolve } from 'node:path'
import { linkBeside } from './secondName.ts'
import { temporaryOf } from './temporary.ts'

/** Puts a text in a file so that after a crash, a full disk or a power cut either the whole old or the
 * whole new text is there, and the new one once this has returned: written beside, flushed, renamed, the
 * folder flushed. The file is private to the user. A link is followed to the file it names.
 * @param keepPrevious keeps the text before it as `.bak`
 * @throws the system's error; the file is then what it was, or, when only the folder could not be flushed, new */
export function writeDurably(path: string, text: string, keepPrevious: boolean): void {
  const target = targetOf(path)
  const temporary = temporaryOf(target)
  try {
    const descriptor = openSync(temporary, 'wx', 0o600)
    try {
      // Given a descriptor it goes on until everything is written; write() may stop short on a full disk.
      writeFileSync(descriptor, text)
      fsyncSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
    if (keepPrevious) keepAsBackup(target)
    renameSync(temporary, target)
    flushFolder(dirname(target))
  } catch (error) {
    removeQuietly(temporary)
    throw error
  }
}

/** The earlier text of a file that was written durably. */
export function backupOf(path: string): string {
  return `${targetOf(path)}.bak`
}

/** Makes a folder and those above it, private to the user, so that they survive a power cut. */
export function makeFolder(path: string): void {
  if (isThere(path)) return
  const above = dirname(path)
  if (above !== path) makeFolder(above)
  try {
    mkdirSync(path, { mode: 0o700 })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
  flushFolder(above)
}

/** Flushes what a folder lists: new names, renames, removals. */
export function flushFolder(path: string): void {
  // Windows gives no handle to flush a folder by.
  if (process.platform === 'win32') return
  const descriptor = openSync(path, 'r')
  try {
    fsyncSync(descriptor)
  } finally {
    closeSync(descriptor)
  }
}

/** The old file gets a second name, so nothing has to be copied and its bytes are on the disk already. */
function keepAsBackup(target: string): void {
  const second = temporaryOf(target)
  try {
    linkBeside(target, second)
    renameSync(second, `${target}.bak`)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
  } finally {
    // rename() leaves both names where they are one file already, as after a crash between two renames.
    removeQuietly(second)
  }
}

/** The file itself where the path is a link, even to a file that is not there yet. */
function targetOf(path: string): string {
  try {
    return realpathSync(path)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
  }
  const isLink = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true
  return isLink ? targetOf(resolve(dirname(path), readlinkSync(path))) : resolve(path)
}

function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined
}

function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true })
  } catch {
    // What is left is swept at the next start; the first error is the one to tell.
  }
}
