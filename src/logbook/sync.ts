import { join } from 'node:path'
import { makeFolder } from './durableWrite.ts'
import { type Git, gitOf } from './git.ts'
import { isLock, lockedError, takeLock } from './lock.ts'
import type { Machine } from './machine.ts'
import { pause } from './pause.ts'
import { commitOf, commitOwn } from './syncCommit.ts'
import { bringToDisk } from './syncDisk.ts'
import { type DuplicateSession, mergedTree } from './syncMerge.ts'
import { fetchFrom, push, remoteHead, unreachable } from './syncRemote.ts'
import {
  headOf,
  moveHead,
  prepareRepository,
  refreshUsersIndex,
  refuseForeign,
  treeAt,
} from './syncRepository.ts'
import { changesBetween, textsOf, treeOf, writeText } from './syncTree.ts'

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
    return synced(gitOf(home, tools.env, tools.mayAsk), home, remote, tools)
  } finally {
    lock.release()
  }
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
  { machine }: SyncTools,
): boolean {
  const branch = fetchFrom(git, remote)
  if (!takeIn(git, home, outcome, machine)) return false
  const sent = push(git, remote, branch)
  const went = movedBy(sent ?? new Map())
  outcome.sent = merged(outcome.sent, went.brought)
  outcome.deletedThere = merged(outcome.deletedThere, went.deleted)
  return sent !== null
}

/** Puts what the remote has together with what is here; false where a file was changed meanwhile. */
function takeIn(git: Git, home: string, outcome: SyncOutcome, machine: Machine): boolean {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (other === null || other === head) return true
  const there = treeOf(git, other)
  refuseForeign(there.foreign, 'The remote')
  const base = head === null ? null : git.ask(['merge-base', head, other])
  if (base === other) return true
  const own = treeAt(git, head)
  const { tree, keptTwice } = mergedTree(treeAt(git, base), own, there.tree, {
    textOf: (object) => textsOf(git, [object]).get(object) ?? '',
    store: (text) => writeText(git, text),
  })
  const added = changesBetween(there.tree, tree)
  const next = added.size === 0 ? other : commitOf(git, tree, other, added.size, machine)
  if (!bringToDisk(git, home, own, tree, machine)) return false
  moveHead(git, next, head)
  const copies = new Set(keptTwice.map((each) => each.own))
  const came = movedBy(changesBetween(own, tree))
  const received = came.brought.filter((path) => !copies.has(path))
  outcome.received = merged(outcome.received, received)
  outcome.deletedHere = merged(outcome.deletedHere, came.deleted)
  outcome.keptTwice.push(...keptTwice)
  return true
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
