import { join } from 'node:path'
import { makeFolder } from './durableWrite.ts'
import { LogbookError } from './errors.ts'
import { type Git, GitFailure, gitOf, gitReason } from './git.ts'
import { isLock, lockedError, takeLock } from './lock.ts'
import type { Machine } from './machine.ts'
import { printableOf } from './printable.ts'
import { readSession } from './readSession.ts'
import { bringToDisk } from './syncDisk.ts'
import { type KeptTwice, mergedTree } from './syncMerge.ts'
import {
  headOf,
  moveHead,
  pause,
  prepareRepository,
  refuseForeign,
  treeAt,
  treeOnDisk,
} from './syncRepository.ts'
import { changesBetween, type Tree, textsOf, treeOf, writeText, writeTree } from './syncTree.ts'

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
  keptTwice: KeptTwice[]
  /** Files that are no session any more and were left out. */
  damaged: string[]
}

export interface SyncTools {
  machine: Machine
  env: Readonly<Record<string, string | undefined>>
  /** There is a terminal on which git may ask for a password. */
  mayAsk: boolean
}

const mostTurns = 12
const remoteRef = 'refs/pausebook/remote'

/** Commits the logbook, takes in what other machines have put into the remote, and puts in what it lacks.
 * @param remote an address that git knows; null commits only
 * @throws LogbookError `no_git`, `no_remote` when the remote cannot be reached, `not_a_logbook` for a repository
 * with anything else in it, `locked` for a session that would change while it is recorded */
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
  const outcome: SyncOutcome = { changed: [], received: [], sent: [], keptTwice: [], damaged: [] }
  for (let turn = 1; ; turn += 1) {
    commitOwn(git, home, outcome, tools)
    const branch = remote === null ? '' : fetchFrom(git, remote)
    const isDone =
      remote === null || (takeIn(git, home, outcome, tools) && push(git, remote, branch, outcome))
    // For the user's own git only, which would otherwise see other files than those there are.
    if (headOf(git) !== null) git.ask(['read-tree', 'HEAD'])
    if (isDone || remote === null) return outcome
    if (turn === mostTurns) throw unreachable(remote, 'other machines change it all the time')
    pause(20 * turn)
  }
}

/** Commits what is on the disk. A session's file that is none any more is left as the last commit has it. */
function commitOwn(git: Git, home: string, outcome: SyncOutcome, tools: SyncTools): void {
  const head = headOf(git)
  const before = treeAt(git, head)
  const tree = new Map(treeOnDisk(git, home))
  const changes = changesBetween(before, tree)
  const sessions = [...changes].filter(([path, object]) => object !== null && path.startsWith('sessions/'))
  const texts = textsOf(
    git,
    sessions.map(([, object]) => object as string),
  )
  outcome.damaged = []
  for (const [path, object] of sessions) {
    if (readSession(texts.get(object as string) ?? '', null).outcome === 'session') continue
    outcome.damaged.push(path)
    changes.delete(path)
    const last = before.get(path)
    if (last === undefined) tree.delete(path)
    else tree.set(path, last)
  }
  if (changes.size === 0) return
  outcome.changed = merged(outcome.changed, changes.keys())
  moveHead(git, commit(git, tree, head, changes.size, tools), head)
}

function commit(git: Git, tree: Tree, parent: string | null, count: number, { machine }: SyncTools): string {
  const message = `${count} ${count === 1 ? 'file' : 'files'} changed on ${printableOf(machine.host)}`
  const words = [
    'commit-tree',
    writeTree(git, tree),
    ...(parent === null ? [] : ['-p', parent]),
    '-m',
    message,
  ]
  return git.run([...authorOf(git), ...words]).trim()
}

/** A neutral author where the user has told git none. */
function authorOf(git: Git): string[] {
  const isKnown = ['user.name', 'user.email'].every((key) => (git.ask(['config', '--get', key]) ?? '') !== '')
  return isKnown ? [] : ['-c', 'user.name=Pausebook', '-c', 'user.email=pausebook@localhost']
}

/** Fetches what the remote has; the branch that the logbook is on there. */
function fetchFrom(git: Git, remote: string): string {
  try {
    const heads = git.run(['ls-remote', '--heads', remote]).split('\n')
    const names = heads.flatMap((line) => /\trefs\/heads\/(.+)$/.exec(line)?.[1] ?? [])
    const branch = ['main', 'master'].find((name) => names.includes(name)) ?? names[0] ?? 'main'
    if (names.length === 0) git.run(['update-ref', '-d', remoteRef])
    else git.run(['fetch', '--quiet', '--no-tags', remote, `+refs/heads/${branch}:${remoteRef}`])
    return branch
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(remote, gitReason(error))
    throw error
  }
}

function unreachable(remote: string, why: string): LogbookError {
  const message = `The remote ${printableOf(remote)} cannot be kept in step: ${why}. What was done here is committed and whole; sync again once it can be reached.`
  return new LogbookError('no_remote', message)
}

function remoteHead(git: Git): string | null {
  return git.ask(['rev-parse', '--verify', '--quiet', `${remoteRef}^{commit}`])
}

/** Puts what the remote has together with what is here; false where a file was changed meanwhile. */
function takeIn(git: Git, home: string, outcome: SyncOutcome, tools: SyncTools): boolean {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (other === null || other === head) return true
  const there = treeOf(git, other)
  refuseForeign(there.foreign, 'The remote')
  const base = head === null ? null : git.ask(['merge-base', head, other])
  if (base === other) return true
  const own = treeAt(git, head)
  const { tree, keptTwice } =
    base === head && head !== null
      ? { tree: there.tree, keptTwice: [] }
      : mergedTree(treeAt(git, base), own, there.tree, {
          textOf: (object) => textsOf(git, [object]).get(object) ?? '',
          store: (text) => writeText(git, text),
        })
  const added = changesBetween(there.tree, tree)
  const next = added.size === 0 ? other : commit(git, tree, other, added.size, tools)
  if (!bringToDisk(git, home, own, tree, tools.machine)) return false
  moveHead(git, next, head)
  const copies = new Set(keptTwice.map((each) => each.own))
  const came = [...changesBetween(own, tree).keys()].filter((path) => !copies.has(path))
  outcome.received = merged(outcome.received, came)
  outcome.keptTwice.push(...keptTwice)
  return true
}

/** False where another machine was quicker. */
function push(git: Git, remote: string, branch: string, outcome: SyncOutcome): boolean {
  const [head, other] = [headOf(git), remoteHead(git)]
  if (head === null || head === other) return true
  try {
    git.run(['push', '--quiet', remote, `${head}:refs/heads/${branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.said)) return false
    throw unreachable(remote, gitReason(error))
  }
  git.run(['update-ref', remoteRef, head])
  outcome.sent = merged(outcome.sent, changesBetween(treeAt(git, other), treeAt(git, head)).keys())
  return true
}

function merged(paths: readonly string[], more: Iterable<string>): string[] {
  return [...new Set([...paths, ...more])].sort()
}
