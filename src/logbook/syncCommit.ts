import { LogbookError } from './errors.ts'
import type { Git } from './git.ts'
import type { Machine } from './machine.ts'
import { printableOf } from './printable.ts'
import { readSession } from './readSession.ts'
import { headOf, moveHead, treeAt, treeOnDisk } from './syncRepository.ts'
import { changesBetween, type Tree, textsOf, writeTree } from './syncTree.ts'

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
  if (!mayDelete) refuseManyGone(home, before, changes)
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
  if (changes.size > 0) moveHead(git, commitOf(git, tree, head, changes.size, machine), head)
  return { changed: [...changes.keys()], damaged }
}

/** A few are deleted by hand; a folder that is not there, or was emptied by another program, must not empty those of
 * all machines. */
const fewGone = 3

function refuseManyGone(home: string, before: Tree, changes: ReadonlyMap<string, string | null>): void {
  const isSession = (path: string) => path.startsWith('sessions/')
  const all = [...before.keys()].filter(isSession).length
  const gone = [...changes].filter(([path, object]) => object === null && isSession(path)).length
  if (gone <= fewGone || gone * 2 <= all) return
  throw new LogbookError(
    'sessions_gone',
    `Of the ${all} sessions that were here at the last sync ${gone} are gone. Bring them back with "git -C ${printableOf(home)} checkout -- sessions", or let them be deleted on the other machines too with "pausebook sync --delete".`,
  )
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
