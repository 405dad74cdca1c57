import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { differencesOf, mergedEvents } from '../plan/morning.ts'
import { sanitize } from '../validate/unsafe.ts'
import { backupOf, makeFolder } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { type Git, GitFailure, gitOf, gitReason } from './git.ts'
import { isLock, lockedError, pause, takeLock } from './lock.ts'
import type { Machine } from './machine.ts'
import { parseMornings, printMornings } from './mornings.ts'
import { goesOnFrom, printSession, readSession } from './sessionFile.ts'
import { sessionEntriesOf, versionId, versionOf } from './sessionName.ts'
import { bringToDisk } from './syncDisk.ts'
import {
  changesBetween,
  commitOf,
  commitOwn,
  headOf,
  moveHead,
  prepareRepository,
  refreshUsersIndex,
  refuseForeign,
  refuseManyGone,
  type Tree,
  textsOf,
  treeAt,
  treeOf,
  withRetries,
  writeText,
} from './syncRepository.ts'
import { moveToTrash, sweepTrash } from './trash.ts'

/* Sync keeps the logbooks of several machines in step through a git repository that all of them reach. Every step
 * leaves the logbook whole: what is on the disk is committed first; what comes in is put together with it off to
 * the side, in the repository alone; then the files are brought up to it one by one, each whole or not at all; only
 * then does the branch move. A run that is killed anywhere in between leaves files that are as the one or the other
 * side has them, which the next run finds to be no conflict. */

export interface SyncOutcome {
  /** Paths that were changed on this machine since the last time. */
  changed: string[]
  /** Paths that came, and that went. */
  received: string[]
  sent: string[]
  /** Paths that were deleted here because another machine did, and in the remote because this one did. */
  deletedHere: string[]
  deletedThere: string[]
  keptTwice: DuplicateSession[]
  /** What two machines said differently of the same mornings, a sentence each; both words are kept in the file and the
   * one that was typed later counts. */
  mornings: string[]
  /** Sessions of which another machine has changed what was recorded. */
  rewritten: RewrittenSession[]
  /** Files that are no session any more and were left out. */
  damaged: string[]
}

export interface SyncTools {
  machine: Machine
  env: Readonly<Record<string, string | undefined>>
  /** There is a terminal on which git may ask for a password. */
  mayAsk: boolean
  /** Most sessions may be deleted on the other machines, because they are gone here. */
  mayDelete: boolean
}

const mostTurns = 12

/** Commits the logbook, takes in what other machines have put into the remote, and puts in what it lacks.
 * @param remote an address that git knows; null commits only
 * @throws LogbookError `no_git`, `no_remote` when the remote cannot be reached, `not_a_logbook` for a repository
 * with anything else in it, `sessions_gone` where most are, `locked` for a session that would change while it is recorded */
export function syncLogbook(home: string, remote: string | null, tools: SyncTools): SyncOutcome {
  makeFolder(home)
  const path = join(home, 'sync.lock')
  const lock = takeLock(path, tools.machine)
  if (!isLock(lock)) throw lockedError('The sync of this logbook', path, lock)
  try {
    sweepTrash(home, tools.machine)
    return synced(gitOf(home, tools.env, tools.mayAsk), home, remote, tools)
  } catch (error) {
    throw refusalOf(error, home)
  } finally {
    lock.release()
  }
}

/** What git or the system refuses, as a sentence: nothing that was saved is touched by it. */
function refusalOf(error: unknown, home: string): unknown {
  if (error instanceof GitFailure) {
    const lock = /'(.+\.lock)'/.exec(error.said)?.[1]
    const advice =
      lock === undefined
        ? `All sessions are on the disk. Where the repository is damaged, rename ${sanitize(join(home, '.git'))} and sync again: it is made anew from the disk and the remote.`
        : `A git that was killed left it: where none is running, remove ${sanitize(lock)}.`
    return new LogbookError(
      'cannot_sync',
      `Git cannot work on the logbook: ${sanitize(gitReason(error))}. ${advice}`,
    )
  }
  if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) return error
  return new LogbookError(
    'cannot_sync',
    `The logbook cannot be kept in step: ${reasonOf(error)}. Nothing was lost; make room or change the permissions, and sync again.`,
  )
}

function synced(git: Git, home: string, remote: string | null, tools: SyncTools): SyncOutcome {
  prepareRepository(git, home)
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
  }
  for (let turn = 1; ; turn += 1) {
    const { changed, damaged } = commitOwn(git, home, tools.machine, tools.mayDelete)
    outcome.changed = merged(outcome.changed, changed)
    outcome.damaged = damaged
    const isDone = remote === null || exchanged(git, home, remote, outcome, tools)
    refreshUsersIndex(git)
    if (isDone || remote === null) return outcome
    if (turn === mostTurns) throw unreachable(remote, 'other machines change it all the time')
    pause(20 * turn)
  }
}

