import { lstatSync, readdirSync, rmdirSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { dayAfter } from '../units/calendarDate.ts'
import { clipped, sanitize } from '../validate/unsafe.ts'
import {
  backupOf,
  flushFolder,
  freePath,
  isThere,
  linkBeside,
  makeFolder,
  removeFile,
  renameOver,
  replaceDamaged,
  writeDurably,
  writeKeepingPrevious,
} from './durableFile.ts'
import { type Damage, LogbookError } from './errors.ts'
import { underLock } from './lock.ts'
import {
  contentOf,
  isStored,
  isSynced,
  lockPathOf,
  originalOf,
  pathsIn,
  storedAmong,
} from './logbookFiles.ts'
import { type Machine, todayOf } from './machine.ts'
import { ownTextsIn } from './ownTexts.ts'
import { sessionKind } from './sessionFile.ts'
import { loadStored } from './storedFile.ts'
import { leftOut, wrongIn } from './syncMerge.ts'
import {
  bytesOf,
  changesBetween,
  loadTexts,
  objectOf,
  type Repository,
  type Tree,
  withoutCase,
} from './syncRepository.ts'
import { readFileBytes, type Unreadable } from './text.ts'

/** Reads the files on the disk as a tree, where the version of the last commit stands for a file that cannot be read.
 * @returns `changed`: what differs from that commit, with its bytes in `texts`; `damages`: files that cannot be read,
 * those of which only the copy (`.bak`) exists, and those with names that another system cannot have
 * @throws LogbookError `cannot_sync` for a folder that cannot be listed: its sessions would look deleted */
export function treeOnDisk(
  { home, texts }: Repository,
  before: Tree,
): { tree: Map<string, string>; changed: Map<string, string>; damages: Damage[] } {
  const tree = new Map<string, string>()
  const changed = new Map<string, string>()
  const damages: Damage[] = []
  const linked = [...before.keys()].filter((path) => isLinkIn(home, path))
  const paths = [...new Set([...pathsOnDisk(home), ...linked])]
  const committed = paths.filter((path) => before.has(path))
  const namesakes = new Map([...paths, ...committed].map((path) => [withoutCase(path), path]))
  for (const path of paths) {
    const other = namesakes.get(withoutCase(path)) ?? path
    if (other !== path || !isSynced(path)) {
      const beside = other === path ? '' : ` beside ${sanitize(other)}`
      damages.push(leftOut(path, `Another system cannot have this name${beside}: rename it.`))
      continue
    }
    const bytes = bytesToSync(home, path)
    if (bytes === null) continue
    const last = before.get(path)
    const object = Buffer.isBuffer(bytes) ? objectOf(bytes) : undefined
    if (Buffer.isBuffer(bytes) && object !== undefined && object !== last) {
      texts.set(object, bytes)
      changed.set(path, object)
    }
    // What the last commit has was found right then.
    const wrong = object !== undefined && object === last ? null : wrongIn(path, bytes)
    if (wrong !== null) damages.push(leftOut(path, `The file ${wrong.wrong}.`))
    const counts = wrong === null ? object : last
    if (counts !== undefined) tree.set(path, counts)
  }
  return { tree, changed, damages }
}

/** Whether a file is a link or in a folder of days that is one. A link may lead to anything on this machine, so sync
 * neither sends nor replaces what it leads to. */
function isLinkIn(home: string, path: string): boolean {
  const folder = dirname(path)
  if (folder.startsWith('prescriptions/') && isLinkIn(home, folder)) return true
  return lstatSync(join(home, path), { throwIfNoEntry: false })?.isSymbolicLink() === true
}

/** The bytes of a file, or why it is not exchanged; null if the athlete may have deleted it. */
function bytesToSync(home: string, path: string): Buffer | Unreadable | null {
  const file = join(home, path)
  if (isLinkIn(home, path))
    return { wrong: 'is a link or in a linked folder: move the file itself here to exchange it' }
  return (
    readFileBytes(file) ??
    (isThere(backupOf(file))
      ? { wrong: 'is gone; "pausebook verify --repair" restores its previous copy' }
      : null)
  )
}

/** The files that sync exchanges, and those whose names keep them from it. The copy of a session or of a year of
 * mornings counts if its file is gone; any other missing file may have been deleted by the athlete. */
function pathsOnDisk(home: string): string[] {
  const paths = pathsIn(home, ({ file }) => {
    throw new LogbookError(
      'cannot_sync',
      `The folder ${sanitize(file)} cannot be listed, so what is in it would look deleted. Nothing was exchanged; "pausebook verify" says more.`,
    )
  })
  return [...new Set([...ownTextsIn(home), ...paths, ...storedAmong(paths)])]
    .sort()
    .filter((path) => contentOf(path) !== null || /^prescriptions(?:\/[^./][^/]*)+\.(?:txt|json)$/.test(path))
}

/** Changes the files on the disk from one tree to another, each whole or not at all. It stops at a file that was
 * changed meanwhile, and returns false.
 * @throws LogbookError `locked` for a session that a process is recording */
export function applyToDisk(repository: Repository, from: Tree, to: Tree): boolean {
  const all = [...changesBetween(from, to)]
  // New files first: the second name of a version exists before its old place is overwritten. But a new name follows
  // an old one that differs from it only in case: many file systems take both for one file.
  const deleted = all.filter(([, object]) => object === null)
  const deletedNames = new Set(deleted.map(([path]) => withoutCase(path)))
  const added = all.filter(([path]) => !from.has(path) && !deletedNames.has(withoutCase(path)))
  const changes = new Map([...added, ...deleted, ...all])
  loadTexts(repository, [...changes.values()])
  for (const [path, object] of changes) {
    if (isLinkIn(repository.home, path)) continue
    makeFolder(dirname(join(repository.home, path)))
    const apply = () => isApplied(repository, path, from.get(path), object)
    if (!unlessRecorded(repository.home, path, repository.machine, apply)) return false
  }
  return true
}

/** 0.2 s for a morning that is being saved; a session is recorded for hours. */
const mostTries = 21

/** @throws LogbookError `locked` for a session or a year of mornings that a process is recording */
function unlessRecorded<T>(home: string, path: string, machine: Machine, work: () => T): T {
  if (!isStored(path)) return work()
  const what = contentOf(path) === 'session' ? `The session ${path}` : `The file ${path}`
  return underLock(what, lockPathOf(join(home, path)), machine, work, mostTries)
}

/** Changes one file to what it should become; false, and no change, if it is neither that nor as it was before.
 * @param before the object that it was; undefined without one
 * @param wanted the object that it becomes; null to remove it */
function isApplied(
  repository: Repository,
  path: string,
  before: string | undefined,
  wanted: string | null,
): boolean {
  const { home, machine } = repository
  const file = join(home, path)
  const bytes = readFileBytes(file)
  const object = Buffer.isBuffer(bytes) ? objectOf(bytes) : null
  // Writing it again would replace its previous copy.
  if (object !== null && object === wanted) return true
  const wrong = wrongIn(path, bytes)
  // What nobody can read any more, or what only another version of the program can read and no commit holds.
  const isDamaged = wrong !== null && (wrong.cause === 'ruined' || object !== before)
  const text = wanted === null ? null : bytesOf(repository, wanted)
  if (!isDamaged && object !== null && object !== before) return false
  if (text === null) discard(home, file, machine)
  else if (isDamaged) replaceDamaged(file, text)
  else if (isStored(path)) writeKeepingPrevious(file, text)
  else writeDurably(file, text)
  return true
}

/** Keeps one version of what two machines changed; the others go to the trash.
 * @param name the id of a session; for a day, the plan or the foods, the name of its file, with its ending or without,
 * after the folder below the prescriptions that it is in
 * @returns the names of the others
 * @throws LogbookError `no_such_session` if there is only one version, `damaged` if the one to keep cannot be read,
 * `locked` */
export function keepVersion(home: string, name: string, machine: Machine): string[] {
  const paths = pathsOnDisk(home)
  const othersOf = (kept: string) =>
    paths.filter((path) => path !== kept && originalOf(path) === originalOf(kept))
  const named = paths.filter((path) => [path, belowFolder(path), nameOf(path)].includes(name))
  const kept = named.find((path) => othersOf(path).length > 0)
  if (kept === undefined) {
    const message = `There is no other version of "${clipped(name, 60)}". "pausebook sync" names what is kept twice.`
    throw new LogbookError('no_such_session', message)
  }
  const [base, others] = [originalOf(kept), othersOf(kept)]
  const isSession = contentOf(kept) === 'session'
  if (isSession) refuseDamaged(home, kept)
  // A text gets the name that it had before: the plan is always plan.txt.
  const isRenamed = !isSession && kept !== base
  for (const path of others)
    if (!isRenamed || path !== base)
      unlessRecorded(home, path, machine, () => discard(home, join(home, path), machine))
  if (isRenamed) takeNameOf(home, base, kept, machine)
  return others.map(nameOf)
}

function refuseDamaged(home: string, path: string): void {
  const { damage } = loadStored(home, path, sessionKind(nameOf(path)))
  if (damage === null) return
  const message = `${path} is not kept, since it cannot be read: ${damage.wrong} No version was deleted. "pausebook verify" says more, or keep another version.`
  throw new LogbookError('damaged', message)
}

/** Gives a text the name of its original, which goes to the trash. A file of this name exists at every moment. */
function takeNameOf(home: string, base: string, kept: string, machine: Machine): void {
  const file = join(home, base)
  if (isThere(file)) {
    const place = freePlace(home, basename(base), machine)
    linkBeside(file, place)
    flushFolder(dirname(place))
  }
  renameOver(join(home, kept), file)
  flushFolder(dirname(file))
}

/** The id of a session; the path of any other file below its folder, without its ending. */
export function nameOf(path: string): string {
  const name = belowFolder(path).replace(/\.\w+$/, '')
  return contentOf(path) === 'session' ? name.slice('YYYY/YYYY-MM-DD-'.length) : name
}

function belowFolder(path: string): string {
  return path.slice(path.indexOf('/') + 1)
}

/* What sync deletes goes to trash/YYYY-MM-DD/ in the logbook and stays there for 90 days. Move a file to its old place
 * to bring it back. */

const days = 90
const dayName = /^\d{4}-\d{2}-\d{2}$/

/** Moves a file into the trash and removes its previous copy, or moves that if only the copy is left. */
function discard(home: string, path: string, machine: Machine): void {
  const copy = backupOf(path)
  const last = isThere(path) ? path : copy
  if (last === path) removeFile(copy)
  if (!isThere(last)) return
  const place = freePlace(home, basename(path), machine)
  renameOver(last, place)
  flushFolder(dirname(place))
}

/** Puts the text of a file that is already gone into the trash. */
export function writeToTrash(home: string, name: string, text: string | Uint8Array, machine: Machine): void {
  writeDurably(freePlace(home, name, machine), text)
}

function freePlace(home: string, name: string, machine: Machine): string {
  const folder = join(home, 'trash', todayOf(machine.now()))
  makeFolder(folder)
  return freePath((number) => join(folder, number === 1 ? name : `${name}.${number}`))
}

/** Removes what has been in the trash for 90 days. A folder that is not named for a day, and any folder inside one,
 * belongs to the user. */
export function sweepTrash(home: string, machine: Machine): void {
  const trash = join(home, 'trash')
  if (lstatSync(trash, { throwIfNoEntry: false })?.isDirectory() !== true) return
  const oldest = dayAfter(todayOf(machine.now()), -days)
  for (const day of readdirSync(trash, { withFileTypes: true })) {
    if (!day.isDirectory() || !dayName.test(day.name) || day.name >= oldest) continue
    const folder = join(trash, day.name)
    for (const entry of readdirSync(folder, { withFileTypes: true }))
      if (!entry.isDirectory()) removeFile(join(folder, entry.name))
    if (readdirSync(folder).length === 0) rmdirSync(folder)
  }
}
