import type { Git } from './git.ts'

/* Trees of the repository as values: which file has which text. */

/** The object that holds a file's text, by its path in the logbook with slashes. */
export type Tree = ReadonlyMap<string, string>

const ours =
  /^(?:sessions\/\d{4}\/\d{4}-\d{2}-\d{2}-[\w-]{6,40}\.json|prescriptions\/[^./][^/]*\.(?:txt|json))$/

/** Whether a path is one that a logbook keeps in step: a session or a prescription. What is derived, what belongs to one
 * machine (settings name its plates and its commands) and what a crash left behind is not. */
export function isKeptInStep(path: string): boolean {
  return ours.test(path) && !/[\p{Cc}]/u.test(path)
}

/** All files of a commit or a tree, and those that are no part of a logbook or no plain files. */
export function treeOf(git: Git, which: string): { tree: Tree; foreign: string[] } {
  const tree = new Map<string, string>()
  const foreign: string[] = []
  for (const line of git.run(['ls-tree', '-r', '-z', '--full-tree', which]).split('\0')) {
    const [, mode = '', object = '', path = ''] = /^(\d+) \w+ ([0-9a-f]+)\t(.*)$/s.exec(line) ?? []
    if (path === '') continue
    if (isKeptInStep(path) && /^100(?:644|755)$/.test(mode)) tree.set(path, object)
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