/** False where a file was changed meanwhile, or another machine was quicker: once more, then. */
function exchanged(
  git: Git,
  home: string,
  remote: string,
  outcome: SyncOutcome,
  { machine, mayDelete }: SyncTools,
): boolean {
  const branch = fetchFrom(git, remote)
  if (!takeIn(git, home, outcome, machine, mayDelete)) return false
  const sent = push(git, remote, branch)
  const went = movedBy(sent ?? new Map())
  outcome.sent = merged(outcome.sent, went.brought)
  outcome.deletedThere = merged(outcome.deletedThere, went.deleted)
  return sent !== null
}

/** Puts what the remote has together with what is here; false where a file was changed meanwhile. */
function takeIn(git: Git, home: string, outcome: SyncOutcome, machine: Machine, mayDelete: boolean): boolean {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (other === null || other === head) return true
  const there = treeOf(git, other)
  refuseForeign(there.foreign, 'The remote')
  const base = head === null ? null : git.ask(['merge-base', head, other])
  if (base === other) return true
  const own = treeAt(git, head)
  const { tree, keptTwice, mornings } = mergedTree(treeAt(git, base), own, there.tree, {
    textOf: (object) => textsOf(git, [object]).get(object) ?? '',
    store: (text) => writeText(git, text),
  })
  const added = changesBetween(there.tree, tree)
  const next = added.size === 0 ? other : commitOf(git, tree, other, added.size, machine)
  const changes = changesBetween(own, tree)
  if (!mayDelete) refuseManyGone(own, changes, goneThere)
  const twice = new Set(keptTwice.map(({ path }) => path))
  const rewritten = rewrittenIn(git, own, changes).filter(({ path }) => !twice.has(path))
  if (!bringToDisk(git, home, own, tree, machine)) return false
  outcome.rewritten.push(...rewritten)
  moveHead(git, next, head)
  const copies = new Set(keptTwice.map((each) => each.own))
  const came = movedBy(changes)
  const received = came.brought.filter((path) => !copies.has(path))
  outcome.received = merged(outcome.received, received)
  outcome.deletedHere = merged(outcome.deletedHere, came.deleted)
  outcome.keptTwice.push(...keptTwice)
  outcome.mornings = merged(outcome.mornings, mornings)
  return true
}

function goneThere(gone: number, all: number): LogbookError {
  return new LogbookError(
    'sessions_gone',
    `Another machine has deleted ${gone} of the ${all} sessions. Nothing was deleted here. Let it be done with "pausebook sync --delete"; what is deleted stays in the logbook's trash for 90 days.`,
  )
}

/** A session whose recorded events another machine has changed, and the first fields that differ. */
export interface RewrittenSession {
  path: string
  fields: string[]
}

const mostFields = 5

