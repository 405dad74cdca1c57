import { closeSync, fstatSync, openSync, readSync, statSync, writeFileSync } from 'node:fs'
import { join, sep } from 'node:path'
import type { FileHead } from './digestLine.ts'
import { sealed, sealedStretches } from './digestSeal.ts'
import { writeDurably } from './durableFile.ts'
import { withLock } from './lock.ts'
import type { Machine } from './machine.ts'
import type { SessionEntry } from './model.ts'
import { readFileBytes, textOf, UnreadableFile } from './text.ts'

/** More than a hundred thousand sessions; the longest text that can be held is not much longer. */
const mostBytes = 400 * 1024 * 1024

const quiet = { throwIfNoEntry: false } as const

/** The lines of the digest, none where there is none; `isWhole`: nothing in it was cut off or changed since it was
 * written. Null where it cannot be read. */
export function digestLines(home: string): { lines: string[]; isWhole: boolean } | null {
  try {
    const { stretches, isWhole } = sealedStretches(readFileBytes(pathIn(home), mostBytes) ?? Buffer.alloc(0))
    const texts = stretches.map((stretch) => textOf(stretch).slice(0, -1))
    const [first = ''] = texts
    const lines = (texts.length === 1 ? first : texts.join('\n')).split('\n')
    return { lines, isWhole }
  } catch (error) {
    if (error instanceof UnreadableFile) return null
    throw error
  }
}

/** What the digest goes by of a session's file; null where it is gone. */
export function headOf({ path }: SessionEntry): FileHead | null {
  const status = statSync(path, quiet)
  if (status === undefined) return null
  // The folder of the year and the name: the last two of the path.
  const folder = path.lastIndexOf(sep, path.lastIndexOf(sep) - 1)
  const file = path.slice(folder + 1)
  return { file: sep === '/' ? file : file.replaceAll(sep, '/'), size: status.size, mtime: status.mtimeMs }
}

/** Adds lines at the end, in a time that does not grow with the digest. */
export function appendToDigest(home: string, lines: readonly string[], machine: Machine): void {
  quietly(home, machine, () => {
    const descriptor = openSync(pathIn(home), 'a+', 0o600)
    try {
      const { size } = fstatSync(descriptor)
      const last = Buffer.alloc(1)
      if (size > 0) readSync(descriptor, last, 0, 1, size - 1)
      // A line that a crash has cut off must not swallow the next.
      const before = size > 0 && last.toString() !== '\n' ? '\n' : ''
      writeFileSync(descriptor, `${before}${sealed(lines)}`)
    } finally {
      closeSync(descriptor)
    }
  })
}

/** Puts these lines in the place of the whole digest. False where that cannot be. */
export function writeDigest(home: string, lines: readonly string[], machine: Machine): boolean {
  return quietly(home, machine, () => writeDurably(pathIn(home), sealed(lines), false))
}

/** The digest is derived: where it cannot be locked or written, the files still say everything. */
function quietly(home: string, machine: Machine, work: () => void): boolean {
  try {
    withLock(`${pathIn(home)}.lock`, machine, work)
    return true
  } catch {
    // Nothing is lost and nothing is wrong but the time that it will take again.
    return false
  }
}

function pathIn(home: string): string {
  return join(home, 'digest.ndjson')
}
