import { isAscii } from 'node:buffer'
import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs'
import { sanitize } from '../validate/unsafe.ts'

/** The newest format of settings.json that this program writes; a newer one is refused. */
export const settingsFormat = 1

/** The newest format of a year of mornings that this program writes; a newer one is refused. */
export const morningFormat = 1

/* What a value from outside must not contain. */

/** Sanitizes every string in a JSON value; returns the same value if nothing has to change. Not
 * recursive, since a file may nest values ten thousand deep. */
export function printableValueOf(value: unknown): unknown {
  const holder = { value }
  const open: unknown[] = [holder]
  for (let holding = open.pop(); holding !== undefined; holding = open.pop()) {
    const record = holding as Record<string, unknown>
    for (const key of Object.keys(record)) {
      const held = record[key]
      if (typeof held === 'string') {
        const printable = sanitize(held)
        if (printable !== held) Object.defineProperty(record, key, { value: printable })
      } else if (typeof held === 'object' && held !== null) open.push(held)
    }
  }
  return holder.value
}

/** More than any figure of a day: seconds, metres, grams, repetitions. Larger numbers could make sums and products
 * infinite. */
const largest = 1e9

/** The first number in a JSON value that is too large to compute with; null without one. */
export function tooLargeIn(value: unknown): number | null {
  const open: unknown[] = [value]
  while (open.length > 0) {
    const held = open.pop()
    if (typeof held === 'number' && Math.abs(held) > largest) return held
    if (typeof held === 'object' && held !== null) for (const inner of Object.values(held)) open.push(inner)
  }
  return null
}

/** Makes a text fit for a message: printable, at most 200 characters. */
export function clipped(text: string): string {
  const printable = sanitize(text)
  return printable.length > 200 ? `${printable.slice(0, 200)}…` : printable
}

/** Larger than a thousand sessions. Larger files are not read into memory. */
const usualLimit = 64 * 1024 * 1024

/** What is wrong with a file before its text is looked at, as the end of a sentence: "is a folder". */
export class UnreadableFile extends Error {
  override name = 'UnreadableFile'
  /** The bytes are not text, so renaming the file loses nothing. */
  readonly isRuined: boolean

  constructor(message: string, isRuined = false) {
    super(message)
    this.isRuined = isRuined
  }
}

/** The text of a file; null without a file.
 * @throws UnreadableFile for a folder, a pipe, a file that may not be read, is too large or is not UTF-8 */
export function readTextFile(path: string, mostBytes = usualLimit): string | null {
  const bytes = readFileBytes(path, mostBytes)
  return bytes === null ? null : textOf(bytes)
}

/** As `readTextFile`, but undefined for a file that cannot be read. */
export function textAt(path: string): string | null | undefined {
  try {
    return readTextFile(path)
  } catch (error) {
    if (error instanceof UnreadableFile) return undefined
    throw error
  }
}

/** The bytes of a file; null without a file.
 * @throws UnreadableFile for a folder, a pipe, a file that may not be read or is too large */
export function readFileBytes(path: string, mostBytes = usualLimit): Buffer | null {
  try {
    // Without this flag, opening a pipe would wait.
    const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
    try {
      const status = fstatSync(descriptor)
      if (status.isDirectory()) throw new UnreadableFile('is a folder')
      if (!status.isFile()) throw new UnreadableFile('is not a regular file')
      if (status.size > mostBytes) throw new UnreadableFile(`is larger than ${mostBytes / 1024 / 1024} MiB`)
      return readFileSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
  } catch (error) {
    if (error instanceof UnreadableFile) throw error
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'ENOENT') return null
    if (code === 'EACCES' || code === 'EPERM') throw new UnreadableFile('may not be read by this user')
    if (code === 'EISDIR') throw new UnreadableFile('is a folder')
    throw new UnreadableFile(`cannot be read (${code ?? 'unknown error'})`)
  }
}

/** @param keepsMark keeps a byte-order mark in the text, for a file that is written back
 * @throws UnreadableFile if it is not UTF-8 */
export function textOf(bytes: Buffer, keepsMark = false): string {
  // Plain ASCII halves the time to read the index of ten thousand sessions.
  if (isAscii(bytes)) return bytes.toString('latin1')
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: keepsMark }).decode(bytes)
  } catch {
    throw new UnreadableFile('is not UTF-8 text', true)
  }
}

/** The SHA-256 of bytes, or of a text in UTF-8, in hexadecimal digits. */
export function sumOf(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}
