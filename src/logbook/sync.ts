import { basename, join } from 'node:path'
import { sanitize } from '../validate/unsafe.ts'
import { freePath, makeFolder, renameOver } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { type Git, GitFailure, gitOf, gitReason } from './git.ts'
import { underLockOrRefuse } from './lock.ts'
import { contentOf, kindsOf } from './logbookFiles.ts'
import { type Machine, pause } from './machine.ts'
import { goesOnFrom, readSession } from './sessionFile.ts'
import { bringToDisk, sweepTrash, writeToTrash, wrongIn } from './syncDisk.ts'
import { type DuplicateSession, mergedTree, withLost } from './syncMerge.ts'
import {
  changesBetween,
  commit,
  fetchFrom,
  keepText,
  loadTexts,
  lockIn,
  moveHead,
  objectText,
  openRepository,
  type Remote,
  type Repository,
  refreshUsersIndex,
  refuseForeign,
  refuseNamesakes,
  type Tree,
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
  /** Paths whose files here had lost what the last sync had, and have it again. */
  restored: string[]
  /** Paths deleted here because another machine deleted them, and in the remote because this machine did. */
  deletedHere: string[]
  deletedThere: string[]
  keptTwice: DuplicateSession[]
  /** Differences between two machines about the same mornings, one sentence each. The file keeps both, and the later
   * entry counts. */
  mornings: string[]
  /** Sessions whose recorded results another machine has changed. */
  rewritten: RewrittenSession[]
  /** Sessions and years of mornings, here or in the remote, that were left out because they cannot be read. */
  damaged: string[]
  /** Where a damaged repository was moved before a new one was made; null if it was sound. */
  rebuilt: string | null
}

