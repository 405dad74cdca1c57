import { basename, join } from 'node:path'
import { differencesOf, mergedEvents } from '../plan/morning.ts'
import { sanitize } from '../validate/unsafe.ts'
import { freePath, makeFolder, renameOver } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { type Git, GitFailure, gitOf, gitReason } from './git.ts'
import { lockOrRefuse } from './lock.ts'
import { type Machine, pause } from './machine.ts'
import { parseMornings, printMornings } from './mornings.ts'
import { goesOnFrom, printSession, readSession } from './sessionFile.ts'
import { versionId } from './sessionName.ts'
import { bringToDisk, sweepTrash, writeToTrash } from './syncDisk.ts'
import {
  changesBetween,
  commit,
  fetchFrom,
  keepText,
  loadTexts,
  lockIn,
  moveHead,
  openRepository,
  type Remote,
  type Repository,
  refreshUsersIndex,
  refuseForeign,
  refuseNamesakes,
  type Tree,
  textOf,
  treeAt,
  treeOf,
  treeOnDisk,
} from './syncRepository.ts'

/* Synchronises the logbooks of several machines through a git repository that all of them reach. The logbook stays
 * whole at every step: first what is on the disk is committed; then what comes in is merged in the repository alone;
 * then the files on the disk change one by one, each whole or not at all; the branch moves last. A run that is killed
 * leaves each file as one side or the other has it, which the next run does not take for a conflict. */

export interface SyncOutcome {
  /** Paths that changed on this machine since the last sync. */
  changed: string[]
  received: string[]
  sent: string[]
  /** Paths deleted here because another machine deleted them, and in the remote because this machine did. */
  deletedHere: string[]
  deletedThere: string[]
  keptTwice: DuplicateSession[]
  /** Differences between two machines about the same mornings, one sentence each. The file keeps both, and the later
   * entry counts. */
  mornings: string[]
  /** Sessions whose recorded results another machine has changed. */
  rewritten: RewrittenSession[]
  /** Files that were left out because they cannot be read or are no longer sessions. */
  damaged: string[]
  /** Where a damaged repository was moved before a new one was made; null if it was sound. */
  rebuilt: string | null
}

export interface SyncTools {
  machine: Machine
  env: Readonly<Record<string, string | undefined>>
  /** Git may ask for a password on a terminal. */
  mayAsk: boolean
  /** More than a few sessions may be deleted, here or on the other machines. */
  mayDelete: boolean
}

/** Why the remote has to be asked again, as the end of a sentence, and the maximum number of attempts. */
interface Late {
  why: string
  turns: number
}

const quicker: Late = { why: 'other machines change it all the time', turns: 12 }
const changing: Late = { why: 'files of the logbook change all the time', turns: 12 }

/** Commits the logbook, merges what other machines have pushed to the remote, and pushes what it lacks. A damaged
 * repository is moved away and rebuilt from the disk and the remote.
 * @param remote an address that git knows; null commits only
 * @throws LogbookError `no_git`, `no_remote` when the remote cannot be reached, `not_a_logbook` for a repository
 * with anything else in it, `sessions_gone` if many are missing, `locked` for a session that would change while it is
 * recorded, `cannot_sync` */
export function syncLogbook(home: string, remote: string | null, tools: SyncTools): SyncOutcome {
  const git = gitOf(home, tools.env, tools.mayAsk)
  try {
    makeFolder(home)
    const lock = lockOrRefuse('The sync of this logbook', join(home, 'sync.lock'), tools.machine)
    try {
      sweepTrash(home, tools.machine)
      try {
        return synced(git, home, remote, tools, null)
      } catch (error) {
        if (!isOfDamage(git, error)) throw error
        return synced(git, home, remote, tools, moveAside(home))
      }
    } finally {
      lock.release()
    }
  } catch (error) {
    throw refusalOf(error, home)
  }
}

