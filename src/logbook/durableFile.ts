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
import { type Machine, pause } from './machine.ts'
import { isLogbook, yearFoldersOf } from './sessionName.ts'
import { readTextFile, UnreadableFile } from './text.ts'

/** Writes a text to a file so that after a crash, a full disk or a power cut either the whole old or the
 * whole new text is there, and the new one once this has returned: written beside, flushed, renamed, the
 * folder flushed. The file is private to the user. A link is followed to the file it names.
 * @param keepPrevious keeps the text before it as `.bak`
 * @param beforeRename throws to leave the file as it is
 * @throws the system's error; the file is then what it was, or, when only the folder could not be flushed, new */
export function writeDurably(
  path: string,
  text: string | Uint8Array,
  keepPrevious: boolean,
  beforeRename: () => void = () => {},
): void {
  const target = targetOf(path)
  const temporary = temporaryOf(target)
  try {
    writeFlushed(temporary, text)
    beforeRename()
    if (keepPrevious) keepAsBackup(target)
    renameOver(temporary, target)
    flushFolder(dirname(target))
  } catch (error) {
    removeQuietly(temporary)
    throw error
  }
}

/** Writes a text to a new file, whole or not at all, on the disk when this returns.
 * @returns false where the name is taken; that file is left as it is
 * @throws the system's error */
export function addDurably(path: string, text: string): boolean {
  const temporary = temporaryOf(path)
  try {
    writeFlushed(temporary, text)
    linkBeside(temporary, path)
    flushFolder(dirname(path))
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  } finally {
    removeQuietly(temporary)
  }
}

function writeFlushed(path: string, text: string | Uint8Array): void {
  const descriptor = openSync(path, 'wx', 0o600)
  try {
    // Given a descriptor it goes on until everything is written; write() may stop short on a full disk.
    writeFileSync(descriptor, text)
    fsyncSync(descriptor)
  } finally {
    closeSync(descriptor)
  }
}

/** What Windows answers while another program (a virus scanner, an editor) has the file open for a moment. */
const busyCodes = ['EPERM', 'EACCES', 'EBUSY']

/** Renames over what has the name already. On Windows it tries for a second, since an open file cannot be replaced.
 * @throws the system's error */
export function renameOver(from: string, to: string, platform = process.platform, rename = renameSync): void {
  for (let attempt = 1; ; attempt += 1) {
    try {
      rename(from, to)
      return
    } catch (error) {
      const isBusy = busyCodes.includes((error as NodeJS.ErrnoException).code ?? '')
      if (platform !== 'win32' || !isBusy || attempt === 20) throw error
      pause(50)
    }
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
    renameOver(second, `${target}.bak`)
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
    // The next start removes the leftover; the first error is the one to report.
  }
}

/** Puts a text in the place of a damaged file: whole beside, flushed; the damaged one gets another name,
 * `NAME.damaged-1` or the next number that is free; then the good one takes its place. Wherever it is cut off, either is
 * under the file's name.
 * @returns the damaged file's new name, without its folder; null where there was none
 * @throws the system's error; the file is then what it was */
export function replaceDamaged(path: string, text: string | Uint8Array): string | null {
  const target = targetOf(path)
  const temporary = temporaryOf(target)
  try {
    writeFlushed(temporary, text)
    const aside = linkAside(target)
    renameOver(temporary, target)
    flushFolder(dirname(target))
    return aside
  } catch (error) {
    removeQuietly(temporary)
    throw error
  }
}

/** Gives a damaged file a second name beside, or the next number that is free. Nothing is ever written over by this. */
function linkAside(path: string): string | null {
  for (let number = 1; ; number += 1) {
    const aside = `${path}.damaged-${number}`
    try {
      linkBeside(path, aside)
      // The second name must be on the disk before the first one goes.
      flushFolder(dirname(path))
      return basename(aside)
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code === 'ENOENT') return null
      if (code !== 'EEXIST') throw error
    }
  }
}

/** Takes a damaged file out of the way, under another name.
 * @returns the new name, without its folder */
export function quarantine(path: string): string {
  const aside = linkAside(path)
  rmSync(path)
  flushFolder(dirname(path))
  return aside ?? basename(path)
}

const gone = 'gone'

/** Null without a file, undefined where it is not text. */
function textOrNothing(path: string): string | null | undefined {
  try {
    return readTextFile(path)
  } catch (error) {
    if (error instanceof UnreadableFile) return undefined
    throw error
  }
}

/** The file is not the one that was last read or written: something else has written it since. */
export class ChangedElsewhere extends Error {
  override name = 'ChangedElsewhere'
}

/** lowdb's synchronous adapter over a durable write. A file that cannot be read is never written over:
 * `write` refuses until a `read` went well, except where there is no file; and it compares before it renames, so that
 * what another program wrote meanwhile is not written over either.
 * @typeParam T what the file holds */
