import { closeSync, fsyncSync, openSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { flushFolder, makeFolder, writeDurably } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { readTextFile, UnreadableFile } from './text.ts'

/** The athlete's own texts in a logbook: written only when the athlete says so. */
export type OwnText = 'plan.txt' | 'foods.txt'

const mostBytes = 1024 * 1024

/** Where one of the athlete's texts is, be it there or not. */
export function ownTextPath(logbook: string, name: OwnText): string {
  return join(logbook, name)
}

/** One of the athlete's texts, with the line ends it has; null where there is none.
 * @throws LogbookError `cannot_read` for a folder, a file over 1 MiB, one that is not UTF-8 or may not be read */
export function readOwnText(logbook: string, name: OwnText): string | null {
  try {
    return readTextFile(ownTextPath(logbook, name), mostBytes)
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error
    throw new LogbookError(
      'cannot_read',
      `${name} ${error.message}. Correct or move ${ownTextPath(logbook, name)}.`,
    )
  }
}

/** Puts a text in a new file, on the disk when it returns.
 * @returns false where there is such a file already, which is left as it is
 * @throws LogbookError `cannot_write` */
export function addOwnText(logbook: string, name: OwnText, text: string): boolean {
  const path = ownTextPath(logbook, name)
  let descriptor: number
  try {
    makeFolder(logbook)
    descriptor = openSync(path, 'wx', 0o600)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw cannotWrite(path, error)
  }
  try {
    writeFileSync(descriptor, text)
    fsyncSync(descriptor)
    flushFolder(logbook)
    return true
  } catch (error) {
    rmSync(path, { force: true })
    throw cannotWrite(path, error)
  } finally {
    closeSync(descriptor)
  }
}

/** Changes a text that was read; the one before is kept as `.bak`.
 * @param was what was read; a file that is another by now is left as it is
 * @throws LogbookError `cannot_write` */
export function changeOwnText(logbook: string, name: OwnText, was: string, text: string): void {
  const path = ownTextPath(logbook, name)
  if (readOwnText(logbook, name) !== was) {
    throw new LogbookError('cannot_write', `${name} was changed meanwhile and is left as it is. Try again.`)
  }
  try {
    writeDurably(path, text, true)
  } catch (error) {
    throw cannotWrite(path, error)
  }
}

function cannotWrite(path: string, error: unknown): LogbookError {
  return new LogbookError(
    'cannot_write',
    `${path} cannot be written: ${reasonOf(error)}. Nothing was changed.`,
  )
}
