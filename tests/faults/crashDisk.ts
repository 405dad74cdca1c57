import { createHash } from 'node:crypto'
import fs, { type MakeDirectoryOptions, type PathLike, type RmOptions, type WriteFileOptions } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { basename, dirname, resolve } from 'node:path'

/* Computes what a power cut may leave instead of trying it. The file system under the logbook records each call
 * that changes it. For every moment of that list, `statesAt` gives what may be on the disk if the power fails then.
 * POSIX promises only what was flushed by fsync, so each change of a folder since that folder's last flush may have
 * reached the disk or not, and so may the text of a file since its own last flush: all, none or half of it. A rename is
 * one change: the name is at one place or the other. */

type Change =
  /** `folder` is flushed to make it last. */
  | { kind: 'names'; folder: number; names: { folder: number; name: string; inode: number | null }[] }
  | { kind: 'text'; inode: number; text: Buffer }
  | { kind: 'flush'; inode: number }

/** Text of each file by its path under the root; null for a folder. Equal states have equal keys. */
export interface DiskState {
  key: string
  files: ReadonlyMap<string, Buffer | null>
}

type Call = (...given: unknown[]) => unknown
type Calls = Record<string, Call>

/** Node's own calls, which call one another through the module: only the outermost is recorded. */
const own = { ...fs } as unknown as Calls
let depth = 0
const real = new Proxy(own, {
  get:
    (calls, name: string) =>
    (...given: unknown[]) => {
      depth += 1
      try {
        return calls[name]?.(...given)
      } finally {
        depth -= 1
      }
    },
}) as unknown as typeof fs

let active: Calls | null = null

/** Records what any module does through node:fs on this disk, until it is null again. */
export function useDisk(disk: CrashDisk | null): void {
  const calls = disk?.recorded() ?? null
  for (const name of Object.keys(calls ?? active ?? {})) {
    const recorded: Call = (...given) => (depth > 0 ? own : (active ?? own))[name]?.(...given)
    if (calls === null || active === null)
      Object.assign(fs, { [name]: calls === null ? own[name] : recorded })
  }
  if ((calls === null) !== (active === null)) syncBuiltinESMExports()
  active = calls
}

export class CrashDisk {
  readonly root: string
  readonly changes: Change[] = []
  readonly #inodes = new Map<number, 'file' | 'folder'>([[0, 'folder']])
  /** As the program sees it: the names in each folder. */
  readonly #names = new Map<number, Map<string, number>>([[0, new Map()]])
  readonly #texts = new Map<number, Buffer>()
  readonly #open = new Map<number, number>()
  /** Called before each call that changes the disk, with its name; may throw instead of it. */
  before: (call: string, path: string) => void = () => {}

  constructor(root: string) {
    this.root = resolve(root)
  }