/** Whether git failed because the repository in the logbook is damaged. */
function isOfDamage(git: Git, error: unknown): boolean {
  const isRemote = error instanceof LogbookError
  const failure = isRemote ? error.cause : error
  if (!(failure instanceof GitFailure)) return false
  const { said } = failure
  if (/no space|permission denied|read-only|quota/i.test(said) || lockIn(said) !== null) return false
  // If only the remote cannot be reached, do not check the whole repository.
  if (isRemote && !/corrupt|missing|invalid|bad (object|tree|ref)|unable to (read|parse|find)/i.test(said))
    return false
  return git.attempt(['fsck', '--connectivity-only', '--no-dangling', '--no-progress']) === null
}

/** @returns the new name of the repository's folder */
function moveAside(home: string): string {
  const path = freePath((number) => join(home, `.git.damaged-${number}`))
  renameOver(join(home, '.git'), path)
  return basename(path)
}

/** An error of git or of the system, as a sentence. Nothing that was saved is affected. */
function refusalOf(error: unknown, home: string): unknown {
  if (error instanceof GitFailure) {
    const lock = lockIn(error.said)
    const advice =
      lock === null
        ? `All sessions are on the disk. If the repository is damaged, rename ${sanitize(join(home, '.git'))} and sync again: it is made again from the disk and the remote.`
        : `A git that was killed left that lock: when no git is running, remove ${sanitize(lock)}.`
    return new LogbookError(
      'cannot_sync',
      `Git cannot work on the logbook: ${sanitize(gitReason(error))}. ${advice}`,
    )
  }
  if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) return error
  return new LogbookError(
    'cannot_sync',
    `The logbook cannot be synchronised: ${reasonOf(error)}. Nothing was lost; make room or change the permissions, and sync again.`,
  )
}

function synced(
  git: Git,
  home: string,
  address: string | null,
  tools: SyncTools,
  rebuilt: string | null,
): SyncOutcome {
  const repository = openRepository(git, home)
  const outcome: SyncOutcome = {
    changed: [],
    received: [],
    sent: [],
    deletedHere: [],
    deletedThere: [],
    keptTwice: [],
    mornings: [],
    rewritten: [],
    damaged: [],
    rebuilt,
  }
  for (let turn = 1; ; turn += 1) {
    const { changed, damaged } = commitOwn(repository, tools)
    outcome.changed = merged(outcome.changed, changed)
    outcome.damaged = damaged
    const late = address === null ? null : exchange(repository, address, outcome, tools)
    refreshUsersIndex(repository)
    if (late === null) return outcome
    if (turn === late.turns) throw unreachable(address ?? '', late.why)
    pause(20 * turn)
  }
}

/** Commits what is on the disk. If a session's file cannot be read, or is no longer a session, the version of the last
 * commit stays.
 * @returns the paths that changed since the last commit, and those of damaged files
 * @throws LogbookError `sessions_gone`, `cannot_sync` for two paths that differ only in case */
function commitOwn(
  repository: Repository,
  { machine, mayDelete }: SyncTools,
): { changed: string[]; damaged: string[] } {
  const { home, head, branch, texts } = repository
  const before = treeAt(repository, head)
  const { tree, unreadable } = treeOnDisk(repository, before)
  const damaged = [...unreadable]
  for (const [path, object] of tree) {
    if (!path.startsWith('sessions/') || before.get(path) === object) continue
    if (readSession(texts.get(object)?.toString('utf8') ?? '', null).outcome !== 'session') damaged.push(path)
  }
  for (const path of damaged) {
    const last = before.get(path)
    if (last === undefined) tree.delete(path)
    else tree.set(path, last)
  }
  refuseNamesakes(tree)
  const changes = changesBetween(before, tree)
  if (!mayDelete) refuseManyGone(before, changes, (gone, all) => goneHere(home, gone, all))
  if (changes.size > 0) {
    keepDeleted(repository, before, changes, machine)
    const made = commit(repository, head, changes, branch, machine)
    if (branch === null) moveHead(repository, made)
    repository.head = made
  }
  return { changed: [...changes.keys()], damaged: damaged.sort() }
}

/** People delete a few files by hand. A missing folder, or one that another program emptied, must not empty the
 * logbooks of all machines, nor an emptied remote this one. */
const fewGone = 3

/** @param refusal the error for this many of all sessions
 * @throws what `refusal` returns if more than a handful are deleted */
