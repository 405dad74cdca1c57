import { basename, dirname, join } from 'node:path'
import { joined } from '../units/lists.ts'
import { type Fault, faultsIn, type Shape } from '../validate/faults.ts'
import { clipped } from '../validate/unsafe.ts'
import { backupOf, makeFolder, replaceDamaged, writeKeepingPrevious } from './durableFile.ts'
import { type Damage, LogbookError, orRefuse, reasonOf, writingAdvice } from './errors.ts'
import { underLock } from './lock.ts'
import { lockPathOf } from './logbookFiles.ts'
import type { Machine } from './machine.ts'
import { printableValueOf, readObject, readTextFile, sha256Of, textOf, type Unreadable } from './text.ts'

/* What the settings, a year of mornings and a session share: each is one JSON object with its format and its checksum,
 * written durably, with its previous copy beside it as NAME.bak. */

/** A kind of stored file. @typeParam T what a file holds */
export interface StoredKind<T> {
  /** What it holds, as messages name it: "a session". */
  what: string
  /** The newest format that this program reads. */
  format: number
  /** The value of an object whose checksum is right, or what is wrong with it. */
  read(content: Record<string, unknown>): { value: T } | Wrong<T>
  print(value: T): string
  /** How much a copy holds, for messages: "2 events". */
  sizeOf?(value: T): string
  /** What counts without a file; null if a missing file is damage. */
  absent: T | null
  /** `absent` counts, and a repair may write it, even in place of a file that nobody can read. */
  hasDefaults?: true
}

/** A kind that sync exchanges, and whose files are only ever added to. */
export interface ExchangedKind<T> extends StoredKind<T> {
  /** All that two versions hold: one of the two if it has everything of the other. Null if they contradict. */
  union(one: T, other: T): T | null
}

/** Why a stored file cannot be read. */
export interface Wrong<T = never> extends Unreadable {
  /** What could be read all the same. */
  rest?: T
}

/** What a text holds, or what is wrong with it. `isSealed`: it has the right checksum. */
export type Reading<T> = { value: T; isSealed: boolean } | Wrong<T>

export function readStored<T>(content: string | Buffer, kind: StoredKind<T>): Reading<T> {
  const text = typeof content === 'string' ? content : textOf(content)
  if (typeof text !== 'string') return text
  const read = readObject(text, kind.what)
  if (typeof read === 'string') return { wrong: read, cause: 'ruined' }
  // Check the checksum first: a flipped bit in the format would look like a newer program's.
  const seal = sealOf(text, read)
  if (seal === 'wrong')
    return {
      wrong:
        'does not match its checksum, so a disk or another program changed it (if you did, take its checksum line out)',
      cause: 'ruined',
    }
  const { checksum, ...fields } = read
  const { format } = fields
  if (typeof format === 'number' && Number.isInteger(format) && format > kind.format)
    return {
      wrong: `has format ${format}, written by a newer program; this one reads format ${kind.format}`,
      cause: 'newer',
    }
  const reading = kind.read(fields)
  return 'wrong' in reading ? reading : { ...reading, isSealed: seal === 'right' }
}

export interface Loaded<T> {
  /** What counts: the file, its previous copy, or what could be read. Null if nothing could. */
  value: T | null
  /** Null if the file is sound, or missing where that is no damage. */
  damage: Damage | null
  /** The file has its checksum; also true if it is missing or damaged. */
  isSealed: boolean
  /** What a repair writes instead of a damaged file, and its name in a message; null if the file has to stay. */
  repair: { value: T; what: string } | null
}

/** Reads a stored file without changing anything. If it is ruined or gone, its previous copy counts; else, where a kind
 * has defaults, what could be read and the defaults of the rest. */
export function loadStored<T>(home: string, file: string, kind: StoredKind<T>): Loaded<T> {
  const path = join(home, file)
  const read = readAt(path, kind)
  if (read !== null && 'value' in read) return { ...read, damage: null, repair: null }
  const isLost = read === null || read.cause === 'ruined'
  const copy = isLost ? readAt(backupOf(path), kind) : null
  if (read === null && copy === null && kind.absent !== null)
    return { value: kind.absent, damage: null, isSealed: true, repair: null }
  const name = `${basename(path)}.bak`
  const damageOf = (used: (string | false)[]): Damage => ({
    file,
    wrong: `The file ${read?.wrong ?? 'is gone'}.`,
    done: `${joined('; ', ['Nothing was changed', ...used])}.`,
  })
  if (copy !== null && 'value' in copy) {
    const { value } = copy
    const what = `the previous copy (${name}${kind.sizeOf === undefined ? '' : `, ${kind.sizeOf(value)}`})`
    const damage = damageOf([`${what} is used instead. "pausebook verify --repair" restores it`])
    return { value, damage, isSealed: true, repair: { value, what } }
  }
  const rest = read?.rest ?? (kind.hasDefaults ? kind.absent : null)
  const isWritable = rest !== null && (isLost || read.rest !== undefined) && copy?.cause !== 'newer'
  const damage = damageOf([
    copy !== null &&
      `the previous copy (${name}) ${copy.cause === 'newer' ? '' : 'is damaged too: it '}${copy.wrong}`,
    isLost && copy === null && rest === null && 'there is no previous copy',
    rest !== null && 'defaults are used for what cannot be read',
    isWritable && '"pausebook verify --repair" keeps the rest',
  ])
  const repair = isWritable ? { value: rest, what: `the readable ${kind.what}, else the defaults` } : null
  return { value: rest ?? kind.absent, damage, isSealed: true, repair }
}

/** Loads a file and repairs what it can: the damaged file is kept under another name. The caller holds its lock.
 * @returns what it loaded, with the damage as it was and what was done */