interface SyncTools {
  machine: Machine
  env: Readonly<Record<string, string | undefined>>
  /** Git may ask for a password on a terminal. */
  mayAsk: boolean
  /** More than a few files may be deleted, and years of mornings, here or on the other machines. */
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
 * with anything else in it, `sessions_gone` if many files are missing, `locked` for a session that would change while it is
 * recorded, `cannot_sync`, also for mornings that both changed and only a newer program can read */
export function syncLogbook(home: string, remote: string | null, tools: SyncTools): SyncOutcome {
  const git = gitOf(home, tools.env, tools.mayAsk)
  try {
    makeFolder(home)
    return underLockOrRefuse('The sync of this logbook', join(home, 'sync.lock'), tools.machine, () => {
      sweepTrash(home, tools.machine)
      try {
        return synced(git, home, remote, tools)
      } catch (error) {
        if (!isRepositoryDamaged(git, error)) throw error
        const rebuilt = moveAside(home)
        return { ...synced(git, home, remote, tools), rebuilt }
      }
    })
  } catch (error) {
    throw refusalOf(error, home)
  }
}

/** Whether git failed because the repository in the logbook is damaged. */
function isRepositoryDamaged(git: Git, error: unknown): boolean {
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

function synced(git: Git, home: string, address: string | null, tools: SyncTools): SyncOutcome {
  const repository = openRepository(git, home)
  let outcome = nothing
  for (let turn = 1; ; turn += 1) {
    outcome = withMore(outcome, commitOwn(repository, tools))
    const { moved, late } =
      address === null ? { moved: {}, late: null } : exchange(repository, address, tools)
    outcome = withMore(outcome, moved)
    refreshUsersIndex(repository)
    if (late === null) return outcome
    if (turn === late.turns) throw unreachable(address ?? '', late.why)
    pause(20 * turn)
  }
}

const nothing: SyncOutcome = {
  changed: [],
  received: [],
  sent: [],
  restored: [],
  deletedHere: [],
  deletedThere: [],
  keptTwice: [],
  mornings: [],
  rewritten: [],
  damaged: [],
  rebuilt: null,
}

/** An outcome and what one more turn has done, each path once and in order. */
function withMore(outcome: SyncOutcome, turn: Partial<SyncOutcome>): SyncOutcome {
  const more = { ...nothing, ...turn }
  return {
    ...outcome,
    changed: union(outcome.changed, more.changed),
    received: union(outcome.received, more.received),
    sent: union(outcome.sent, more.sent),
    restored: union(outcome.restored, more.restored),
    deletedHere: union(outcome.deletedHere, more.deletedHere),
    deletedThere: union(outcome.deletedThere, more.deletedThere),
    keptTwice: [...outcome.keptTwice, ...more.keptTwice],
    mornings: union(outcome.mornings, more.mornings),
    rewritten: [...outcome.rewritten, ...more.rewritten],
    damaged: union(outcome.damaged, more.damaged),
  }
}

/** Commits what is on the disk. Of a session or a year of mornings that cannot be read, the version of the last commit
 * stays; what one has lost since is put back.
 * @returns the paths that changed since the last commit, and those of damaged and of restored files
 * @throws LogbookError `sessions_gone`, `cannot_sync` for two paths that differ only in case */
function commitOwn(
  repository: Repository,
  { machine, mayDelete }: SyncTools,
): { changed: string[]; damaged: string[]; restored: string[] } {
  const { home, head, branch, texts } = repository
  const before = treeAt(repository, head)
  const { tree, unreadable } = treeOnDisk(repository, before)
  const damaged = [...unreadable]
  for (const [path, object] of tree) {
    if (before.get(path) === object) continue
    if (wrongIn(path, texts.get(object)?.toString('utf8') ?? '') !== null) damaged.push(path)
  }
  for (const path of damaged) {
    const last = before.get(path)
    if (last === undefined) tree.delete(path)
    else tree.set(path, last)
  }
  const restored = restoreLost(repository, before, tree, machine)
  refuseNamesakes(tree)
  const changes = changesBetween(before, tree)
  if (!mayDelete) refuseManyGone(before, tree, (gone) => goneHere(home, gone))
  if (changes.size > 0) {
    keepDeleted(repository, before, changes, machine)
    const made = commit(repository, head, changes, branch, machine)
    if (branch === null) moveHead(repository, made)
    repository.head = made
  }
  return { changed: [...changes.keys()], damaged, restored }
}

/** Puts back what files have lost since the last commit, on the disk and in the tree.
 * @returns their paths */
function restoreLost(
  repository: Repository,
  before: Tree,
  tree: Map<string, string>,
  machine: Machine,
): string[] {
  const pairs = [...tree].flatMap(([path, object]) => {
    const last = before.get(path)
    return last === undefined || last === object ? [] : [{ path, object, last }]
  })
  loadTexts(
    repository,
    pairs.map(({ last }) => last),
  )
  return pairs.flatMap(({ path, object, last }) => {
    const whole = withLost(path, objectText(repository, last), objectText(repository, object))
    if (whole === null) return []
    const wanted = keepText(repository, whole)
    tree.set(path, wanted)
    // A file that has changed meanwhile is left to the next sync.
    return bringToDisk(repository, new Map([[path, object]]), new Map([[path, wanted]]), machine)
      ? [path]
      : []
  })
}

/** People delete a few files by hand. A missing folder, or one that another program emptied, must not empty the
 * logbooks of all machines, nor an emptied remote this one. */
const fewGone = 3

/** @param refusal the error for these files
 * @throws what `refusal` returns if more than a handful are gone, or a year of mornings, which nobody deletes by hand;
 * a renamed file is not gone */
function refuseManyGone(from: Tree, to: Tree, refusal: (gone: readonly string[]) => LogbookError): void {
  const kept = new Set(to.values())
  const gone = [...from].flatMap(([path, object]) => (to.has(path) || kept.has(object) ? [] : [path]))
  if (gone.length > fewGone || gone.some((path) => contentOf(path) === 'mornings')) throw refusal(gone)
}

function goneHere(home: string, gone: readonly string[]): LogbookError {
  return new LogbookError(
    'sessions_gone',
    `Gone since the last sync: ${kindsOf(gone)}. Bring them back with "git -C ${sanitize(home)} checkout-index --all --quiet", or delete them on the other machines too with "pausebook sync --delete".`,
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

/** What changed on either side, and why the remote has to be asked again; null when done. */
interface Exchange {
  moved: Partial<SyncOutcome>
  late: Late | null
}

/** Merges what the remote has and pushes what it lacks.
 * @throws LogbookError `no_remote` */
function exchange(repository: Repository, address: string, tools: SyncTools): Exchange {
  let remote: Remote
  try {
    remote = fetchFrom(repository, address)
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(address, gitReason(error), error)
    throw error
  }
  const taken = takeIn(repository, remote, tools)
  if (taken === null) return { moved: {}, late: changing }
  const { git, head } = repository
  if (head === null || head === remote.commit) return { moved: taken, late: null }
  try {
    git.run(['push', '--quiet', '--', address, `${head}:refs/heads/${remote.branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    const lock = lockIn(error.said)
    if (lock !== null) {
      const why = `a git that was killed has left a lock in it. When no git is running there, remove ${sanitize(lock)}`
      return { moved: taken, late: { why, turns: 5 } }
    }
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.said)) return { moved: taken, late: quicker }
    throw unreachable(address, gitReason(error), error)
  }
  const went = movedBy(changesBetween(treeAt(repository, remote.commit), treeAt(repository, head)))
  return { moved: { ...taken, sent: went.brought, deletedThere: went.deleted }, late: null }
}

/** @param why the end of a sentence */
function unreachable(address: string, why: string, cause?: GitFailure): LogbookError {
  const message = `The remote ${sanitize(address)} cannot be synchronised: ${why}. What was done here is committed and whole; sync again once it can be reached.`
  // A password in an address must not reach a screen.
  return new LogbookError('no_remote', message.replace(/:\/\/[^@/\s]+@/g, '://'), { cause })
}

/** Merges what the remote has with what is here.
 * @returns what changed here; null if a file changed meanwhile */
function takeIn(
  repository: Repository,
  { commit: other, base }: Remote,
  { machine, mayDelete }: SyncTools,
): Partial<SyncOutcome> | null {
  if (other === null || other === repository.head) return {}
  const there = treeOf(repository, other)
  refuseForeign(there.foreign, 'The remote')
  if (base === other) return {}
  const own = treeAt(repository, repository.head)
  const before = treeAt(repository, base)
  loadTexts(repository, textsToCompare(before, own, there.tree))
  const { tree, keptTwice, mornings, damaged } = mergedTree(before, own, there.tree, {
    textOf: (object) => objectText(repository, object),
    store: (text) => keepText(repository, text),
  })
  refuseNamesakes(tree)
  const added = changesBetween(there.tree, tree)
  const next = added.size === 0 ? other : commit(repository, other, added, null, machine)
  const changes = changesBetween(own, tree)
  if (!mayDelete) refuseManyGone(own, tree, goneThere)
  const twice = new Set(keptTwice.map(({ path }) => path))
  const rewritten = rewrittenIn(repository, own, changes).filter(({ path }) => !twice.has(path))
  if (!bringToDisk(repository, own, tree, machine)) return null
  moveHead(repository, next)
  const copies = new Set(keptTwice.map((each) => each.own))
  const came = movedBy(changes)
  const received = came.brought.filter((path) => !copies.has(path))
  return { received, deletedHere: came.deleted, keptTwice, mornings, rewritten, damaged }
}

/** The objects that a merge will read: whatever another machine changed, and the local files in those places. */
function textsToCompare(before: Tree, own: Tree, other: Tree): (string | null | undefined)[] {
  return [...changesBetween(before, other)].flatMap(([path, object]) => [object, own.get(path)])
}

function goneThere(gone: readonly string[]): LogbookError {
  return new LogbookError(
    'sessions_gone',
    `Another machine has deleted ${kindsOf(gone)}. Nothing was deleted here. Let it be done with "pausebook sync --delete"; what is deleted stays in the logbook's trash for 90 days.`,
  )
}

/** A session whose recorded events another machine has changed, with the first fields that differ. */
interface RewrittenSession {
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
    return object === null || before === undefined || contentOf(path) !== 'session'
      ? []
      : [{ path, object, before }]
  })
  loadTexts(
    repository,
    pairs.flatMap(({ object, before }) => [object, before]),
  )
  return pairs.flatMap(({ path, object, before }) => {
    const [was, is] = [before, object].map((each) => readSession(objectText(repository, each), null))
    if (was === undefined || is === undefined || 'wrong' in was || 'wrong' in is) return []
    if (goesOnFrom(is.value, was.value)) return []
    const fields = differencesBetween(was.value.events, is.value.events, 'event')
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

function union(some: readonly string[], more: readonly string[]): string[] {
  return [...new Set([...some, ...more])].sort()
}