function refuseManyGone(
  before: Tree,
  changes: ReadonlyMap<string, string | null>,
  refusal: (gone: number, all: number) => LogbookError,
): void {
  const isSession = (path: string) => path.startsWith('sessions/')
  const all = [...before.keys()].filter(isSession).length
  const gone = [...changes].filter(([path, object]) => object === null && isSession(path)).length
  if (gone > fewGone) throw refusal(gone, all)
}

function goneHere(home: string, gone: number, all: number): LogbookError {
  return new LogbookError(
    'sessions_gone',
    `${gone} of the ${all} sessions that were here at the last sync are gone. Bring them back with "git -C ${sanitize(home)} checkout -- sessions", or delete them on the other machines too with "pausebook sync --delete".`,
  )
}

/** Puts into the trash what was deleted here and will be deleted on the other machines. */
function keepDeleted(
  repository: Repository,
  before: Tree,
  changes: ReadonlyMap<string, string | null>,
  machine: Machine,
): void {
  const gone = [...changes].flatMap(([path, object]) => (object === null ? [path] : []))
  const objects = gone.map((path) => before.get(path))
  loadTexts(repository, objects)
  for (const [index, path] of gone.entries()) {
    const bytes = repository.texts.get(objects[index] ?? '')
    if (bytes !== undefined) writeToTrash(repository.home, path.split('/').at(-1) ?? path, bytes, machine)
  }
}

/** Merges what the remote has and pushes what it lacks; null when done.
 * @throws LogbookError `no_remote` */
