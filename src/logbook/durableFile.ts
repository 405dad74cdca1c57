import {
  closeSync,
  constants,
  copyFileSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import type { SyncAdapter } from 'lowdb'
import { nanoid } from 'nanoid'
import { attempt, codeOf } from './errors.ts'
import { foldersIn } from './logbookFiles.ts'
import { type Machine, pause } from './machine.ts'
import { readTextFile } from './text.ts'

/** Writes a text to a file so that after a crash, a full disk or a power cut the file holds either the whole old text
 * or the whole new one, and the new one once this has returned: it writes a temporary file next to it, flushes,
 * renames, and flushes the folder. The file is private to the user. A link is followed to the file it names.
 * @param beforeRename throws to leave the file as it is
 * @throws the system's error; the file is then unchanged, or new if only flushing the folder failed */
export function writeDurably(
  path: string,
  text: string | Uint8Array,
  beforeRename: () => void = () => {},
): void {
  const target = targetOf(path)
  throughTemporary(target, text, (temporary) => {
    beforeRename()
    renameOver(temporary, target)
  })
}

/** As `writeDurably`, and keeps the previous text as `.bak`. */
export function writeKeepingPrevious(
  path: string,
  text: string | Uint8Array,
  beforeRename: () => void = () => {},
): void {
  writeDurably(path, text, () => {
    beforeRename()
    // A second name for the old file copies nothing: its bytes are on the disk already.
    unlessCode('ENOENT', () => linkOver(targetOf(path), backupOf(path)))
  })
}

/** Writes a text to a new file, whole or not at all, on the disk when this returns.
 * @returns false where the name is taken; that file is left as it is
 * @throws the system's error */
export function addDurably(path: string, text: string): boolean {
  return throughTemporary(path, text, (temporary) => isLinked(temporary, path))
}

/** Writes and flushes a text to a temporary file beside its target, puts it into its place and flushes the folder.
 * @param place gives the temporary file its name */
function throughTemporary<T>(target: string, text: string | Uint8Array, place: (temporary: string) => T): T {
  const temporary = temporaryOf(target)
  try {
    writeFlushed(temporary, text)
    const placed = place(temporary)
    flushFolder(dirname(target))
    return placed
  } finally {
    removeQuietly(temporary)
  }
}

/** What an action returns; null if it fails with this code. @throws its other errors */
export function unlessCode<T>(code: string, work: () => T): T | null {
  try {
    return work()
  } catch (error) {
    if (codeOf(error) === code) return null
    throw error
  }
}

/** Writes a text to a new file and flushes it, but not the folder. @throws the system's error */
export function writeFlushed(path: string, text: string | Uint8Array): void {
  opened(openSync(path, 'wx', 0o600), (descriptor) => {
    // With a descriptor, writeFileSync continues until everything is written; writeSync may stop short on a full disk.
    writeFileSync(descriptor, text)
    fsyncSync(descriptor)
  })
}

/** The errors Windows gives while another program (a virus scanner, an editor) has the file open for a moment. */
const busyCodes = ['EPERM', 'EACCES', 'EBUSY']

/** Renames, replacing the file of that name. On Windows it retries for a second, since an open file cannot be replaced.
 * @throws the system's error */
export function renameOver(from: string, to: string): void {
  onceNotBusy(() => renameSync(from, to))
}

/** Removes a file, if it is there. On Windows it retries for a second, since an open file cannot be removed.
 * @throws the system's error */
export function removeFile(path: string): void {
  onceNotBusy(() => rmSync(path, { force: true }))
}

function onceNotBusy(work: () => void): void {
  for (let attempt = 1; ; attempt += 1) {
    try {
      work()
      return
    } catch (error) {
      const isBusy = busyCodes.includes(codeOf(error))
      if (process.platform !== 'win32' || !isBusy || attempt === 20) throw error
      pause(50)
    }
  }
}

/** The previous text of a file that was written durably. */
export function backupOf(path: string): string {
  return `${targetOf(path)}.bak`
}

/** Makes a folder and those above it, private to the user, so that they survive a power cut.
 * @throws the system's error: EEXIST or ENOTDIR where a file has its name */
export function makeFolder(path: string): void {
  const isFolder = () => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true
  if (isFolder()) return
  const above = dirname(path)
  if (above !== path) makeFolder(above)
  try {
    mkdirSync(path, { mode: 0o700 })
  } catch (error) {
    // Another process may have made it meanwhile.
    if (!isFolder()) throw error
  }
  flushFolder(above)
}

/** Flushes a folder's entries: new names, renames, removals. */
export function flushFolder(path: string): void {
  // Windows cannot open a folder to flush it.
  if (process.platform !== 'win32') opened(openSync(path, 'r'), fsyncSync)
}

/** Runs an action on an open file or folder, and closes it. */
function opened(descriptor: number, work: (descriptor: number) => void): void {
  try {
    work(descriptor)
  } finally {
    closeSync(descriptor)
  }
}

/** Gives a file a second name, even one that is taken. */
export function linkOver(path: string, name: string): void {
  const second = temporaryOf(path)
  try {
    linkBeside(path, second)
    renameOver(second, name)
  } finally {
    // rename() keeps both names if they are already the same file, as after a crash between two renames.
    removeQuietly(second)
  }
}

/** Follows a link to its file or folder, even if that does not exist yet. */
export function targetOf(path: string): string {
  const real = unlessCode('ENOENT', () => realpathSync(path))
  if (real !== null) return real
  const isLink = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true
  return isLink ? targetOf(resolve(dirname(path), readlinkSync(path))) : resolve(path)
}

/** Whether a name is taken, even by a link without a target. */
export function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined
}

