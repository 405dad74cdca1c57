import { chmodSync, lstatSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { isUnsafe, sanitize } from '../validate/unsafe.ts'
import { writeDurably } from './durableFile.ts'
import { LogbookError } from './errors.ts'
import { type Git, GitFailure } from './git.ts'
import { pause } from './lock.ts'
import type { Machine } from './machine.ts'
import { readSession } from './sessionFile.ts'
import { sessionEntriesOf } from './sessionName.ts'
import { writeToTrash } from './trash.ts'

const excluded = `# Written by pausebook: only sessions, mornings, prescriptions and your own texts are kept in step.
/*
!/sessions/
!/prescriptions/
!/mornings/
!/plan.txt
!/foods.txt
*.lock
*.lock.*
*.tmp
*.bak
*.damaged-*
*.kept-*
`

/** Makes the logbook's own repository where it has none. One that lies around the logbook is never touched, nor one
 * in it that holds something else.
 * @throws LogbookError `not_a_logbook` */
export function prepareRepository(git: Git, home: string): void {
  const folder = join(home, '.git')
  const status = lstatSync(folder, { throwIfNoEntry: false })
  if (status !== undefined && !status.isDirectory()) {
    const message = `The logbook ${home} belongs to another git repository (its .git is no folder). Keep the logbook in a folder of its own.`
    throw new LogbookError('not_a_logbook', message)
  }
  refuseForeignOwner(home, folder)
  // A run that was killed may have left half a repository: git makes it whole.
  if (status === undefined || git.ask(['rev-parse', '--git-dir']) === null) {
    git.run(['init', '--quiet', '--template=', home])
    git.run(['symbolic-ref', 'HEAD', 'refs/heads/main'])
  }
  refuseCommands(git, home)
  if (process.platform !== 'win32') chmodSync(folder, 0o700)
  const busy = ['rebase-merge', 'rebase-apply', 'MERGE_HEAD', 'CHERRY_PICK_HEAD'].find(
    (name) => lstatSync(git.path(name), { throwIfNoEntry: false }) !== undefined,
  )
  if (busy !== undefined) {
    const message = `Something in the repository of ${home} is half done (${busy}). Finish it or give it up with git, and sync again.`
    throw new LogbookError('not_a_logbook', message)
  }
  const head = headOf(git)
  if (head !== null) refuseForeign(treeOf(git, head).foreign, `The git repository in ${home}`)
  mkdirSync(git.path('info'), { recursive: true })
  writeDurably(git.path('info/exclude'), excluded, false)
  for (const index of ['pausebook-merge-index', usersIndex])
    rmSync(git.path(`${index}.lock`), { force: true })
}

/** Git is told where the repository is and then does not ask whose it is.
 * @throws LogbookError `not_a_logbook` */
function refuseForeignOwner(home: string, folder: string): void {
  const user = process.getuid?.()
  for (const path of [folder, join(folder, 'config')]) {
    const owner = lstatSync(path, { throwIfNoEntry: false })?.uid
    if (user === undefined || owner === undefined || owner === user) continue
    const message = `${sanitize(path)} belongs to another user, so git could run that user's programs. Make it yours (chown -R), or keep the logbook in ${sanitize(home)} without its .git.`
    throw new LogbookError('not_a_logbook', message)
  }
}

/** What git or this program writes into a repository's own configuration. Anything else there could run a program. */
const harmless =
  /^(?:core\.(?:repositoryformatversion|filemode|bare|logallrefupdates|ignorecase|precomposeunicode|symlinks|sharedrepository)|extensions\.(?:objectformat|refstorage)|user\.(?:name|email)|gc\.\w+|remote\..*\.(?:url|fetch)|branch\..*\.(?:remote|merge)|maintenance\..*|receive\.denynonfastforwards)$/i

/** @throws LogbookError `not_a_logbook` */
function refuseCommands(git: Git, home: string): void {
  const keys = git.run(['config', '--local', '--list', '--name-only', '-z']).split('\0')
  const strange = keys.find((key) => key !== '' && !harmless.test(key))
  if (strange === undefined) return
  const key = sanitize(strange)
  const message = `The git configuration of the logbook sets ${key}, which could run a program or lead elsewhere. Take it out with "git -C ${sanitize(home)} config --local --unset-all ${key}", or set it for yourself with --global.`
  throw new LogbookError('not_a_logbook', message)
}

/** @param what the repository is called, as the beginning of a sentence
 * @throws LogbookError `not_a_logbook` where there is any file that no logbook keeps there */
export function refuseForeign(foreign: readonly string[], what: string): void {
  if (foreign.length === 0) return
  const some = foreign.slice(0, 3).map(sanitize)
  const more = foreign.length > 3 ? ` and ${foreign.length - 3} more` : ''
  const message = `${what} holds what is no part of a logbook: ${some.join(', ')}${more}. Use a repository of its own for the logbook; nothing was changed.`
  throw new LogbookError('not_a_logbook', message)
}

/** The commit that this machine is at; null before the first. */
export function headOf(git: Git): string | null {
  return git.ask(['rev-parse', '--verify', '--quiet', 'HEAD^{commit}'])
}

/** The files on the disk as a tree, put into the repository. */
export function treeOnDisk(git: Git, home: string): Tree {
  const files = filesOf(home)
  // Without filters: what attributes in the folder say must run no program.
  const input = files.map((path) => `${path}\n`).join('')
  const objects =
    files.length === 0
      ? []
      : git.run(['hash-object', '-w', '--no-filters', '--stdin-paths'], { input }).trim().split('\n')
  return new Map(files.map((path, index) => [path, objects[index] ?? '']))
}

const usersIndex = 'pausebook-users-index'

/** For the user's own git only, which would otherwise see other files than those there are. It is made beside and then
 * renamed, so that a run that is killed leaves no lock on it; while the user's git has it locked it stays. */
export function refreshUsersIndex(git: Git): void {
  if (headOf(git) === null || lstatSync(git.path('index.lock'), { throwIfNoEntry: false })) return
  const made = git.path(usersIndex)
  if (git.ask(['read-tree', 'HEAD'], { index: made }) !== null) renameSync(made, git.path('index'))
}

/** With slashes, from the logbook's folder on. */
function filesOf(home: string): string[] {
  const sessions = sessionEntriesOf(home).map(({ path }) => relative(home, path).replaceAll('\\', '/'))
  const folder = join(home, 'prescriptions')
  const names = lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() ? readdirSync(folder) : []
  const mornings = join(home, 'mornings')
  const years = lstatSync(mornings, { throwIfNoEntry: false })?.isDirectory() ? readdirSync(mornings) : []
  const others = [...names.map((name) => `prescriptions/${name}`), ...years.map((name) => `mornings/${name}`)]
  return [...sessions, ...others, 'plan.txt', 'foods.txt'].filter(
    (path) => isKeptInStep(path) && lstatSync(join(home, path), { throwIfNoEntry: false })?.isFile() === true,
  )
}

const patience = 3000

/** Moves the branch from one commit to another. */
export function moveHead(git: Git, to: string, from: string | null): void {
  withRetries(() =>
    git.run(['update-ref', '-m', 'pausebook sync', 'HEAD', to, ...(from === null ? [] : [from])]),
  )
}

/** Does what git needs a ref for. Another git has it for a moment only; a lock that stays was left by one
 * that was killed. */
export function withRetries<T>(work: () => T): T {
  const begun = Date.now()
  for (;;) {
    try {
      return work()
    } catch (error) {
      const lock =
        error instanceof GitFailure
          ? /Unable to create '(.+\.lock)': File exists/.exec(error.said)?.[1]
          : undefined
      if (lock === undefined || Date.now() - begun > 2 * patience) throw error
      const changed = statSync(lock, { throwIfNoEntry: false })?.mtimeMs
      if (changed !== undefined && Date.now() - changed > patience) rmSync(lock, { force: true })
      pause(50)
    }
  }
}

/** The tree of a commit; empty for none. */
export function treeAt(git: Git, commit: string | null): Tree {
  return commit === null ? emptyTree : treeOf(git, commit).tree
}

/** Commits what is on the disk. A session's file that is none any more is left as the last commit has it.
 * @param mayDelete whether sessions may be gone that most of the last commit's are
 * @returns the paths that were changed since the last commit, and those of damaged sessions
 * @throws LogbookError `sessions_gone` where that was not to be */
export function commitOwn(
  git: Git,
  home: string,
  machine: Machine,
  mayDelete: boolean,
): { changed: string[]; damaged: string[] } {
  const head = headOf(git)
  const before = treeAt(git, head)
  const tree = new Map(treeOnDisk(git, home))
  const changes = changesBetween(before, tree)
  if (!mayDelete) refuseManyGone(before, changes, (gone, all) => goneHere(home, gone, all))
  const sessions = [...changes].filter(([path, object]) => object !== null && path.startsWith('sessions/'))
  const texts = textsOf(
    git,
    sessions.map(([, object]) => object as string),
  )
  const damaged: string[] = []
  for (const [path, object] of sessions) {
    if (readSession(texts.get(object as string) ?? '', null).outcome === 'session') continue
    damaged.push(path)
    changes.delete(path)
    const last = before.get(path)
    if (last === undefined) tree.delete(path)
    else tree.set(path, last)
  }
  if (changes.size > 0) {
    keepDeleted(git, home, before, changes, machine)
    moveHead(git, commitOf(git, tree, head, changes.size, machine), head)
  }
  return { changed: [...changes.keys()], damaged }
}

/** A few are deleted by hand; a folder that is not there, or was emptied by another program, must not empty those of
 * all machines, nor an emptied remote this one. */
const fewGone = 3

/** @param refusal for so many of all sessions
 * @throws what `refusal` gives for more than a handful */
export function refuseManyGone(
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
    `Of the ${all} sessions that were here at the last sync ${gone} are gone. Bring them back with "git -C ${sanitize(home)} checkout -- sessions", or let them be deleted on the other machines too with "pausebook sync --delete".`,
  )
}