export function repairStored<T>(home: string, file: string, kind: StoredKind<T>): Loaded<T> {
  const loaded = loadStored(home, file, kind)
  const { damage, repair } = loaded
  if (damage === null || repair === null) return loaded
  try {
    const aside = replaceDamaged(join(home, file), kind.print(repair.value))
    const moved = aside === null ? 'Restored' : `Moved to ${aside}; restored`
    return { ...loaded, damage: { ...damage, done: `${moved} ${repair.what}.` } }
  } catch (error) {
    return { ...loaded, damage: { ...damage, done: unrepaired(error) } }
  }
}

/** As `repairStored`, but takes the lock.
 * @returns null if the file is sound */
export function repairUnderLock<T>(
  home: string,
  file: string,
  kind: StoredKind<T>,
  machine: Machine,
): Damage | null {
  try {
    return underLock(`The file ${file}`, lockPathOf(join(home, file)), machine, () =>
      repairStored(home, file, kind),
    ).damage
  } catch (error) {
    const { damage } = loadStored(home, file, kind)
    return damage === null ? null : { ...damage, done: unrepaired(error) }
  }
}

function unrepaired(error: unknown): string {
  return `It could not be repaired: ${reasonOf(error)}. Nothing was changed.`
}

/** Two seconds, 10 ms apart. */
const mostTries = 201

/** Changes a file under its lock, for which it waits up to two seconds. The previous text is kept as `.bak`.
 * @param change throws to refuse; nothing is written then
 * @returns the new value
 * @throws LogbookError `locked`, `cannot_write`, `damaged`, since a change would lose what cannot be read; what
 * `change` throws */
export function changeStored<T>(
  home: string,
  file: string,
  kind: StoredKind<T>,
  machine: Machine,
  change: (value: T) => T,
): T {
  const path = join(home, file)
  const content = () => JSON.stringify(readTextFile(path))
  const before = content()
  // The last step of a save may fail although the new file is already in place.
  const message = (reason: string) =>
    `${path} cannot be saved: ${reason}. ${content() === before ? `It is as before. ${writingAdvice}` : 'It has changed all the same.'}`
  const save = () => {
    const { value, damage, repair } = loadStored(home, file, kind)
    if (value === null || damage !== null) {
      const advice = repair === null ? ' Correct it or move it away.' : ''
      throw new LogbookError('damaged', `${path}: ${damage?.wrong} ${damage?.done}${advice}`)
    }
    const changed = change(value)
    writeKeepingPrevious(path, kind.print(changed))
    return changed
  }
  return orRefuse('cannot_write', message, () => {
    makeFolder(dirname(path))
    return underLock(`The file ${basename(path)}`, lockPathOf(path), machine, save, mostTries)
  })
}

/** Reads a stored file alone, without its copy; null without a file. */
function readAt<T>(path: string, kind: StoredKind<T>): Reading<T> | null {
  const text = readTextFile(path)
  return typeof text === 'string' ? readStored(text, kind) : text
}

/* What a stored file holds: one JSON object that fits a schema. */

/** A value from a file, printable, if it fits a schema; else what is wrong with it, as the end of a sentence. */
export function fitting<T>(shape: Shape, content: unknown): T | string {
  const printable = printableValueOf(content)
  const [fault] = faultsIn(shape, printable, 1)
  return fault === undefined ? (printable as T) : faultText(fault)
}

/** Why a file cannot be read, as the end of a sentence: "is wrong: events.5.result.reps is not a number", counted from
 * 1. */
export function faultText({ path, wrong }: Fault): string {
  const place = path.map((key) => (typeof key === 'number' ? key + 1 : key)).join('.')
  return clipped(`is wrong: ${place || 'it'} ${wrong}`, 200)
}

/* The checksum of a stored file: the SHA-256 of its UTF-8 bytes with the 64 digits of the checksum as
 * zeros. It is part of the file, so that it moves with it; it detects a flipped bit before the bit changes a figure. */

const field = /("checksum":\s*")([0-9a-f]{64})"/

/** Written in place of the checksum until a file is sealed. */
export const zeros = '0'.repeat(64)

/** Puts the checksum into a text that holds `"checksum": "000…"`. */
export function sealed(text: string): string {
  const sum = sha256Of(text)
  return text.replace(field, (_, before: string) => `${before}${sum}"`)
}

/** A value with events as its file holds it: JSON with its checksum, one event a line, so that a diff of two versions
 * shows which event was added. */
export function printEvents({ format, events, ...head }: { format: number; events: readonly unknown[] }) {
  const lines = Object.entries({ format, checksum: zeros, ...head }).map(
    ([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)},\n`,
  )
  return sealed(
    `{\n${lines.join('')}"events": [\n${events.map((event) => JSON.stringify(event)).join(',\n')}\n]\n}\n`,
  )
}

/** Whether the checksum in a file fits its text; `missing`: written by an earlier version or by hand.
 * @param read the same text, parsed */
export function sealOf(text: string, read: Readonly<Record<string, unknown>>): 'right' | 'wrong' | 'missing' {
  if (!Object.hasOwn(read, 'checksum')) return Object.entries(read).some(isFlipped) ? 'wrong' : 'missing'
  const match = field.exec(text)
  if (match === null || match[2] !== read.checksum) return 'wrong'
  const begin = match.index + (match[1] ?? '').length
  const zeroed = `${text.slice(0, begin)}${zeros}${text.slice(begin + zeros.length)}`
  return sha256Of(zeroed) === match[2] ? 'right' : 'wrong'
}

/** Whether an entry is a checksum with a flipped bit in its name. */
function isFlipped([key, value]: [string, unknown]): boolean {
  return key.length === 'checksum'.length && typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)
}
