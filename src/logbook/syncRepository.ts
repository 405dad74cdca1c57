import { createHash } from 'node:crypto'
import { chmodSync, lstatSync, mkdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { formatDate } from 'date-fns/format'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { isOld, isThere, removeQuietly, writeDurably } from './durableFile.ts'
import { attempt, LogbookError } from './errors.ts'
import { type Git, GitFailure } from './git.ts'
import { isSynced } from './logbookFiles.ts'
import { type Machine, pause } from './machine.ts'
import { readTextFile } from './text.ts'

/* Starting git takes longer than anything it does here. Therefore this process computes object ids itself, reads many
 * texts at once, and makes a commit with all its texts in one `git fast-import`. */

/** The object that holds a file's text, by its path in the logbook with slashes. */
export type Tree = ReadonlyMap<string, string>

/** The new object of each path that differs; null if it was deleted. */
export type Changes = ReadonlyMap<string, string | null>

/** The git repository of a logbook, as this run knows it. */
export interface Repository {
  readonly git: Git
  readonly home: string
  readonly machine: Machine
  /** The commit that this machine is at; null before the first. */
  head: string | null
  /** What was read of commits, which never change. */
  readonly trees: Map<string, { tree: Tree; foreign: string[] }>
  readonly texts: Map<string, Buffer>
}

/** What the user's own git ignores: all that sync never exchanges, and nothing else, since a pull would replace an
 * ignored file without asking. */
const excluded = `# Written by pausebook: only sessions, mornings, prescriptions and your own texts are synchronised.
/*
!/sessions/
!/prescriptions/
!/mornings/
!/plan.txt
!/plan-*.txt
!/foods.txt
!/foods-*.txt
*.lock*
*.tmp
*.bak
*.damaged-*
*.kept-*
`

/** The user's own git changes no line ending either, as Git for Windows does unless told otherwise: a session with
 * others does not match its checksum. */
const attributes = '# Written by pausebook: every file keeps its bytes.\n* -text\n'

/** Where the branches of the remote are kept here. */
const remoteBranches = 'refs/pausebook/heads'

/** Opens the logbook's own repository, or creates it. A repository around the logbook is never touched.
 * @throws LogbookError `not_a_logbook` if it holds anything else, belongs to another user or could run programs */
export function openRepository(git: Git, machine: Machine): Repository {
  const { home } = git
  const folder = join(home, '.git')
  const status = lstatSync(folder, { throwIfNoEntry: false })
  if (status !== undefined && !status.isDirectory()) {
    const message = `The logbook ${sanitize(home)} belongs to another git repository (its .git is not a folder). Keep the logbook in a folder of its own.`
    throw new LogbookError('not_a_logbook', message)
  }
  refuseForeignOwner(home, folder)
  // Git completes a repository that a killed run left half made.
  if (status === undefined || git.attempt(['rev-parse', '--git-dir']) === null)
    git.run(['init', '--quiet', '--template=', home])
  refuseCommands(git, home)
  chmodSync(folder, 0o700)
  const busy = ['rebase-merge', 'rebase-apply', 'MERGE_HEAD', 'CHERRY_PICK_HEAD'].find((name) =>
    isThere(git.path(name)),
  )
  if (busy !== undefined) {
    const message = `The repository of ${sanitize(home)} has an unfinished operation (${busy}). Finish or abort it with git, and sync again.`
    throw new LogbookError('not_a_logbook', message)
  }
  const head = git.ask(['rev-parse', '--verify', '--quiet', 'HEAD'])
  const repository: Repository = { git, home, machine, head, trees: new Map(), texts: new Map() }
  if (head !== null) refuseForeign(treeOf(repository, head).foreign, `The git repository in ${home}`)
  writeRule(git, 'exclude', excluded)
  writeRule(git, 'attributes', attributes)
  return repository
}

function writeRule(git: Git, name: string, text: string): void {
  const path = join(git.path('info'), name)
  if (readTextFile(path) === text) return
  mkdirSync(git.path('info'), { recursive: true })
  writeDurably(path, text)
}

/** Checks the owner here: git is told where the repository is and then does not check whose it is.
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

/** The keys that git or this program writes into a repository's configuration. Any other key could run a program. */
const harmless =
  /^(?:core\.(?:repositoryformatversion|filemode|bare|logallrefupdates|ignorecase|precomposeunicode|symlinks|sharedrepository)|extensions\.refstorage|user\.(?:name|email)|gc\.\w+|remote\..*\.(?:url|fetch)|branch\..*\.(?:remote|merge)|maintenance\..*|receive\.denynonfastforwards)$/i

/** @throws LogbookError `not_a_logbook` */
function refuseCommands(git: Git, home: string): void {
  const settings = git.run(['config', '--local', '--list', '-z']).split('\0')
  const keys = settings.map((setting) => setting.split('\n')[0] ?? '')
  const unknown = keys.find((key) => key !== '' && !harmless.test(key))
  if (unknown === undefined) return
  const key = sanitize(unknown)
  const message = `The git configuration of the logbook sets ${key}, which could run a program or lead elsewhere. Remove it (git -C "${sanitize(home)}" config --local --unset-all ${key}), or set it for yourself with --global.`
  throw new LogbookError('not_a_logbook', message)
}

/** @param what the repository, as the beginning of a sentence
 * @throws LogbookError `not_a_logbook` if it holds a file that no logbook has */
export function refuseForeign(foreign: readonly string[], what: string): void {
  if (foreign.length === 0) return
  const some = foreign.slice(0, 3).map(sanitize)
  const more = foreign.length > 3 ? ` and ${foreign.length - 3} more` : ''
  const message = `${what} holds files that do not belong to a logbook: ${some.join(', ')}${more}. Use a separate repository for the logbook; nothing was changed.`
  throw new LogbookError('not_a_logbook', message)
}

/** A path as the file systems of macOS and Windows compare it: without case, and with accents in one form. */
export function withoutCase(path: string): string {
  return path.normalize('NFC').toLowerCase()
}

/** Larger than any session. Without a limit a small remote could unpack to more than the memory holds. */
const mostBytes = 16 * 1024 * 1024

/** All files of a commit; separately those that no logbook has, that are not plain files, or that are too large. */
export function treeOf(repository: Repository, commit: string): { tree: Tree; foreign: string[] } {
  const known = repository.trees.get(commit)
  if (known !== undefined) return known
  const tree = new Map<string, string>()
  const foreign: string[] = []
  for (const line of repository.git.run(['ls-tree', '-r', '-l', '-z', '--full-tree', commit]).split('\0')) {
    const [, mode = '', object = '', size = '', path = ''] =
      /^(\d+) \w+ ([0-9a-f]+) +(\S+)\t(.*)$/s.exec(line) ?? []
    if (path === '') continue
    if (size === 'BAD') throw new GitFailure('ls-tree', `fatal: object ${object} is damaged`)
    const isOurs = isSynced(path) && /^100(?:644|755)$/.test(mode) && Number(size) <= mostBytes
    if (isOurs) tree.set(path, object)
    else foreign.push(path)
  }
  repository.trees.set(commit, { tree, foreign })
  return { tree, foreign }
}

/** The tree of a commit; empty without a commit. */
export function treeAt(repository: Repository, commit: string | null): Tree {
  return commit === null ? new Map() : treeOf(repository, commit).tree
}

export function changesBetween(from: Tree, to: Tree): Changes {
  const changes = new Map<string, string | null>()
  for (const [path, object] of to) if (from.get(path) !== object) changes.set(path, object)
  for (const path of from.keys()) if (!to.has(path)) changes.set(path, null)
  return changes
}

/** Reads the texts of objects into `texts`. */
export function loadTexts({ git, texts }: Repository, objects: readonly (string | null | undefined)[]): void {
  const wanted = new Set(objects.filter((object): object is string => !!object && !texts.has(object)))
  if (wanted.size === 0) return
  const output = git.bytes(['cat-file', '--batch'], [...wanted].map((object) => `${object}\n`).join(''))
  let place = 0
  for (const object of wanted) {
    const end = output.indexOf(0x0a, place)
    const size = Number(output.subarray(place, end).toString('latin1').split(' ')[2])
    if (!Number.isInteger(size)) throw new GitFailure('cat-file', `fatal: missing object ${object}`)
    texts.set(object, output.subarray(end + 1, end + 1 + size))
    place = end + 1 + size + 1
  }
}

export function bytesOf(repository: Repository, object: string): Buffer {
  loadTexts(repository, [object])
  return repository.texts.get(object) ?? Buffer.alloc(0)
}

/** The object that holds these bytes (gitformat: "blob SIZE\0" and the bytes). */
export function objectOf(bytes: Uint8Array): string {
  return createHash('sha1').update(`blob ${bytes.length}\0`).update(bytes).digest('hex')
}

/** Keeps a text for the next commit and returns the object that will hold it. */
export function keepText(repository: Repository, text: string): string {
  const bytes = Buffer.from(text, 'utf8')
  const object = objectOf(bytes)
  repository.texts.set(object, bytes)
  return object
}

/** Commits a tree without moving the branch.
 * @param parent null for the first commit
 * @returns the commit */
export function commit(repository: Repository, parent: string | null, tree: Tree): string {
  const { git, machine, texts } = repository
  const changes = changesBetween(treeAt(repository, parent), tree)
  const message = `${counted(changes.size, 'file')} changed on ${sanitize(machine.host)}`
  const parts: (string | Uint8Array)[] = [
    'commit refs/pausebook/next\nmark :1\n',
    `committer Pausebook <pausebook@localhost> ${formatDate(machine.now(), 't xx')}\n`,
    ...dataOf(Buffer.from(message)),
    parent === null ? '' : `from ${parent}\n`,
  ]
  for (const [path, object] of changes) {
    const bytes = object === null ? undefined : texts.get(object)
    if (object === null) parts.push(`D ${path}\n`)
    else if (bytes === undefined) parts.push(`M 100644 ${object} ${path}\n`)
    else parts.push(`M 100644 inline ${path}\n`, ...dataOf(bytes))
  }
  parts.push('\nget-mark :1\ndone\n')
  const input = Buffer.concat(parts.map((part) => (typeof part === 'string' ? Buffer.from(part) : part)))
  const output = withRetries(() => git.bytes(['fast-import', '--quiet', '--done', '--force'], input))
  const name = output.toString('latin1').trim()
  repository.trees.set(name, { tree: new Map(tree), foreign: [] })
  return name
}

function dataOf(bytes: Uint8Array): (string | Uint8Array)[] {
  return [`data ${bytes.length}\n`, bytes, '\n']
}

export function moveHead(repository: Repository, to: string): void {
  const { git, head } = repository
  withRetries(() =>
    git.run(['update-ref', '-m', 'pausebook sync', 'HEAD', to, ...(head === null ? [] : [head])]),
  )
  repository.head = to
}

const patience = 3000

/** Runs something that needs a lock of git's. Another git holds one for a moment only; a lock that stays was left by a
 * git that was killed, and is removed. */
function withRetries<T>(work: () => T): T {
  const begun = Date.now()
  for (;;) {
    try {
      return work()
    } catch (error) {
      const lock = error instanceof GitFailure ? error.lock : null
      if (lock === null || Date.now() - begun > 2 * patience) throw error
      const changed = statSync(lock, { throwIfNoEntry: false })?.mtimeMs
      if (changed !== undefined && Date.now() - changed > patience) removeQuietly(lock)
      pause(50)
    }
  }
}

/** Writes the index of the user's own git, which would otherwise see outdated files. While the user's git has it
 * locked, it stays as it is until the next sync; a lock that has been there for a day was left by a git that was
 * killed. */
export function refreshUsersIndex({ git, head, machine }: Repository): void {
  const lock = git.path('index.lock')
  if (isOld(lock, machine)) removeQuietly(lock)
  if (head !== null) attempt(() => git.run(['read-tree', head]))
}

/** What the remote has.
 * @param commit null for an empty remote
 * @param base the newest commit that both sides have; null without one */
export interface Remote {
  branch: string
  commit: string | null
  base: string | null
}

/** Fetches the branches of the remote, of which `main` counts, else `master`, else the first.
 * @throws GitFailure */
export function fetchFrom({ git, head }: Repository, address: string): Remote {
  const from = ['--', address, `+refs/heads/*:${remoteBranches}/*`]
  withRetries(() => git.run(['fetch', '--quiet', '--no-tags', '--prune', ...from]))
  const listed = git.run(['for-each-ref', '--format=%(objectname) %(refname:lstrip=3)', remoteBranches])
  const commits = new Map(
    [...listed.matchAll(/^(\w+) (.+)$/gm)].map(([, commit = '', name = '']) => [name, commit]),
  )
  const branch = ['main', 'master'].find((name) => commits.has(name)) ?? [...commits.keys()][0] ?? 'main'
  const there = commits.get(branch) ?? null
  if (there === null || there === head) return { branch, commit: there, base: there }
  return { branch, commit: there, base: head === null ? null : git.ask(['merge-base', head, there]) }
}
