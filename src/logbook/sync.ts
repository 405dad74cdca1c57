import { existsSync } from 'node:fs'
import { basename, join } from 'node:path'
import { group } from 'd3-array'
import { joined } from '../units/lists.ts'
import { sanitize } from '../validate/unsafe.ts'
import { backupOf, freePath, makeFolder, renameOver } from './durableFile.ts'
import { type Damage, isOfSystem, LogbookError, reasonOf } from './errors.ts'
import { type Git, GitFailure, gitOf } from './git.ts'
import { underLock } from './lock.ts'
import { contentOf, kindsOf, originalOf } from './logbookFiles.ts'
import { type Machine, pause } from './machine.ts'
import { storeArrivals } from './store.ts'
import { applyToDisk, sweepTrash, treeOnDisk, writeToTrash } from './syncDisk.ts'
import { type KeptTwice, mergedTree, wrongIn } from './syncMerge.ts'
import {
  bytesOf,
  type Changes,
  changesBetween,
  commit,
  fetchFrom,
  loadTexts,
  moveHead,
  openRepository,
  type Remote,
  type Repository,
  refreshUsersIndex,
  refuseForeign,
  type Tree,
  treeAt,
  treeOf,
} from './syncRepository.ts'
import { readFileBytes } from './text.ts'

/* Synchronises the logbooks of several machines through a git repository that all of them reach. The logbook stays
 * whole at every step: first what is on the disk is committed; then what comes in is merged in the repository alone;
 * then the files on the disk change one by one, each whole or not at all; the branch moves last. A run that is killed
 * leaves each file as one side or the other has it, which the next run does not take for a conflict. */

export interface SyncOutcome extends Lists {
  /** What this sync has kept twice. */
  keptTwice: KeptTwice[]
  /** The versions of each session and text of which there are several, until one of them is kept. */
  versions: string[][]
  /** What was left out: sessions and years of mornings, here or in the remote, that cannot be read, and days with
   * names that another system cannot have. */
  damages: Damage[]
  /** Where a damaged repository was moved before a new one was made; null if it was sound. */
  rebuilt: string | null
}

/** Paths, each list in order. */
interface Lists {
  /** Changed on this machine since the last sync. */
  changed: string[]
  received: string[]
  sent: string[]
  /** Files here that had lost something since the last sync and have it again. */
  restored: string[]
  /** Deleted here because another machine deleted them, and in the remote because this machine did. */
  deletedHere: string[]
  deletedThere: string[]
  /** How two machines differ about the same mornings. Both values are in the file, and the later one counts. */
  mornings: string[]
  /** Sessions and years of mornings from which another machine has taken recorded results. */
  rewritten: string[]
}

interface SyncTools {
  machine: Machine
  env: NodeJS.ProcessEnv
  /** Git may ask for a password on a terminal. */
  mayAsk: boolean
  /** More than a few files may be deleted, and years of mornings, here or on the other machines. */
  mayDelete: boolean
}

/** Commits the logbook, merges what other machines have pushed to the remote, and pushes what it lacks. A damaged
 * repository is moved away and rebuilt from the disk and the remote.
 * @param remote an address that git knows; null commits only
 * @throws LogbookError `no_git`, `no_remote` when the remote cannot be reached, `not_a_logbook` for a repository with
 * anything else in it, `sessions_gone` if many files are missing, `locked` for a session that would change while it is
 * recorded, `cannot_sync`, also for mornings that both changed and only a newer program can read */
