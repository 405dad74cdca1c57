import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, lstatSync, openSync, readFileSync } from 'node:fs'
import { isObject } from '../validate/faults.ts'
import { jsonMistake } from '../validate/json.ts'
import { sanitize } from '../validate/unsafe.ts'
import { codeOf } from './errors.ts'

/** The newest format of settings.json that this program writes; a newer one is refused. */
export const settingsFormat = 1

/** The newest format of a year of mornings that this program writes; a newer one is refused. */
export const morningFormat = 1

/* What a value from outside must not contain. */

/** Sanitizes every string in a JSON value; returns the same value if nothing has to change. */
export function printableValueOf(value: unknown): unknown {
  const holder = { value }
  forEachIn(holder, (held, key, record) => {
    const printable = typeof held === 'string' ? sanitize(held) : held
    if (printable !== held) Object.defineProperty(record, key, { value: printable })
  })
  return holder.value
}

/** More than any figure of a day: seconds, metres, grams, repetitions. Larger numbers could make sums and products
 * infinite. */
const largest = 1e9

/** A number in a JSON value that is too large to compute with; null without one. */
export function tooLargeIn(value: unknown): number | null {
  let found: number | null = null
  forEachIn({ value }, (held) => {
    if (typeof held === 'number' && Math.abs(held) > largest) found = held
  })
  return found
}

/** Visits everything in a JSON value. Not recursive, since a file may nest values ten thousand deep. */
function forEachIn(value: object, visit: (held: unknown, key: string, record: object) => void): void {
  const pending: object[] = [value]
  for (let record = pending.pop(); record !== undefined; record = pending.pop())
    for (const [key, held] of Object.entries(record)) {
      visit(held, key, record)
      if (typeof held === 'object' && held !== null) pending.push(held)
    }
}

/** Parses the JSON object in a text, or says what the text is instead, as the end of a sentence.
 * @param what the text should hold, as that sentence names it */
export function readObject(text: string, what = 'a session'): Record<string, unknown> | string {
  if (text.trim() === '') return 'is empty'
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    const { isCutOff } = jsonMistake(text, (error as Error).message)
    return isCutOff ? 'breaks off before its end' : 'is not JSON'
  }
  if (isObject(value)) return value
  return `holds ${value === null ? 'null' : Array.isArray(value) ? 'a list' : `a ${typeof value}`} instead of ${what}`
}

/** Larger than a thousand sessions. Larger files are not read into memory. */
const usualLimit = 64 * 1024 * 1024

/** Why a file cannot be read. */
export interface Unreadable {
  /** The end of a sentence: "is a folder". */
  wrong: string
  /** `ruined`: a disk or another program did it, not a person, so the previous copy counts; `newer`: a newer version of
   * this program can read it. Absent for any other cause. */
  cause?: 'ruined' | 'newer'
}

/** The text of a file; null without a file. A file that is not UTF-8 is unreadable, too.
 * @param keepsMark as of `textOf` */
export function readTextFile(
  path: string,
  mostBytes = usualLimit,
  keepsMark = false,
): string | Unreadable | null {
  const bytes = readFileBytes(path, mostBytes)
  return Buffer.isBuffer(bytes) ? textOf(bytes, keepsMark) : bytes
}

/** The bytes of a file; null without a file. A folder, a pipe, a link without a target, and a file that may not be read
 * or is too large are unreadable. */
export function readFileBytes(path: string, mostBytes = usualLimit): Buffer | Unreadable | null {
  try {
    // Without this flag, opening a pipe would wait.
    const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
    try {
      const status = fstatSync(descriptor)
      if (status.isDirectory()) return { wrong: 'is a folder' }
      if (!status.isFile()) return { wrong: 'is not a regular file' }
      if (status.size > mostBytes) return { wrong: `is larger than ${mostBytes / 1024 / 1024} MiB` }
      return readFileSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
  } catch (error) {
    const code = codeOf(error)
    if (code === 'ENOENT') {
      const isLink = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink()
      return isLink ? { wrong: 'is a link to a file that is gone' } : null
    }
    if (code === 'EACCES' || code === 'EPERM') return { wrong: 'may not be read by this user' }
    if (code === 'EISDIR') return { wrong: 'is a folder' }
    return { wrong: `cannot be read (${code || 'unknown error'})` }
  }
}

/** Bytes in UTF-8 as text.
 * @param keepsMark keeps a byte-order mark, so that the text in UTF-8 has the same bytes again */
export function textOf(bytes: Buffer, keepsMark = false): string | Unreadable {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: keepsMark }).decode(bytes)
  } catch {
    return { wrong: 'is not UTF-8 text', cause: 'ruined' }
  }
}

/** The SHA-256 of bytes, or of a text in UTF-8, in hexadecimal digits. */
export function sha256Of(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}