/** What was deleted here and will be on the other machines is kept in the trash. */
function keepDeleted(
  git: Git,
  home: string,
  before: Tree,
  changes: ReadonlyMap<string, string | null>,
  machine: Machine,
): void {
  const gone = [...changes].flatMap(([path, object]) => (object === null ? [path] : []))
  const texts = textsOf(
    git,
    gone.flatMap((path) => before.get(path) ?? []),
  )
  for (const path of gone) {
    const text = texts.get(before.get(path) ?? '')
    if (text !== undefined) writeToTrash(home, path.split('/').at(-1) ?? path, text, machine)
  }
}

/** A commit of a tree; no branch moves yet.
 * @param count of the files that it changes */
export function commitOf(
  git: Git,
  tree: Tree,
  parent: string | null,
  count: number,
  machine: Machine,
): string {
  const message = `${count} ${count === 1 ? 'file' : 'files'} changed on ${sanitize(machine.host)}`
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

/* Trees of the repository as values: which file has which text. */

/** The object that holds a file's text, by its path in the logbook with slashes. */
export type Tree = ReadonlyMap<string, string>

const ours =
  /^(?:sessions\/\d{4}\/\d{4}-\d{2}-\d{2}-[\w-]{6,40}\.json|prescriptions\/[^./][^/]*\.(?:txt|json)|mornings\/\d{4}\.json|(?:plan|foods)\.txt|(?:plan|foods)-\d+\.txt)$/

/** A name that some system reads as something else: a drive, a folder, a device, or without its end. */
const badName = /[\\:*?"<>|]|^(?:con|prn|aux|nul|com\d|lpt\d)\.|[. ]\.(?:txt|json)$/i

/** Whether a path is one that a logbook keeps in step: a session, a year of mornings, a prescription, a text of the
 * athlete's. What is derived, what belongs to one
 * machine (settings name its plates and its commands) and what a crash left behind is not. */
export function isKeptInStep(path: string): boolean {
  return ours.test(path) && !isUnsafe(path) && !badName.test(path.slice(path.lastIndexOf('/') + 1))
}

/** More than any session: a small remote could unpack to what no memory holds. */
const mostBytes = 16 * 1024 * 1024

/** All files of a commit or a tree, and those that are no part of a logbook, no plain files or too large. */
export function treeOf(git: Git, which: string): { tree: Tree; foreign: string[] } {
  const tree = new Map<string, string>()
  const foreign: string[] = []
  for (const line of git.run(['ls-tree', '-r', '-l', '-z', '--full-tree', which]).split('\0')) {
    const [, mode = '', object = '', size = '', path = ''] =
      /^(\d+) \w+ ([0-9a-f]+) +(\d+|-)\t(.*)$/s.exec(line) ?? []
    if (path === '') continue
    const isOurs = isKeptInStep(path) && /^100(?:644|755)$/.test(mode) && Number(size) <= mostBytes
    if (isOurs) tree.set(path, object)
    else foreign.push(path)
  }
  return { tree, foreign }
}

export const emptyTree: Tree = new Map()

/** What changed from one tree to another: the new object of each path, null where it is gone. */
export function changesBetween(from: Tree, to: Tree): Map<string, string | null> {
  const changes = new Map<string, string | null>()
  for (const [path, object] of to) if (from.get(path) !== object) changes.set(path, object)
  for (const path of from.keys()) if (!to.has(path)) changes.set(path, null)
  return changes
}

/** Writes a tree into the repository, off to the side of every file; its name. */
export function writeTree(git: Git, tree: Tree): string {
  const index = git.path('pausebook-merge-index')
  git.run(['read-tree', '--empty'], { index })
  const lines = [...tree].map(([path, object]) => `100644 ${object}\t${path}\0`)
  git.run(['update-index', '-z', '--index-info'], { index, input: lines.join('') })
  return git.run(['write-tree'], { index }).trim()
}

const atOnce = 200

/** The texts of objects. */
export function textsOf(git: Git, objects: readonly string[]): Map<string, string> {
  const texts = new Map<string, string>()
  for (let from = 0; from < objects.length; from += atOnce) {
    const some = objects.slice(from, from + atOnce)
    const output = git.bytes(['cat-file', '--batch'], some.map((object) => `${object}\n`).join(''))
    let place = 0
    for (const object of some) {
      const end = output.indexOf(0x0a, place)
      const size = Number(output.subarray(place, end).toString('latin1').split(' ')[2])
      texts.set(object, output.subarray(end + 1, end + 1 + size).toString('utf8'))
      place = end + 1 + size + 1
    }
  }
  return texts
}

/** Puts a text into the repository; the object that holds it. */
export function writeText(git: Git, text: string): string {
  return git.run(['hash-object', '-w', '--stdin'], { input: text }).trim()
}