  #isInside(path: PathLike | number): path is string {
    return typeof path === 'string' && `${resolve(path)}/`.startsWith(`${this.root}/`)
  }

  #place(path: string): { folder: number; name: string } {
    const folder = this.#inodeOf(dirname(resolve(path)))
    if (folder === undefined) throw new Error(`no folder is known for ${path}`)
    return { folder, name: basename(path) }
  }

  #inodeOf(path: string): number | undefined {
    const full = resolve(path)
    if (full === this.root) return 0
    const folder = this.#inodeOf(dirname(full))
    return folder === undefined ? undefined : this.#names.get(folder)?.get(basename(full))
  }

  #change(folder: number, names: { folder: number; name: string; inode: number | null }[]): void {
    for (const each of names) {
      if (each.inode === null) this.#names.get(each.folder)?.delete(each.name)
      else this.#names.get(each.folder)?.set(each.name, each.inode)
    }
    this.changes.push({ kind: 'names', folder, names })
  }

  #make(path: string, kind: 'file' | 'folder'): number {
    const inode = this.#inodes.size
    this.#inodes.set(inode, kind)
    if (kind === 'folder') this.#names.set(inode, new Map())
    else this.#texts.set(inode, Buffer.alloc(0))
    const place = this.#place(path)
    this.#change(place.folder, [{ ...place, inode }])
    return inode
  }

  #write(inode: number, text: Buffer): void {
    this.#texts.set(inode, text)
    this.changes.push({ kind: 'text', inode, text })
  }

  #remove(path: string): void {
    const inode = this.#inodeOf(path)
    if (inode === undefined) return
    for (const name of [...(this.#names.get(inode)?.keys() ?? [])]) this.#remove(`${path}/${name}`)
    const place = this.#place(path)
    this.#change(place.folder, [{ ...place, inode: null }])
  }

  /** The calls of node:fs that change a disk, with every successful one that changes a file under the root recorded. */
  recorded(): Calls {
    const disk = this
    const told = (call: string, path: unknown) => {
      if (typeof path === 'string' && disk.#isInside(path)) disk.before(call, path)
      if (typeof path === 'number' && disk.#open.has(path)) disk.before(call, '')
    }
    const calls = {
      openSync(path: string, flags: string | number, mode?: number) {
        const isNew = disk.#isInside(path) && disk.#inodeOf(path) === undefined
        if (isNew && typeof flags === 'string' && flags.startsWith('w')) told('open', path)
        const descriptor = real.openSync(path, flags, mode)
        if (!disk.#isInside(path)) return descriptor
        disk.#open.set(descriptor, disk.#inodeOf(path) ?? disk.#make(path, 'file'))
        return descriptor
      },
      closeSync(descriptor: number) {
        disk.#open.delete(descriptor)
        real.closeSync(descriptor)
      },
      writeFileSync(file: string | number, text: string, options?: WriteFileOptions) {
        told('write', file)
        real.writeFileSync(file, text, options)
        if (typeof file === 'number') {
          const inode = disk.#open.get(file)
          if (inode !== undefined) disk.#write(inode, Buffer.from(text))
        } else if (disk.#isInside(file))
          disk.#write(disk.#inodeOf(file) ?? disk.#make(file, 'file'), Buffer.from(text))
      },
      appendFileSync(file: string, text: string, options?: WriteFileOptions) {
        told('write', file)
        real.appendFileSync(file, text, options)
        if (!disk.#isInside(file)) return
        const inode = disk.#inodeOf(file) ?? disk.#make(file, 'file')
        disk.#write(inode, Buffer.concat([disk.#texts.get(inode) ?? Buffer.alloc(0), Buffer.from(text)]))
      },
      copyFileSync(from: string, to: string, mode?: number) {
        told('write', to)
        real.copyFileSync(from, to, mode)
        if (disk.#isInside(to))
          disk.#write(disk.#inodeOf(to) ?? disk.#make(to, 'file'), real.readFileSync(from))
      },
      fsyncSync(descriptor: number) {
        told('fsync', descriptor)
        real.fsyncSync(descriptor)
        const inode = disk.#open.get(descriptor)
        if (inode !== undefined) disk.changes.push({ kind: 'flush', inode })
      },
      renameSync(from: string, to: string) {
        told('rename', from)
        real.renameSync(from, to)
        if (!disk.#isInside(from)) return
        const inode = disk.#inodeOf(from) ?? null
        // Two names of one file: rename() leaves both.
        if (inode === null || inode === disk.#inodeOf(to)) return
        const place = disk.#place(to)
        disk.#change(place.folder, [
          { ...disk.#place(from), inode: null },
          { ...place, inode },
        ])
      },
      linkSync(from: string, to: string) {
        told('link', to)
        real.linkSync(from, to)
        const inode = disk.#isInside(from) ? disk.#inodeOf(from) : undefined
        if (inode === undefined) return
        const place = disk.#place(to)
        disk.#change(place.folder, [{ ...place, inode }])
      },
      rmSync(path: string, options?: RmOptions) {
        told('remove', path)
        real.rmSync(path, options)
        if (disk.#isInside(path)) disk.#remove(path)
      },
      rmdirSync(path: string) {
        told('rmdir', path)
        real.rmdirSync(path)
        if (disk.#isInside(path)) disk.#remove(path)
      },
      mkdirSync(path: string, options?: MakeDirectoryOptions) {
        told('mkdir', path)
        const made = real.mkdirSync(path, options)
        if (disk.#isInside(path) && disk.#inodeOf(path) === undefined) disk.#make(path, 'folder')
        return made
      },
    }
    for (const name of unknownCalls)
      Object.assign(calls, {
        [name]: (path: unknown, ...rest: unknown[]) => {
          if (typeof path === 'string' && disk.#isInside(path)) throw new Error(`${name} is not recorded`)
          return own[name]?.(path, ...rest)
        },
      })
    return calls as unknown as Calls
  }

  /** Everything done so far has reached the disk. */
  flushAll(): void {
    for (const inode of this.#inodes.keys()) this.changes.push({ kind: 'flush', inode })
  }

  /** Every state that a power cut after the first `count` changes may leave. */
  *statesAt(count: number): Generator<DiskState> {
    const past = this.changes.slice(0, count)
    const open: number[] = []
    past.forEach((change, index) => {
      if (change.kind === 'flush' || isFlushed(change, past.slice(index + 1))) return
      open.push(index)
    })
    for (const lost of choicesOf(open))
      for (const half of halvesOf(past, open, lost)) yield this.#stateWith(past, lost, half)
  }

  #stateWith(past: readonly Change[], lost: ReadonlySet<number>, half: number | null): DiskState {
    const names = new Map<number, Map<string, number>>([[0, new Map()]])
    const texts = new Map<number, Buffer>()
    past.forEach((change, index) => {
      if (change.kind === 'flush' || lost.has(index)) return
      if (change.kind === 'text') {
        const { length } = change.text
        texts.set(change.inode, index === half ? change.text.subarray(0, length / 2) : change.text)
        return
      }
      for (const { folder, name, inode } of change.names) {
        if (!names.has(folder)) names.set(folder, new Map())
        if (inode === null) names.get(folder)?.delete(name)
        else names.get(folder)?.set(name, inode)
      }
    })
    const files = new Map<string, Buffer | null>()
    const walk = (folder: number, path: string) => {
      for (const [name, inode] of [...(names.get(folder) ?? [])].sort()) {
        const isFolder = this.#inodes.get(inode) === 'folder'
        files.set(`${path}${name}`, isFolder ? null : (texts.get(inode) ?? Buffer.alloc(0)))
        if (isFolder) walk(inode, `${path}${name}/`)
      }
    }
    walk(0, '')
    return { key: keyOf(files), files }
  }
}

/** Calls that change a disk and that the logbook does not make; if it begins to make one, it must be recorded. */
const unknownCalls = [
  'cpSync',
  'createWriteStream',
  'ftruncateSync',
  'mkdtempSync',
  'rename',
  'symlinkSync',
  'truncateSync',
  'unlinkSync',
  'writeFile',
  'writeSync',
] as const

function isFlushed(change: Change, later: readonly Change[]): boolean {
  const inode = change.kind === 'names' ? change.folder : change.inode
  return later.some((each) => each.kind === 'flush' && each.inode === inode)
}

/** Which of the unflushed changes are lost: every choice while they are few, else the first and the last so many, and
 * each alone. */
function* choicesOf(open: readonly number[]): Generator<ReadonlySet<number>> {
  if (open.length <= mostChoices) {
    for (let bits = 0; bits < 2 ** open.length; bits += 1)
      yield new Set(open.filter((_, index) => (bits >> index) & 1))
    return
  }
  for (let index = 0; index <= open.length; index += 1) {
    yield new Set(open.slice(index))
    yield new Set(open.slice(0, index))
    yield new Set(open.filter((_, other) => other === index))
    yield new Set(open.filter((_, other) => other !== index))
  }
}

const mostChoices = 8

/** Which unflushed text is half on the disk: none, or one of them. */
function halvesOf(past: readonly Change[], open: readonly number[], lost: ReadonlySet<number>) {
  return [null, ...open.filter((index) => past[index]?.kind === 'text' && !lost.has(index))]
}

function keyOf(files: DiskState['files']): string {
  const hash = createHash('sha1')
  for (const [path, text] of files) hash.update(`\n${path} ${text?.length ?? 'folder'}\n`).update(text ?? '')
  return hash.digest('hex')
}
