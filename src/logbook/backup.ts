import { lstatSync, mkdirSync, readdirSync, rmdirSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { sanitize } from '../validate/unsafe.ts'
import {
  flushFolder,
  freePath,
  isThere,
  makeFolder,
  removeQuietly,
  renameOver,
  sweepFolder,
  targetOf,
  temporaryOf,
  writeDurably,
} from './durableFile.ts'
import { type Damage, LogbookError, orRefuse, reasonOf } from './errors.ts'
import { contentOf, isBackedUp, kindsOf, originalOf, pathsIn, storedAmong } from './logbookFiles.ts'
import { thisMachine } from './machine.ts'
import { ownTextsIn } from './ownTexts.ts'
import { storeArrivals } from './store.ts'
import { wrongIn } from './syncMerge.ts'
import { readFileBytes, readObject, readTextFile, sha256Of, textOf } from './text.ts'

/* A backup is one NDJSON file: a head; then, for each file of the logbook, one line with its path, its SHA-256 and
 * its text (base64 if it is not UTF-8); then an end with the number of files and the SHA-256 of all sums. Files that
 * can be derived, or that belong to a running program, are left out. A restore writes only what a backup may hold. */

const format = 1
/** Room for more than a hundred thousand sessions. */
const mostBytes = 2 ** 31

interface Backup {
  files: { path: string; bytes: Buffer }[]
  /** How many of them are sessions; previous copies and damaged ones that were renamed do not count. */
  sessions: number
  /** The sessions and the years of mornings among them that cannot be read, and what the logbook holds besides them. */
  damages: Damage[]
}

/** Writes a whole logbook into one file. It replaces an earlier backup of that name, unless that one has sessions or
 * mornings which the logbook lacks, as after a lost disk or from another machine; it replaces no other file.
 * @throws LogbookError `cannot_read` for a file of the logbook that cannot be read, `bad_backup` where it cannot be
 * written */
export function writeBackup(home: string, file: string): Backup {
  const target = resolve(file)
  const backup = backupOfLogbook(resolve(home))
  const message = (reason: string) => `The backup cannot be written: ${reason}. Give another file.`
  orRefuse('bad_backup', message, () => {
    refuseToReplace(target, backup)
    sweepFolder(dirname(target), thisMachine())
    writeDurably(target, printBackup(backup))
  })
  return backup
}

function backupOfLogbook(home: string): Backup {
  const arrivals = storeArrivals(home)
  const found = pathsIn(home, ({ file }) => {
    throw cannotRead(file, 'cannot be listed')
  })
  const paths = [...ownTextsIn(home), ...found].filter(isBackedUp)
  const files = [...new Set(paths)].sort().map((path) => {
    const bytes = readFileBytes(join(home, path)) ?? { wrong: 'is gone' }
    if ('wrong' in bytes) throw cannotRead(path, bytes.wrong)
    return { path, bytes }
  })
  const leftOut = found.filter(
    (path) =>
      /^(?:prescriptions|mornings|sessions)\//.test(path) &&
      !isBackedUp(path) &&
      !/^\.|\.json\.lock(?:\.|$)/.test(basename(path)),
  )
  const wrong =
    'The backup does not have it: its name is not that of a day (.txt or .json), a session or a year of mornings.'
  return backupWith(files, [
    ...(arrivals === null ? [] : [arrivals]),
    ...leftOut.map((path) => ({ file: sanitize(path), wrong, done: 'Move or rename it to keep it.' })),
  ])
}

function backupWith(files: Backup['files'], leftOut: readonly Damage[] = []): Backup {
  const unreadable = files.flatMap(({ path, bytes }) => {
    const wrong = wrongIn(path, bytes)?.wrong
    return wrong === undefined
      ? []
      : [{ file: path, wrong: `The file ${wrong}.`, done: 'The backup has it as it is.' }]
  })
  const sessions = files.filter(({ path }) => contentOf(path) === 'session').length
  return { files, sessions, damages: [...leftOut, ...unreadable] }
}

function cannotRead(path: string, why: string): LogbookError {
  const message = `${path} ${why}, so it would be missing from the backup. Correct that first: "pausebook verify" says what is wrong.`
  return new LogbookError('cannot_read', message)
}

function refuseToReplace(target: string, { files }: Backup): void {
  const status = lstatSync(target, { throwIfNoEntry: false })
  if (status === undefined) return
  const bytes = status.isFile() ? readFileBytes(target, mostBytes) : null
  const text = Buffer.isBuffer(bytes) ? bytes.toString('latin1') : ''
  if (!text.startsWith('{"backup":')) {
    const message = `${target} exists already and is not a backup. Give the name of a new file.`
    throw new LogbookError('bad_backup', message)
  }
  const originalsOf = (paths: string[]) => storedAmong(paths).map(originalOf)
  const here = new Set(originalsOf(files.map(({ path }) => path)))
  const held = [...text.matchAll(/^\{"path":"([^"]+)"/gm)].map(([, path = '']) => path)
  const missing = [...new Set(originalsOf(held))].filter((path) => !here.has(path))
  if (missing.length === 0) return
  const message = `${target} is a backup with ${kindsOf(missing)} that this logbook does not have, such as ${missing[0]}. Name the right logbook with --logbook, or give the name of a new file.`
  throw new LogbookError('bad_backup', message)
}

function printBackup({ files }: Backup): string {
  const lines = files.map(({ path, bytes }) => {
    const text = textOf(bytes, true)
    return JSON.stringify({
      path,
      sha256: sha256Of(bytes),
      ...(typeof text === 'string' ? { text } : { base64: bytes.toString('base64') }),
    })
  })
  return [
    JSON.stringify({ backup: format, files: files.length }),
    ...lines,
    JSON.stringify({ end: files.length, sha256: sumOf(files) }),
    '',
  ].join('\n')
}

function sumOf(files: Backup['files']): string {
  return sha256Of(files.map(({ bytes }) => sha256Of(bytes)).join('\n'))
}

/** Reads the files of a backup and checks each against its sum.
 * @throws LogbookError `bad_backup` for a file that is not a backup, was changed or is cut off */
export function readBackup(file: string): Backup {
  const [head = '', ...rest] = backupText(file).split('\n')
  const lines = rest.filter((line) => line !== '')
  const { backup } = parsed(head, 1)
  if (backup !== format) throw damaged('it is not a backup of this program, or it is a newer one')
  const end = parsed(lines.pop() ?? '', lines.length + 2)
  const files = lines.map((line, index) => fileOf(parsed(line, index + 2), index + 2))
  if (end.end !== files.length || end.sha256 !== sumOf(files))
    throw damaged('it is cut off, or files are missing from it')
  return backupWith(files)
}

function backupText(file: string): string {
  const text = readTextFile(file, mostBytes)
  if (typeof text === 'string') return text
  const message =
    text === null
      ? `There is no backup ${file}. Check the path.`
      : `The backup ${file} ${text.wrong}. Give another file.`
  throw new LogbookError('bad_backup', message)
}

function parsed(line: string, number: number): Record<string, unknown> {
  const read = readObject(line)
  if (typeof read === 'string') throw damaged(`line ${number} cannot be read`)
  return read
}

function fileOf(
  { path, sha256, text, base64 }: Record<string, unknown>,
  number: number,
): Backup['files'][number] {
  if (typeof path !== 'string' || !isBackedUp(path))
    throw damaged(`line ${number} names a file that no logbook has`)
  const bytes = typeof text === 'string' ? Buffer.from(text, 'utf8') : Buffer.from(String(base64), 'base64')
  if (sha256Of(bytes) !== sha256) throw damaged(`line ${number} (${path}) does not match its checksum`)
  return { path, bytes }
}

function damaged(why: string): LogbookError {
  return new LogbookError(
    'bad_backup',
    `The backup cannot be used: ${why}. Nothing was restored; use another backup.`,
  )
}

/** Restores a backup into an empty logbook, all of it or nothing: writes it next to the logbook, then renames it.
 * @throws LogbookError `not_empty`, `cannot_write` */
export function restoreBackup(home: string, { files }: Pick<Backup, 'files'>): void {
  refuseNonEmpty(resolve(home))
  const target = targetOf(home)
  const beside = temporaryOf(target)
  try {
    makeFolder(dirname(target))
    sweepFolder(dirname(target), thisMachine())
    mkdirSync(beside, { mode: 0o700 })
    for (const { path, bytes } of files) {
      // Taken is the name of a day that differs from another only in case, on a disk that takes both for one.
      const file = freePath((number) =>
        join(beside, number === 1 ? path : path.replace(/\.\w+$/, `-version-${number}$&`)),
      )
      makeFolder(dirname(file))
      writeDurably(file, bytes)
    }
    if (isThere(target)) rmdirSync(target)
    renameOver(beside, target)
    flushFolder(dirname(target))
  } catch (error) {
    removeQuietly(beside)
    throw new LogbookError(
      'cannot_write',
      `The backup cannot be restored to ${target}: ${reasonOf(error)}. Nothing was restored; give another folder with --logbook.`,
    )
  }
}

function refuseNonEmpty(target: string): void {
  const message = (reason: string) =>
    `The logbook ${target} cannot be listed: ${reason}. Give another with --logbook.`
  const names = orRefuse('cannot_read', message, () => (isThere(target) ? readdirSync(target) : []))
  if (names.length > 0)
    throw new LogbookError(
      'not_empty',
      `The logbook ${target} is not empty, and a restore merges nothing. Move it away, or give an empty folder with --logbook.`,
    )
}