/** The first of numbered paths that is free.
 * @param pathOf the path with a number, from 1 */
export function freePath(pathOf: (number: number) => string): string {
  for (let number = 1; ; number += 1) {
    const path = pathOf(number)
    if (!isThere(path)) return path
  }
}

/** Removes a file or a folder and ignores failure: the next start removes leftovers, and an earlier error is the one to
 * report. */
export function removeQuietly(path: string): void {
  attempt(() => rmSync(path, { recursive: true, force: true }))
}

/** Replaces a damaged file: writes and flushes the good text next to it, renames the damaged file to `NAME.damaged-1`
 * (or the next free number), then renames the good text into place. Whenever this is interrupted, one of the two has
 * the file's name.
 * @returns the damaged file's new name, without its folder; null if there was no file
 * @throws the system's error; the file is then unchanged */
export function replaceDamaged(path: string, text: string | Uint8Array): string | null {
  const target = targetOf(path)
  return throughTemporary(target, text, (temporary) => {
    const aside = isThere(target) ? freePath((number) => `${target}.damaged-${number}`) : null
    if (aside !== null) {
      linkBeside(target, aside)
      // The second name must be on the disk before the first one goes.
      flushFolder(dirname(target))
    }
    renameOver(temporary, target)
    return aside && basename(aside)
  })
}

/** Something else has written the file since it was last read or written. */
export class ChangedElsewhere extends Error {
  override name = 'ChangedElsewhere'
}

/** lowdb's synchronous adapter over a durable write. It never overwrites a file that it could not read: `write` refuses
 * until a `read` succeeded, unless there is no file. It compares before it renames, so that it does not overwrite what
 * another program wrote meanwhile either. `read` returns null without a file, and throws what `parse` throws.
 * @param parse throws if the text is invalid */
export function durableFile<T>(
  path: string,
  parse: (text: string) => T,
  print: (data: T) => string,
): SyncAdapter<T> {
  /** As last read or written; null if there was no file, undefined before that is known. */
  let known: string | null | undefined
  let tried: string | null = null
  const read = () => {
    const text = readTextFile(path)
    if (text !== null && typeof text !== 'string') throw new Error(`the file ${text.wrong}`)
    const data = text === null ? null : parse(text)
    known = text
    return data
  }
  const write = (data: T) => {
    if (known === undefined) read()
    const text = print(data)
    // A write that failed at its last step may have renamed already: then the text is this program's own.
    const ours: unknown[] = [text, tried, known, null]
    tried = text
    writeKeepingPrevious(path, text, () => {
      if (!ours.includes(readTextFile(path))) throw new ChangedElsewhere(`${path} was changed elsewhere`)
    })
    known = text
  }
  return { read, write }
}

/** Names the temporary file that will replace another, in the same folder. */
export function temporaryOf(path: string): string {
  return join(dirname(path), `.pausebook.${process.pid}.${nanoid(8)}.tmp`)
}

const leftover =
  /^(?:\.pausebook\.\d+\.[\w-]{8}\.tmp|(?:(?:settings|\d{4}.*)\.json|sync)\.lock(?:\.[\w-]{8,})+)$/

/** Removes what killed processes have left in the folders of a logbook. */
export function sweepLogbook(home: string, machine: Machine): void {
  for (const folder of foldersIn(home)) sweepFolder(join(home, folder), machine)
}

const day = 24 * 60 * 60 * 1000

/** Removes what killed processes have left in a folder: temporary files and folders, and rights to a lock. They stay for
 * a day: another machine or a container may be writing there, whose processes cannot be asked for, and whose clock and
 * time zone may be off by hours. */
export function sweepFolder(folder: string, machine: Machine): void {
  // A folder that cannot be swept is not there yet, or whoever needs it reports that it cannot be listed.
  attempt(() => {
    for (const name of readdirSync(folder).filter((each) => leftover.test(each))) {
      const path = join(folder, name)
      if (isOld(path, machine)) rmSync(path, { recursive: true, force: true })
    }
  })
}

/** Whether a file has not changed for a day; false without one. */
export function isOld(path: string, machine: Machine): boolean {
  const changed = statSync(path, { throwIfNoEntry: false })?.mtimeMs
  return changed !== undefined && machine.now().getTime() - changed > day
}

/** The errors of file systems without hard links: exFAT, some network folders. Windows answers "invalid function",
 * which Node names EISDIR. Where EACCES has another cause, the copy fails with it, too. */
const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EISDIR', 'EACCES']

/** Makes a hard link to a file, or a flushed copy if the file system has no links.
 * @throws the system's error: EEXIST if the name is taken, ENOENT if there is no file */
export function linkBeside(path: string, second: string): void {
  try {
    linkSync(path, second)
  } catch (error) {
    if (!noLinks.includes(codeOf(error))) throw error
    copyFileSync(path, second, constants.COPYFILE_EXCL)
    opened(openSync(second, 'r+'), fsyncSync)
  }
}

/** As `linkBeside`, but returns false where the name is taken, and then changes nothing. @throws the system's other
 * errors */
export function isLinked(path: string, second: string): boolean {
  const isMade = () => {
    linkBeside(path, second)
    return true
  }
  return unlessCode('EEXIST', isMade) ?? false
}
