import { group, sort } from 'd3-array'
import { differencesBetween } from '../plan/morning.ts'
import type { MorningEvent } from '../plan/morningModel.ts'
import type { Session } from '../session/model.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type Damage, LogbookError } from './errors.ts'
import { contentOf, originalOf } from './logbookFiles.ts'
import { morningsKind } from './mornings.ts'
import { asVersion, printSession, sessionKind } from './sessionFile.ts'
import { type ExchangedKind, type Reading, readStored, type Wrong } from './storedFile.ts'
import {
  bytesOf,
  changesBetween,
  keepText,
  loadTexts,
  type Repository,
  type Tree,
  withoutCase,
} from './syncRepository.ts'
import type { Unreadable } from './text.ts'

/** A file that changed on two machines, and where its two versions are. */
export interface KeptTwice {
  /** With the version of the other machine. */
  path: string
  /** With the version of this machine. */
  own: string
}

interface Merged {
  tree: Map<string, string>
  keptTwice: KeptTwice[]
  /** How the two machines differ about the same mornings. */
  mornings: string[]
  /** Files from which the other machine has taken recorded results. */
  rewritten: string[]
  /** Files that both have, one of which cannot be read and was left out. */
  damages: Damage[]
}

type Merge = Merged & { own: Tree; repository: Repository }

/** Merges two states of a logbook with a common ancestor, in the repository alone. A file that only one machine changed
 * is taken from that machine; a file deleted on one and changed on the other is kept. Of a session, and of a year of
 * mornings, what both machines recorded comes into one file. Anything else that both changed is kept twice, and nothing
 * that cannot be read replaces what can. If each machine kept a different version of a session and deleted the rest,
 * what either kept stays. Results and mornings that a change has lost are put back.
 * @throws LogbookError `cannot_sync` for a file that both changed and only a newer program can read */
export function mergedTree(repository: Repository, before: Tree, own: Tree, other: Tree): Merged {
  const changed = [...changesBetween(before, other)]
  loadTexts(
    repository,
    changed.flatMap(([path, object]) => [object, own.get(path)]),
  )
  const isWanted = ([path, object]: [string, string]) => own.has(path) || before.get(path) !== object
  const tree = new Map([...other].filter(isWanted))
  const merge: Merge = { tree, keptTwice: [], mornings: [], rewritten: [], damages: [], own, repository }
  for (const [path, here] of own) {
    const [was, there] = [before.get(path), other.get(path)]
    if (there === here) continue
    if (there === was || (there === undefined && here !== was)) tree.set(path, here)
    else if (there !== undefined) mergeFile(merge, path, here, there, here === was)
  }
  separateNamesakes(merge)
  const gone = [...before.keys()].filter((path) => !own.has(path))
  for (const family of new Set(gone.map(originalOf))) keepSomeVersion(merge, family, other)
  const { keptTwice, mornings, rewritten, damages } = merge
  return { tree, keptTwice, mornings, rewritten, damages }
}

/** @param isOnlyTheirs the other machine alone has changed the file, perhaps by ruining it or by restoring an old copy */
function mergeFile(merge: Merge, path: string, here: string, there: string, isOnlyTheirs: boolean): void {
  const { tree, mornings, rewritten, damages, repository } = merge
  const kind = kindOf(path)
  if (kind === null) {
    if (!isOnlyTheirs) keepBeside(merge, path, freeName(merge, path, here), here)
    return
  }
  const mine = readStored(bytesOf(repository, here), kind)
  const theirs = readStored(bytesOf(repository, there), kind)
  if (!isOnlyTheirs) refuseNewer(path, [mine, theirs])
  if ('wrong' in theirs) {
    if (theirs.cause === 'newer') return
    tree.set(path, here)
    damages.push(leftOut(path, `In the remote the file ${theirs.wrong}.`))
    return
  }
  if ('wrong' in mine) {
    if (!isOnlyTheirs) damages.push(leftOut(path, `The file ${mine.wrong}.`))
    return
  }
  const union = kind.union(theirs.value, mine.value)
  if (union === theirs.value) return
  // Results, mornings and undos are only ever added, so what is missing was lost, as when a repair restores an old
  // copy. A text without a checksum was changed by hand and counts as it is.
  if (isOnlyTheirs && (union === null || !theirs.isSealed)) {
    rewritten.push(path)
    return
  }
  if (kind === morningsKind)
    mornings.push(...differencesBetween(mine.value as MorningEvent[], theirs.value as MorningEvent[]))
  if (union !== null) {
    tree.set(path, union === mine.value ? here : keepText(repository, kind.print(union)))
    return
  }
  // Its id is derived from its text, so that the next run after one that was cut off gives the same id.
  const version = asVersion(mine.value as Session)
  const beside = path.replace(/(\d{4}-\d{2}-\d{2}-)[^/]+$/, `$1${version.id}.json`)
  keepBeside(merge, path, beside, keepText(repository, printSession(version)))
}

