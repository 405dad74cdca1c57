import { lstatSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { writeDurably } from './durableWrite.ts'
import { LogbookError } from './errors.ts'
import { type Git, GitFailure } from './git.ts'
import { pause } from './pause.ts'
import { printableOf } from './printable.ts'
import { sessionEntriesOf } from './sessionName.ts'
import { emptyTree, isKeptInStep, type Tree, treeOf } from './syncTree.ts'

const excluded = `# Written by pausebook: only sessions and prescriptions are kept in step.
/*
!/sessions/
!/prescriptions/
*.lock
*.lock.*
*.tmp
*.bak
*.damaged-*
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
  // A run that was killed may have left half a repository: git makes it whole.
  if (status === undefined || git.ask(['rev-parse', '--git-dir']) === null) {
    git.run(['init', '--quiet', '--template=', home])
    git.run(['symbolic-ref', 'HEAD', 'refs/heads/main'])
  }
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
  for (const index of ['pausebook-index', 'pausebook-merge-index', usersIndex])
    rmSync(git.path(`${index}.lock`), { force: true })
}

/** @param what the repository is called, as the beginning of a sentence
 * @throws LogbookError `not_a_logbook` where there is any file that no logbook keeps there */
export function refuseForeign(foreign: readonly string[], what: string): void {
  if (foreign.length === 0) return
  const some = foreign.slice(0, 3).map((path) => printableOf(path))
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
  const index = git.path('pausebook-index')
  const files = filesOf(home)
  const known = git.run(['ls-files', '-z'], { index }).split('\0')
  const all = [...new Set([...files, ...known])].filter((path) => path !== '')
  git.run(['update-index', '--add', '--remove', '-z', '--stdin'], {
    index,
    input: all.map((path) => `${path}\0`).join(''),
  })
  return treeOf(git, git.run(['write-tree'], { index }).trim()).tree
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
  return [...sessions, ...names.map((name) => `prescriptions/${name}`)].filter(
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