function exchange(
  repository: Repository,
  address: string,
  outcome: SyncOutcome,
  tools: SyncTools,
): Late | null {
  let remote: Remote
  try {
    remote = fetchFrom(repository, address)
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(address, gitReason(error), error)
    throw error
  }
  if (!takeIn(repository, remote, outcome, tools)) return changing
  const { git, head } = repository
  if (head === null || head === remote.commit) return null
  try {
    git.run(['push', '--quiet', '--', address, `${head}:refs/heads/${remote.branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    const lock = lockIn(error.said)
    if (lock !== null)
      return {
        why: `a git that was killed has left a lock in it. When no git is running there, remove ${sanitize(lock)}`,
        turns: 5,
      }
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.said)) return quicker
    throw unreachable(address, gitReason(error), error)
  }
  const went = movedBy(changesBetween(treeAt(repository, remote.commit), treeAt(repository, head)))
  outcome.sent = merged(outcome.sent, went.brought)
  outcome.deletedThere = merged(outcome.deletedThere, went.deleted)
  return null
}

/** @param why the end of a sentence */
function unreachable(address: string, why: string, cause?: GitFailure): LogbookError {
  const message = `The remote ${sanitize(address)} cannot be synchronised: ${why}. What was done here is committed and whole; sync again once it can be reached.`
  // A password in an address must not reach a screen.
  return new LogbookError('no_remote', message.replace(/:\/\/[^@/\s]+@/g, '://'), { cause })
}

/** Merges what the remote has with what is here; false if a file changed meanwhile. */
function takeIn(
  repository: Repository,
  { commit: other, base }: Remote,
  outcome: SyncOutcome,
  { machine, mayDelete }: SyncTools,
): boolean {
  if (other === null || other === repository.head) return true
  const there = treeOf(repository, other)
  refuseForeign(there.foreign, 'The remote')
  if (base === other) return true
  const own = treeAt(repository, repository.head)
  const before = treeAt(repository, base)
  loadTexts(repository, textsToCompare(before, own, there.tree))
  const { tree, keptTwice, mornings } = mergedTree(before, own, there.tree, {
    textOf: (object) => textOf(repository, object),
    store: (text) => keepText(repository, text),
  })
  refuseNamesakes(tree)
  const added = changesBetween(there.tree, tree)
  const next = added.size === 0 ? other : commit(repository, other, added, null, machine)
  const changes = changesBetween(own, tree)
  if (!mayDelete) refuseManyGone(own, changes, goneThere)
  const twice = new Set(keptTwice.map(({ path }) => path))
  const rewritten = rewrittenIn(repository, own, changes).filter(({ path }) => !twice.has(path))
  if (!bringToDisk(repository, own, tree, machine)) return false
  outcome.rewritten.push(...rewritten)
  moveHead(repository, next)
  const copies = new Set(keptTwice.map((each) => each.own))
  const came = movedBy(changes)
  const received = came.brought.filter((path) => !copies.has(path))
  outcome.received = merged(outcome.received, received)
  outcome.deletedHere = merged(outcome.deletedHere, came.deleted)
  outcome.keptTwice.push(...keptTwice)
  outcome.mornings = merged(outcome.mornings, mornings)
  return true
}

/** The objects that a merge will read: whatever another machine changed, and the local files in those places. */
function textsToCompare(before: Tree, own: Tree, other: Tree): (string | null | undefined)[] {
  return [...changesBetween(before, other)].flatMap(([path, object]) => [object, own.get(path)])
}

function goneThere(gone: number, all: number): LogbookError {
  return new LogbookError(
    'sessions_gone',
    `Another machine has deleted ${gone} of the ${all} sessions. Nothing was deleted here. Let it be done with "pausebook sync --delete"; what is deleted stays in the logbook's trash for 90 days.`,
  )
}

/** A session whose recorded events another machine has changed, with the first fields that differ. */
export interface RewrittenSession {
  path: string
  fields: string[]
}

const mostFields = 5

function rewrittenIn(
  repository: Repository,
  own: Tree,
  changes: ReadonlyMap<string, string | null>,
): RewrittenSession[] {
  const pairs = [...changes].flatMap(([path, object]) => {
    const before = own.get(path)
    return object === null || before === undefined || !path.startsWith('sessions/')
      ? []
      : [{ path, object, before }]
  })
  loadTexts(
    repository,
    pairs.flatMap(({ object, before }) => [object, before]),
  )
  return pairs.flatMap(({ path, object, before }) => {
    const [was, is] = [before, object].map((each) => readSession(textOf(repository, each), null))
    if (was?.outcome !== 'session' || is?.outcome !== 'session' || goesOnFrom(is.session, was.session))
      return []
    const fields = differencesBetween(was.session.events, is.session.events, 'event')
    return [{ path, fields: fields.length > 0 ? fields.slice(0, mostFields) : ['its prescription'] }]
  })
}

/** `event 3 result.reps: 5 -> 8` */
function differencesBetween(was: unknown, is: unknown, place: string): string[] {
  if (typeof was !== 'object' || typeof is !== 'object' || was === null || is === null)
    return was === is
      ? []
      : [`${place}: ${JSON.stringify(was) ?? 'nothing'} -> ${JSON.stringify(is) ?? 'nothing'}`]
  const keys = [...new Set([...Object.keys(was), ...Object.keys(is)])]
  return keys.flatMap((key) => {
    const name = Array.isArray(was) ? `${place} ${Number(key) + 1}` : `${place}.${key}`
    const [one, other] = [was, is].map((value) => (value as Record<string, unknown>)[key])
    return differencesBetween(one, other, name)
  })
}

function movedBy(changes: ReadonlyMap<string, string | null>): { brought: string[]; deleted: string[] } {
  const paths = [...changes.keys()]
  return {
    brought: paths.filter((path) => changes.get(path) !== null),
    deleted: paths.filter((path) => changes.get(path) === null),
  }
}

function merged(paths: readonly string[], more: Iterable<string>): string[] {
  return [...new Set([...paths, ...more])].sort()
}

/** A file that changed on two machines, and where its two versions are. */
export interface DuplicateSession {
  /** With the version of the other machine. */
  path: string
  /** With the version of this machine. */
  own: string
}

export interface Merged {
  tree: Tree
  keptTwice: DuplicateSession[]
  /** Differences between two machines about the same mornings. */
  mornings: string[]
}

export interface MergeTools {
  textOf(object: string): string
  /** Stores a text and returns the object that holds it. */
  store(text: string): string
}

/** Merges two states of a logbook with a common ancestor. A file that only one machine changed is taken from that
 * machine; a file deleted on one and changed on the other is kept. If only one machine continued a session, the longer
 * one counts. Anything else that both changed is kept twice: nothing is ever mixed within a file, and a file that is
 * not a session never replaces one. */
export function mergedTree(before: Tree, own: Tree, other: Tree, tools: MergeTools): Merged {
  const changedHere = changesBetween(before, own)
  const changedThere = changesBetween(before, other)
  const tree = new Map(other)
  const keptTwice: DuplicateSession[] = []
  const mornings: string[] = []
  // The name may hold the very same text already, from a run that was cut off.
  const isTaken = (path: string, object: string) =>
    [own, tree].some((each) => each.has(path) && each.get(path) !== object)
  for (const [path, object] of changedHere) {
    const there = changedThere.get(path)
    if (there === undefined || there === null) {
      if (object !== null) tree.set(path, object)
      else if (there === undefined) tree.delete(path)
      continue
    }
    if (object === null || object === there) continue
    const both = path.startsWith('mornings/') ? bothMornings(tools.textOf(object), tools.textOf(there)) : null
    if (both !== null) {
      tree.set(path, tools.store(both.text))
      mornings.push(...both.differences)
      continue
    }
    const outcome = bothOf(path, object, tools.textOf(object), tools.textOf(there), isTaken)
    if (outcome === 'own') tree.set(path, object)
    else if (outcome !== 'other') {
      tree.set(outcome.path, outcome.text === null ? object : tools.store(outcome.text))
      keptTwice.push({ path, own: outcome.path })
    }
  }
  for (const [path, object] of changedThere) {
    const here = own.get(path)
    if (object === null || here === undefined || changedHere.has(path)) continue
    if (isRuin(path, object, here, tools)) tree.set(path, here)
  }
  return { tree, keptTwice, mornings }
}

/** Merges the entries of two machines in one year of mornings; null if one of the two texts cannot be read. */
function bothMornings(own: string, other: string): { text: string; differences: string[] } | null {
  const [mine, theirs] = [parseMornings(own), parseMornings(other)]
  if (!('events' in mine) || !('events' in theirs)) return null
  return {
    text: printMornings(mergedEvents(mine.events, theirs.events)),
    differences: differencesOf(mine.events, theirs.events),
  }
}

/** Whether a session is no longer JSON: only a disk or a person does that. A format that this program cannot
 * read, such as a newer one, does not count. */
function isRuin(path: string, object: string, here: string, { textOf }: MergeTools): boolean {
  if (!path.startsWith('sessions/')) return false
  const theirs = readSession(textOf(object), null)
  return (
    theirs.outcome === 'wrong' && theirs.isRuined && readSession(textOf(here), null).outcome === 'session'
  )
}

type Outcome = 'own' | 'other' | { path: string; text: string | null }

function bothOf(
  path: string,
  object: string,
  own: string,
  other: string,
  isTaken: (path: string, object: string) => boolean,
): Outcome {
  if (!path.startsWith('sessions/'))
    return { path: freeName(path, (name) => isTaken(name, object)), text: null }
  const [mine, theirs] = [readSession(own, null), readSession(other, null)]
  if (theirs.outcome === 'wrong' && theirs.isRuined) return 'own'
  if (mine.outcome === 'wrong') return 'other'
  // Keep a version that only this program cannot read under another name.
  if (theirs.outcome === 'session') {
    if (goesOnFrom(mine.session, theirs.session)) return 'own'
    if (goesOnFrom(theirs.session, mine.session)) return 'other'
  }
  // Derived from the text, so that the next run after one that was cut off gives the same id.
  const id = versionId(mine.session.id, own)
  const [, folder = '', date = ''] = /^(.*\/)(\d{4}-\d{2}-\d{2})-/.exec(path) ?? []
  return { path: `${folder}${date}-${id}.json`, text: printSession({ ...mine.session, id }) }
}

/** `push.txt`, `push-2.txt` and so on, the first that is free. */
function freeName(path: string, isTaken: (path: string) => boolean): string {
  const [, name = path, ending = ''] = /^(.*)(\.\w+)$/.exec(path) ?? []
  for (let number = 2; ; number += 1) {
    const free = `${name}-${number}${ending}`
    if (!isTaken(free)) return free
  }
}