/** A file that is not exchanged. @param wrong a sentence */
export function leftOut(path: string, wrong: string): Damage {
  return { file: sanitize(path), wrong, done: 'It was left out.' }
}

function refuseNewer(path: string, readings: readonly Reading<unknown>[]): void {
  for (const reading of readings)
    if ('wrong' in reading && reading.cause === 'newer') {
      const message = `Two machines have changed ${path}, and one of the two files ${reading.wrong}. Update Pausebook on this machine and sync again. No file was changed.`
      throw new LogbookError('cannot_sync', message)
    }
}

/** Keeps the version of this machine under a name of its own, beside that of the other machine. */
function keepBeside({ tree, keptTwice }: Merge, path: string, own: string, object: string): void {
  tree.set(own, object)
  keptTwice.push({ path, own })
}

/** Two days whose names differ only in case are one file to macOS and Windows: two versions of one day. */
function separateNamesakes(merge: Merge): void {
  const { tree, own } = merge
  const days = [...tree.keys()].filter((path) => contentOf(path) === 'prescription')
  for (const names of group(days, withoutCase).values()) {
    const [theirs = '', ...others] = sort(names, (path) => Number(own.has(path)))
    for (const path of others) {
      const object = tree.get(path) ?? ''
      tree.delete(path)
      if (object !== tree.get(theirs)) keepBeside(merge, theirs, freeName(merge, theirs, object), object)
    }
  }
}

/** If all versions of a session are gone, because each machine kept a different one, what either kept stays. */
function keepSomeVersion({ tree, keptTwice, own }: Merge, family: string, other: Tree): void {
  if (versionsIn(tree, family).length > 0) return
  const [mine, theirs] = [versionsIn(own, family), versionsIn(other, family)]
  const [[path] = []] = theirs
  if (path === undefined || mine.length === 0) return
  for (const [each, object] of [...mine, ...theirs]) tree.set(each, object)
  keptTwice.push(...mine.map(([each]) => ({ path, own: each })))
}

function versionsIn(tree: Tree, family: string): [path: string, object: string][] {
  return [...tree].filter(([path]) => originalOf(path) === family)
}

/** The kind of a file whose versions can be compared; null for the texts that sync only copies. */
function kindOf(path: string): ExchangedKind<unknown> | null {
  const content = contentOf(path)
  return content === 'session' ? sessionKind(null) : content === 'mornings' ? morningsKind : null
}

/** What is wrong with a session or a year of mornings, as the end of a sentence; null if nothing is, and for the texts
 * that sync only copies.
 * @param bytes or why the file cannot be read; null without a file */
export function wrongIn(path: string, bytes: Buffer | Unreadable | null): Wrong<unknown> | null {
  if (!Buffer.isBuffer(bytes)) return bytes
  const kind = kindOf(path)
  const reading = kind && readStored(bytes, kind)
  return reading && 'wrong' in reading ? reading : null
}

/** `push-version-2.txt` for `push.txt` and its versions, and so on, the first that is free; `plan-2.txt` for the plan. */
function freeName({ tree, own }: Merge, path: string, here: string): string {
  const [, name = path, ending = ''] = /^(.*)(\.\w+)$/.exec(originalOf(path)) ?? []
  const between = contentOf(path) === 'text' ? '-' : '-version-'
  for (let number = 2; ; number += 1) {
    const free = `${name}${between}${number}${ending}`
    // The name may hold the very same text already, from a run that was cut off.
    if ([own, tree].every((each) => !each.has(free) || each.get(free) === here)) return free
  }
}
