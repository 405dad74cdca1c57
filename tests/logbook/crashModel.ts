import { mkdirSync, utimesSync, writeFileSync } from 'node:fs'
import { basename, dirname, join, relative } from 'node:path'

/* What a crash of the machine may leave, as POSIX has it (fsync, rename): a name that was given, moved or taken away is
 * on the disk once its folder is flushed, and the bytes of a file once the file is; before that each may be missing,
 * whatever came after it. One rename is there whole or not at all. Bytes that are not flushed are all there, half or
 * none. */

interface File {
  text: string
  isFlushed: boolean
}
type Folder = Map<string, Inode>
type Inode = File | Folder
/** A name in a folder that is given to another file, or to none. */
interface Change {
  folder: Folder
  name: string
  now: Inode | null
}
/** Made together or not at all. */
type Step = Change[]
/** Texts by path; null is a folder. */
export type Tree = [path: string, text: string | null][]

/** Keeps, beside the folders as programs see them, what of them is on the disk. */
export class CrashModel {
  readonly #root: string
  readonly #seen: Folder = new Map()
  /** Of each folder what is on the disk. */
  readonly #flushed = new Map<Folder, Map<string, Inode>>()
  #pending: Step[] = []
  readonly #open = new Map<number, Inode>()

  /** @param root a folder that is there and empty */
  constructor(root: string) {
    this.#root = root
  }

  /** The file or folder at a path as programs see it. */
  #at(path: string): Inode | undefined {
    const names = relative(this.#root, path).split('/')
    return names.reduce<Inode | undefined>(
      (found, name) => (name === '' ? found : found instanceof Map ? found.get(name) : undefined),
      this.#seen,
    )
  }

  #change(path: string, now: Inode | null): Change {
    const folder = this.#at(dirname(path))
    if (!(folder instanceof Map)) throw new Error(`There is no folder above ${path}.`)
    return { folder, name: basename(path), now }
  }

  #make(...step: Step): void {
    apply(step, (folder) => folder)
    this.#pending.push(step)
  }

  opened(descriptor: number, path: string): void {
    const inode = this.#at(path) ?? { text: '', isFlushed: false }
    if (this.#at(path) === undefined) this.#make(this.#change(path, inode))
    this.#open.set(descriptor, inode)
  }

  closed(descriptor: number): void {
    this.#open.delete(descriptor)
  }

  written(target: number | string, text: string): void {
    if (typeof target === 'string' && this.#at(target) === undefined)
      this.#make(this.#change(target, { text: '', isFlushed: false }))
    const file = typeof target === 'number' ? this.#open.get(target) : this.#at(target)
    if (file === undefined || file instanceof Map) return
    file.text = text
    file.isFlushed = false
  }

  flushed(descriptor: number): void {
    const inode = this.#open.get(descriptor)
    if (inode instanceof Map) {
      const isOfIt = (step: Step) => step.some(({ folder }) => folder === inode)
      // What a step undoes elsewhere came before it.
      const last = this.#pending.findLastIndex(isOfIt)
      const names = this.#pending.filter(isOfIt).flat()
      const isNeeded = (step: Step, index: number) =>
        isOfIt(step) ||
        (index < last && step.some((a) => names.some((b) => a.folder === b.folder && a.name === b.name)))
      for (const step of this.#pending.filter(isNeeded)) apply(step, (folder) => this.#onDisk(folder))
      this.#pending = this.#pending.filter((step, index) => !isNeeded(step, index))
    } else if (inode !== undefined) inode.isFlushed = true
  }

  folderMade(path: string): void {
    this.#make(this.#change(path, new Map()))
  }

  renamed(from: string, to: string): void {
    const inode = this.#at(from)
    // rename() of two names of one file does nothing.
    if (inode === undefined || inode === this.#at(to)) return
    this.#make(this.#change(from, null), this.#change(to, inode))
  }

  linked(from: string, to: string): void {
    this.#make(this.#change(to, this.#at(from) ?? null))
  }

  copied(from: string, to: string): void {
    const file = this.#at(from)
    if (file === undefined || file instanceof Map) throw new Error(`There is no file ${from}.`)
    this.#make(this.#change(to, { text: file.text, isFlushed: false }))
  }

  removed(path: string): void {
    if (this.#at(path) !== undefined) this.#make(this.#change(path, null))
  }

  #onDisk(folder: Folder): Map<string, Inode> {
    const known = this.#flushed.get(folder) ?? new Map()
    this.#flushed.set(folder, known)
    return known
  }

  /** Every tree that a crash at this moment may leave, each once. */
  trees(): Tree[] {
    const found = new Map<string, Tree>()
    for (let subset = 0; subset < 2 ** this.#pending.length; subset += 1) {
      const copies = new Map<Folder, Map<string, Inode>>()
      const copyOf = (folder: Folder) => {
        const copy = copies.get(folder) ?? new Map(this.#onDisk(folder))
        copies.set(folder, copy)
        return copy
      }
      this.#pending.forEach((step, index) => {
        if ((subset >> index) & 1) apply(step, copyOf)
      })
      for (const part of [1, 0.5, 0]) {
        const tree = treeOf(this.#seen, copyOf, part)
        found.set(JSON.stringify(tree), tree)
      }
    }
    return [...found.values()]
  }
}

function apply(step: Step, place: (folder: Folder) => Map<string, Inode>): void {
  for (const { folder, name, now } of step) {
    if (now === null) place(folder).delete(name)
    else place(folder).set(name, now)
  }
}

/** @param part of the bytes that are not flushed, from 0 to 1 */
function treeOf(folder: Folder, namesIn: (folder: Folder) => Map<string, Inode>, part: number): Tree {
  return [...namesIn(folder)].sort().flatMap(([name, inode]): Tree => {
    if (!(inode instanceof Map)) {
      const { text, isFlushed } = inode
      return [[name, isFlushed ? text : text.slice(0, text.length * part)]]
    }
    const below = treeOf(inode, namesIn, part)
    return [[name, null], ...below.map(([path, text]): Tree[number] => [join(name, path), text])]
  })
}

/** Puts a tree into a folder, as old as it is after a start of the machine. */
export function plant(tree: Tree, folder: string): void {
  for (const [path, text] of tree) {
    if (text === null) mkdirSync(join(folder, path))
    else {
      writeFileSync(join(folder, path), text)
      utimesSync(join(folder, path), 1_700_000_000, 1_700_000_000)
    }
  }
}
