import { isAscii } from 'node:buffer'
import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs'
import { type Fault, faultWords } from '../validate/faults.ts'
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

/* What the logbook's files share: each is one JSON object. */

/** Parses the JSON object in a text, or says what the text is instead, as the end of a sentence.
 * @param what the text should hold, as that sentence names it */
export function readObject(text: string, what = 'a session'): Record<string, unknown> | string {
  if (text.trim() === '') return 'is empty'
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    const isCutOff = /end of JSON input|Unterminated|after (array element|property value)/.test(
      (error as Error).message,
    )
    return isCutOff ? 'breaks off before its end' : 'is not JSON'
  }
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return value as Record<string, unknown>
  return `holds ${value === null ? 'null' : Array.isArray(value) ? 'a list' : `a ${typeof value}`} instead of ${what}`
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

/** Why a file cannot be read, as the end of a sentence: "is wrong at event 5 (setRecorded): reps is
 * not a number". @param value the value with the fault */
export function faultText(fault: Fault, value: unknown): string {
  const { place, rest } = placeOf(fault.path, value)
  return clipped(`is wrong${place === '' ? '' : ` at ${place}`}: ${fieldOf(rest)} ${faultWords(fault)}`)
}

/** The event, or the item of the prescription, that a path leads into, counted from 1, and the rest of the path. */
function placeOf(path: Fault['path'], value: unknown): { place: string; rest: Fault['path'] } {
  const [first, second, third, fourth, fifth] = path
  if (first === 'events' && typeof second === 'number') {
    const type = valueAt(value, ['events', second, 'type'])
    const kind = typeof type === 'string' ? ` (${type})` : ''
    return { place: `event ${second + 1}${kind}`, rest: path.slice(third === 'result' ? 3 : 2) }
  }
  if (first !== 'prescription') return { place: '', rest: path }
  if (second !== 'parts' || typeof third !== 'number')
    return { place: 'its prescription', rest: path.slice(1) }
  if (fourth !== 'items' || typeof fifth !== 'number')
    return { place: `part ${third + 1} of its prescription`, rest: path.slice(3) }
  return { place: `part ${third + 1}, item ${fifth + 1} of its prescription`, rest: path.slice(5) }
}

function fieldOf(path: Fault['path']): string {
  return path.length === 0 ? 'it' : path.map((key) => (typeof key === 'number' ? key + 1 : key)).join('.')
}

function valueAt(value: unknown, path: Fault['path']): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
        ? (inner as Record<string, unknown>)[key]
        : undefined,
    value,
  )
}

/* The checksum of a stored file: the SHA-256 of its UTF-8 bytes with the 64 digits of the checksum as
 * zeros. It is part of the file, so that it moves with it; it detects a flipped bit before the bit changes a figure. */

const field = /("checksum":\s*")([0-9a-f]{64})"/

/** What a file has in the place of its checksum before it is sealed. */
export const zeros = '0'.repeat(64)

/** Puts the checksum into a text that holds `"checksum": "000…"`. */
export function sealed(text: string): string {
  const sum = sumOf(text)
  return text.replace(field, (_, before: string) => `${before}${sum}"`)
}

/** Whether the checksum in a file fits its text; `missing`: written by an earlier version or by hand.
 * @param read the same text, parsed */
export function sealOf(text: string, read: Readonly<Record<string, unknown>>): 'right' | 'wrong' | 'missing' {
  if (!Object.hasOwn(read, 'checksum')) return 'missing'
  const match = field.exec(text)
  if (match === null || match[2] !== read.checksum) return 'wrong'
  const begin = match.index + (match[1] ?? '').length
  const zeroed = `${text.slice(0, begin)}${zeros}${text.slice(begin + zeros.length)}`
  return sumOf(zeroed) === match[2] ? 'right' : 'wrong'
}

/** The SHA-256 of bytes, or of a text in UTF-8, in hexadecimal digits. */
export function sumOf(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}

/** Why a stored file cannot be read. */
export interface Wrong {
  /** The end of a sentence: "is empty". */
  wrong: string
  /** A disk or another program did it, not a person, so the previous copy counts. */
  isRuined?: boolean
  /** A newer version of this program can read it. */
  isNewer?: boolean
}

/** Parses a stored file as far as all kinds of them are alike: JSON, checksum, no newer format.
 * @param what it should hold, as messages name it: `a session`
 * @param newest the newest format that this program reads */
export function readStored(
  text: string,
  what: string,
  newest: number,
): { content: Record<string, unknown>; isSealed: boolean } | Wrong {
  const read = readObject(text, what)
  if (typeof read === 'string') return { wrong: read, isRuined: true }
  // Check the checksum first: a flipped bit in the format would look like a newer program's.
  const seal = sealOf(text, read)
  if (seal === 'wrong')
    return { wrong: 'does not match its checksum, so a disk or another program changed it', isRuined: true }
  const { checksum, ...content } = read
  const { format } = content
  if (typeof format === 'number' && Number.isInteger(format) && format > newest)
    return {
      wrong: `is of format ${format}, written by a newer program; this one reads format ${newest}`,
      isNewer: true,
    }
  return { content, isSealed: seal === 'right' }
}
