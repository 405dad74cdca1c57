import { rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { backupOf, makeFolder, quarantine, writeDurably } from './durableFile.ts'
import type { Git } from './git.ts'
import { isLock, type Lock, lockedError, takeLock } from './lock.ts'
import type { Machine } from './machine.ts'
import { readSession } from './sessionFile.ts'
import { changesBetween, type Tree, textsOf, writeText } from './syncRepository.ts'
import { readTextFile, UnreadableFile } from './text.ts'
import { moveToTrash } from './trash.ts'

/** Brings the files on the disk from one tree to another, each whole or not at all. A file that was changed meanwhile
 * is left alone, and so is all that follows: false then.
 * @throws LogbookError `locked` for a session that a process is recording */
export function bringToDisk(git: Git, home: string, from: Tree, to: Tree, machine: Machine): boolean {
  // What is new comes first: a version that is kept twice is there before its old place is taken.
  const isNew = ([path]: [string, string | null]) => !from.has(path)
  const all = [...changesBetween(from, to)]
  const changes = new Map([...all.filter(isNew), ...all.filter((change) => !isNew(change))])
  const texts = textsOf(
    git,
    [...changes.values()].filter((object): object is string => object !== null),
  )
  for (const [path, object] of changes) {
    const file = join(home, path)
    makeFolder(dirname(file))
    const lock = path.startsWith('sessions/') ? lockOf(file, path, machine) : null
    try {
      if (!isAsIn(git, from, path, file, object)) return false
      const text = object === null ? null : (texts.get(object) ?? '')
      if (text !== null) writeDurably(file, text, path.startsWith('sessions/'))
      else {
        rmSync(backupOf(file), { force: true })
        moveToTrash(home, file, machine)
      }
    } finally {
      lock?.release()
    }
  }
  return true
}

function lockOf(file: string, path: string, machine: Machine): Lock {
  const outcome = takeLock(`${file}.lock`, machine)
  if (isLock(outcome)) return outcome
  throw lockedError(`The session ${path}`, `${file}.lock`, outcome)
}

/** Whether a file is as one tree has it, or already as it is to be. A session that is none any more, which
 * is in no tree, is set aside. */
function isAsIn(git: Git, tree: Tree, path: string, file: string, wanted: string | null): boolean {
  const text = textAt(file)
  if (text === null) return true
  const isDamaged =
    path.startsWith('sessions/') && (text === undefined || readSession(text, null).outcome !== 'session')
  if (isDamaged || text === undefined) {
    quarantine(file)
    return true
  }
  const object = writeText(git, text)
  return object === tree.get(path) || object === wanted
}

/** Null where there is no file, undefined where it is no text. */
function textAt(file: string): string | null | undefined {
  try {
    return readTextFile(file)
  } catch (error) {
    if (error instanceof UnreadableFile) return undefined
    throw error
  }
}