export function syncLogbook(home: string, remote: string | null, tools: SyncTools): SyncOutcome {
  const git = gitOf(home, tools.env, tools.mayAsk)
  try {
    makeFolder(home)
    return underLock('The sync of this logbook', join(home, 'sync.lock'), tools.machine, () => {
      sweepTrash(home, tools.machine)
      try {
        return synced(git, remote, tools)
      } catch (error) {
        if (!isRepositoryDamaged(git, error)) throw error
        const rebuilt = freePath((number) => join(home, `.git.damaged-${number}`))
        renameOver(join(home, '.git'), rebuilt)
        return { ...synced(git, remote, tools), rebuilt: basename(rebuilt) }
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
  const { output, lock } = failure
  if (/no space|permission denied|read-only|quota/i.test(output) || lock !== null) return false
  // If only the remote cannot be reached, do not check the whole repository.
  if (
    isRemote &&
    !/corrupt|missing|invalid|bad (object|tree|ref)|packfile|unable to (read|parse|find)/i.test(output)
  )
    return false
  // A git that is broken itself, as after an update of the system, says nothing about the repository.
  return git.attempt(['version']) !== null && git.attempt(['fsck', '--no-dangling', '--no-progress']) === null
}

/** An error of git or of the system, as a sentence. Nothing that was saved is affected. */
function refusalOf(error: unknown, home: string): unknown {
  if (error instanceof GitFailure) {
    const advice =
      error.lock === null
        ? `All sessions are on the disk. If "git --version" fails too, mend git. If the repository is damaged, rename ${sanitize(join(home, '.git'))} and sync again: it is rebuilt from the disk and the remote.`
        : `A git process that was killed left that lock: when no git is running, remove ${sanitize(error.lock)}.`
    return new LogbookError('cannot_sync', `Git cannot work on the logbook: ${error.reason}. ${advice}`)
  }
  if (!isOfSystem(error)) return error
  return new LogbookError(
    'cannot_sync',
    `The logbook ${sanitize(home)} cannot be synchronised: ${reasonOf(error)}. Nothing was lost; make room or change the permissions, and sync again.`,
  )
}

interface Run {
  repository: Repository
  mayDelete: boolean
  outcome: SyncOutcome
}

/** How often the remote is asked again. */
const mostTurns = 12

function synced(git: Git, address: string | null, { machine, mayDelete }: SyncTools): SyncOutcome {
  const arrivals = storeArrivals(git.home)
  const moved = { changed: [], received: [], sent: [], restored: [], deletedHere: [], deletedThere: [] }
  const outcome = {
    ...moved,
    keptTwice: [],
    versions: [],
    mornings: [],
    rewritten: [],
    damages: arrivals === null ? [] : [arrivals],
    rebuilt: null,
  }
  const run: Run = { repository: openRepository(git, machine), mayDelete, outcome }
  try {
    for (let turn = 1; ; turn += 1) {
      commitOwn(run)
      const late = address === null ? null : exchange(run, address)
      if (late === null) {
        const families = group(treeAt(run.repository, run.repository.head).keys(), originalOf)
        return { ...outcome, versions: [...families.values()].filter(({ length }) => length > 1) }
      }
      if (turn === mostTurns) throw unreachable(address ?? '', late)
      pause(20 * turn)
    }
  } finally {
    // A sync that fails may have committed, and what is gone from the disk comes back from this index.
    refreshUsersIndex(run.repository)
  }
}

/** Adds to what the turns before have done, each path and each damaged file once. */
function add(outcome: SyncOutcome, more: Partial<Lists>, damages: readonly Damage[] = []): void {
  for (const [key, paths] of Object.entries(more) as [keyof Lists, string[]][])
    outcome[key] = [...new Set([...outcome[key], ...paths])].sort()
  const isNew = ({ file }: Damage) => outcome.damages.every((known) => known.file !== file)
  outcome.damages.push(...damages.filter(isNew))
}

/** Commits what is on the disk. Where a session or a year of mornings cannot be read, the version of the last commit
 * stays, and is put back if no repair can restore the file; what one has lost since then is put back, too.
 * @throws LogbookError `sessions_gone` */
function commitOwn({ repository, mayDelete, outcome }: Run): void {
  const { head } = repository
  const before = treeAt(repository, head)
  const disk = treeOnDisk(repository, before)
  const { tree } = mergedTree(repository, before, before, disk.tree)
  const restored = [...disk.changed].flatMap(([path, object]) => {
    const wanted = tree.get(path)
    return wanted && wanted !== object && isPutBack(repository, path, object, wanted) ? [path] : []
  })
  const goneHere = (gone: string) =>
    `Gone since the last sync: ${gone}. Bring them back (git -C "${sanitize(repository.home)}" checkout-index --all --quiet), or delete them on the other machines too with "pausebook sync --delete".`
  if (!mayDelete) refuseManyGone(before, tree, goneHere)
  const changes = changesBetween(before, tree)
  if (changes.size > 0) {
    keepDeleted(repository, before, tree)
    moveHead(repository, commit(repository, head, tree))
  }
  add(outcome, { changed: [...changes.keys()], restored }, disk.damages)
}

/** Puts a file on the disk back, unless a person can correct it or a repair can restore it. One that has changed
 * meanwhile is left to the next sync. */
function isPutBack(repository: Repository, path: string, found: string, wanted: string): boolean {
  const wrong = wrongIn(path, bytesOf(repository, found))
  if (wrong !== null) {
    const copy = readFileBytes(backupOf(join(repository.home, path)))
    const isRepairable = copy !== null && wrongIn(path, copy) === null
    if (wrong.cause !== 'ruined' || isRepairable || wrongIn(path, bytesOf(repository, wanted)) !== null)
      return false
  }
  return applyToDisk(repository, new Map([[path, found]]), new Map([[path, wanted]]))
}

/** People delete a few files by hand. A missing folder, or one that another program emptied, must not empty the
 * logbooks of all machines, nor an emptied remote this one. */
const fewGone = 3

/** @param message from what is gone: "4 sessions"
 * @throws LogbookError `sessions_gone` if more than a handful are gone, or a year of mornings, which nobody deletes by
 * hand; a file of which another version is left is not gone */
function refuseManyGone(from: Tree, to: Tree, message: (gone: string) => string): void {
  const originals = new Set([...to.keys()].map(originalOf))
  const gone = goneBetween(from, to).filter((path) => !originals.has(originalOf(path)))
  if (gone.length > fewGone || gone.some((path) => contentOf(path) === 'mornings'))
    throw new LogbookError('sessions_gone', message(kindsOf(gone)))
}

/** The files of one tree that another lacks. One that was moved is not gone. */
function goneBetween(from: Tree, to: Tree): string[] {
  const added = new Set([...to].flatMap(([path, object]) => (from.has(path) ? [] : [object])))
  return [...from].flatMap(([path, object]) => (to.has(path) || added.has(object) ? [] : [path]))
}

/** Puts into the trash what was deleted here and will be deleted on the other machines. */
function keepDeleted(repository: Repository, before: Tree, tree: Tree): void {
  const gone = goneBetween(before, tree)
  const objectOf = (path: string) => before.get(path) ?? ''
  loadTexts(repository, gone.map(objectOf))
  for (const path of gone)
    writeToTrash(repository.home, basename(path), bytesOf(repository, objectOf(path)), repository.machine)
}

/** Merges what the remote has and pushes what it lacks.
 * @returns why the remote has to be asked again, as the end of a sentence; null when done
 * @throws LogbookError `no_remote` */
function exchange(run: Run, address: string): string | null {
  const { repository, outcome } = run
  let remote: Remote
  try {
    remote = fetchFrom(repository, address)
  } catch (error) {
    if (error instanceof GitFailure) throw unreachable(address, error.reason, error)
    throw error
  }
  if (!isMerged(run, remote)) return 'files of the logbook keep changing'
  const { git, head } = repository
  if (head === null || head === remote.commit) return null
  try {
    git.run(['push', '--quiet', '--', address, `${head}:refs/heads/${remote.branch}`])
  } catch (error) {
    if (!(error instanceof GitFailure)) throw error
    if (error.lock !== null)
      return `a git process that was killed has left a lock in it. When no git is running there, remove ${sanitize(error.lock)}`
    const isLate =
      /\[rejected\]|cannot lock ref|failed to update ref|incorrect old value|reference already exists/
    if (isLate.test(error.output)) return 'other machines keep changing it'
    const { received, deletedHere } = outcome
    const why = joined('. ', [
      error.reason,
      received.length > 0 && `Received all the same: ${kindsOf(received)}`,
      deletedHere.length > 0 && `Deleted here, as another machine did: ${kindsOf(deletedHere)}`,
    ])
    throw unreachable(address, why, error)
  }
  const [there, here] = [treeAt(repository, remote.commit), treeAt(repository, head)]
  add(outcome, { sent: writtenIn(changesBetween(there, here)), deletedThere: goneBetween(there, here) })
  return null
}

/** @param why the end of a sentence */
function unreachable(address: string, why: string, cause?: GitFailure): LogbookError {
  // A folder of another machine or a stick is there, and git cannot work with it.
  const remedy =
    cause !== undefined && existsSync(address)
      ? ' If it is damaged, put an empty one in its place (git init --bare): each machine sends what it has.'
      : ''
  const message = `The remote ${sanitize(address)} cannot be synchronised: ${why}. What was done here is committed and whole; sync again once it can be reached.${remedy}`
  return new LogbookError('no_remote', withoutPasswords(message), { cause })
}

/** A text for the screen, in which an address may have a password. */
export function withoutPasswords(text: string): string {
  return text.replace(/:\/\/[^@/\s]+@/g, '://')
}

/** Merges what the remote has with what is here; false if a file changed meanwhile. */
function isMerged({ repository, mayDelete, outcome }: Run, { commit: other, base }: Remote): boolean {
  if (other === null || other === repository.head) return true
  const there = treeOf(repository, other)
  refuseForeign(there.foreign, 'The remote')
  if (base === other) return true
  const own = treeAt(repository, repository.head)
  const before = treeAt(repository, base)
  const { tree, keptTwice, damages, ...found } = mergedTree(repository, before, own, there.tree)
  const isSame = changesBetween(there.tree, tree).size === 0
  const next = isSame ? other : commit(repository, other, tree)
  const goneThere = (gone: string) =>
    `Another machine has deleted ${gone}. Nothing was deleted here. Allow it with "pausebook sync --delete"; what is deleted stays in the logbook's trash for 90 days.`
  if (!mayDelete) refuseManyGone(own, tree, goneThere)
  if (!applyToDisk(repository, own, tree)) return false
  moveHead(repository, next)
  const copies = keptTwice.map((each) => each.own)
  const received = writtenIn(changesBetween(own, tree)).filter((path) => !copies.includes(path))
  outcome.keptTwice.push(...keptTwice)
  add(outcome, { received, deletedHere: goneBetween(own, tree), ...found }, damages)
  return true
}

function writtenIn(changes: Changes): string[] {
  return [...changes].flatMap(([path, object]) => (object === null ? [] : [path]))
}