function rewrittenIn(git: Git, own: Tree, changes: ReadonlyMap<string, string | null>): RewrittenSession[] {
  const pairs = [...changes].flatMap(([path, object]) => {
    const before = own.get(path)
    return object === null || before === undefined || !path.startsWith('sessions/')
      ? []
      : [{ path, object, before }]
  })
  const texts = textsOf(
    git,
    pairs.flatMap(({ object, before }) => [object, before]),
  )
  return pairs.flatMap(({ path, object, before }) => {
    const [was, is] = [before, object].map((each) => readSession(texts.get(each) ?? '', null))
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

/** Keeps one version of a session that two machines changed; the others go to the trash.
 * @returns the ids of those that went
 * @throws LogbookError `no_such_session` for a session of which there is one version, `locked` */
export function keepVersion(home: string, id: string, machine: Machine): string[] {
  const entries = sessionEntriesOf(home)
  const base = versionOf(id) ?? id
  const family = entries.filter((entry) => entry.id === base || versionOf(entry.id) === base)
  const others = family.filter((entry) => entry.id !== id)
  if (others.length === family.length || others.length === 0) {
    const message = `There is no other version of the session "${sanitize(id.slice(0, 60))}". "pausebook history" names those that are kept twice.`
    throw new LogbookError('no_such_session', message)
  }
  for (const { id: other, path } of others) {
    const lock = takeLock(`${path}.lock`, machine)
    if (!isLock(lock)) throw lockedError(`The session ${other}`, `${path}.lock`, lock)
    try {
      rmSync(backupOf(path), { force: true })
      moveToTrash(home, path, machine)
    } finally {
      lock.release()
    }
  }
  return others.map((entry) => entry.id)
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

/** A file that was changed on two machines, and where the two versions are. */
export interface DuplicateSession {
  /** With the version of the other machine. */
  path: string
  /** With the version of this machine. */
  own: string
}

export interface Merged {
  tree: Tree
  keptTwice: DuplicateSession[]
  /** What two machines said differently of the same mornings. */
  mornings: string[]
}

export interface MergeTools {
  textOf(object: string): string
  /** Puts a text away; the object that holds it. */
  store(text: string): string
}

/** Two states of a logbook that came from one put together. Files that only one machine changed are as that machine has
 * them; one that was deleted on one and changed on the other is kept. A session that went on on one machine
 * only, from where the other has it, is the longer one. All else that both changed is kept twice: nothing
 * is ever mixed within a file, and what is no session never takes the place of one. */
export function mergedTree(before: Tree, own: Tree, other: Tree, tools: MergeTools): Merged {
  const changedHere = changesBetween(before, own)
  const changedThere = changesBetween(before, other)
  const tree = new Map(other)
  const keptTwice: DuplicateSession[] = []
  const mornings: string[] = []
  // A name that holds the very same text was given by a run that was cut off.
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

/** The words of two machines in one year of mornings; null where one of the two texts cannot be read. */
function bothMornings(own: string, other: string): { text: string; differences: string[] } | null {
  const [mine, theirs] = [parseMornings(own), parseMornings(other)]
  if (!('events' in mine) || !('events' in theirs)) return null
  return {
    text: printMornings(mergedEvents(mine.events, theirs.events)),
    differences: differencesOf(mine.events, theirs.events),
  }
}

/** Whether a session has become no JSON at all: no program writes that, a disk or a hand does. What only this
 * program cannot read, as a newer one's format, is none. */
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
  // What only this program cannot read is kept beside.
  if (theirs.outcome === 'session') {
    if (goesOnFrom(mine.session, theirs.session)) return 'own'
    if (goesOnFrom(theirs.session, mine.session)) return 'other'
  }
  // Of the text, so that a run after one that was cut off gives the same.
  const id = versionId(mine.session.id, own)
  const [, folder = '', date = ''] = /^(.*\/)(\d{4}-\d{2}-\d{2})-/.exec(path) ?? []
  return { path: `${folder}${date}-${id}.json`, text: printSession({ ...mine.session, id }) }
}

/** `push.txt`, `push-2.txt` and so on, the first that nobody has. */
function freeName(path: string, isTaken: (path: string) => boolean): string {
  const [, name = path, ending = ''] = /^(.*)(\.\w+)$/.exec(path) ?? []
  for (let number = 2; ; number += 1) {
    const free = `${name}-${number}${ending}`
    if (!isTaken(free)) return free
  }
}

const remoteRef = 'refs/pausebook/remote'

/** Fetches what the remote has; the branch that the logbook is on there. */
export function fetchFrom(git: Git, remote: string): string {
  try {
    const heads = git.run(['ls-remote', '--heads', '--', remote]).split('\n')
    const names = heads.flatMap((line) => /\trefs\/heads\/(.+)$/.exec(line)?.[1] ?? [])
    const branch = ['main', 'master'].find((name) => names.includes(name)) ?? names[0] ?? 'main'
    const fetch = ['fetch', '--quiet', '--no-tags', '--', remote, `+refs/heads/${branch}:${remoteRef}`]
    withRetries(() => git.run(names.length === 0 ? ['update-ref', '-d', remoteRef] : fetch))
    return branch
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(remote, gitReason(error))
    throw error
  }
}

/** @param why the end of a sentence */
export function unreachable(remote: string, why: string): LogbookError {
  const message = `The remote ${sanitize(remote)} cannot be kept in step: ${why}. What was done here is committed and whole; sync again once it can be reached.`
  // A password in an address is nothing for a screen.
  return new LogbookError('no_remote', message.replace(/:\/\/[^@/\s]+@/g, '://'))
}

/** The remote's commit as it was last fetched; null where it has none. */
export function remoteHead(git: Git): string | null {
  return git.ask(['rev-parse', '--verify', '--quiet', `${remoteRef}^{commit}`])
}

/** Puts what is here into the remote; what changed there by it, or null where another machine was quicker. */
export function push(git: Git, remote: string, branch: string): Map<string, string | null> | null {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (head === null || head === other) return new Map()
  try {
    git.run(['push', '--quiet', '--', remote, `${head}:refs/heads/${branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.said)) return null
    throw unreachable(remote, gitReason(error))
  }
  withRetries(() => git.run(['update-ref', remoteRef, head]))
  return changesBetween(treeAt(git, other), treeAt(git, head))
}