export class DurableFile<T> implements SyncAdapter<T> {
  readonly path: string
  readonly #parse: (text: string) => T
  readonly #print: (data: T) => string
  /** As it was last read or written; null where there was no file, undefined before that is known. */
  #known: { text: string; state: string } | null | undefined
  #tried: string | undefined

  /** @param parse throws where the text is not what it should be */
  constructor(path: string, parse: (text: string) => T, print: (data: T) => string) {
    this.path = path
    this.#parse = parse
    this.#print = print
  }

  /** Null where there is no file. Throws what `parse` throws, and the system's errors. */
  read(): T | null {
    const state = this.#stateNow()
    const text = readTextFile(this.path)
    const data = text === null ? null : this.#parse(text)
    this.#known = text === null ? null : { text, state }
    return data
  }

  write(data: T): void {
    if (this.#known === undefined) this.read()
    const text = this.#print(data)
    // A write that failed at the last step may have renamed: that is this program's own text.
    const own = [text, this.#tried, this.#known?.text]
    this.#tried = text
    writeDurably(this.path, text, true, () => {
      if (this.#stateNow() === (this.#known?.state ?? gone)) return
      const there = textOrNothing(this.path)
      if (there !== null && !own.includes(there))
        throw new ChangedElsewhere(`${this.path} was changed elsewhere`)
    })
    this.#known = { text, state: this.#stateNow() }
  }

  /** Size, time and number of the file, as a text. */
  #stateNow(): string {
    const status = statSync(this.path, { throwIfNoEntry: false })
    return status === undefined ? gone : `${status.size} ${status.mtimeMs} ${status.ino}`
  }
}

const hour = 60 * 60 * 1000

/** Names an unfinished file beside the one it will replace. The name tells which process owns it. */
export function temporaryOf(path: string): string {
  return `${path}.${process.pid}.${nanoid(8)}.tmp`
}

function isOld(path: string, machine: Machine): boolean {
  const changed = statSync(path, { throwIfNoEntry: false })?.mtimeMs
  return changed !== undefined && machine.now().getTime() - changed > hour
}

/** The files that this program writes in a logbook. Leftovers of other files are not removed. */
const ownName =
  /^(?:\d{4}-\d{2}-\d{2}-[\w-]{6,40}\.json|\d{4}\.json|settings\.json|index\.ndjson|digest\.ndjson|sync|arriving)[\w.-]*$/
const ownTemporary = /\.(\d+)\.[\w-]{8}\.tmp$/
const lockRight = /\.lock\.[\w-]+\.\d+$/

/** Removes the temporary files in a folder that a killed process has left, its folder of arriving sessions, and what is
 * left of taking over a dead lock. One of a process that runs is left alone for an hour: its number may have gone to
 * another process since. */
export function sweepTemporaries(folder: string, machine: Machine): void {
  for (const name of readdirSync(folder)) {
    if (!ownName.test(name) || name.endsWith('.json')) continue
    const pid = ownTemporary.exec(name)?.[1]
    if (pid === undefined && !lockRight.test(name)) continue
    const path = join(folder, name)
    const isOrphan = pid !== undefined && !machine.isRunning(Number(pid))
    if (!isOrphan && !isOld(path, machine)) continue
    const isOwnFolder =
      name.startsWith('arriving.') && statSync(path, { throwIfNoEntry: false })?.isDirectory()
    if (!isOwnFolder) rmSync(path, { force: true })
    else if (readdirSync(path).every((each) => ownName.test(each)))
      rmSync(path, { recursive: true, force: true })
  }
}

/** Sweeps the folder of a logbook and those of its years, the newest first.
 * @param years how many of them: killed programs leave their files in the years they recorded in */
export function sweepLogbook(home: string, machine: Machine, years = Number.POSITIVE_INFINITY): void {
  if (!isLogbook(home)) return
  const newest = yearFoldersOf(home).sort().reverse().slice(0, years)
  for (const folder of [home, ...newest]) {
    try {
      sweepTemporaries(folder, machine)
    } catch {
      // A folder that cannot be listed is named by whoever needs it.
    }
  }
}

/** Errors of file systems without hard links: exFAT, some network folders. */
const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']

/** Makes a hard link to a file, or where the file system has none, a flushed copy.
 * @throws the system's error: EEXIST where the name is taken, ENOENT where there is no file */
export function linkBeside(path: string, second: string): void {
  try {
    linkSync(path, second)
  } catch (error) {
    if (!noLinks.includes((error as NodeJS.ErrnoException).code ?? '')) throw error
    copyFileSync(path, second, constants.COPYFILE_EXCL)
    const descriptor = openSync(second, 'r+')
    try {
      fsyncSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
  }
}
