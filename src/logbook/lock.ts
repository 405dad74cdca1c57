import { readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { nanoid } from 'nanoid'
import { hasShape } from '../validate/faults.ts'
import { sanitize } from '../validate/unsafe.ts'
import { linkBeside, renameOver, temporaryOf } from './durableFile.ts'
import { LogbookError } from './errors.ts'
import { lockShape } from './generated/shapes.js'
import { localTimeOf, type Machine, pause } from './machine.ts'
import type { Owner } from './model.ts'
import type { LockText } from './storedModels.ts'
import { readTextFile, UnreadableFile } from './text.ts'

/* A lock is a file that comes to be with link(), which is atomic and fails where the name is taken, so it is
 * never seen half written. It says which process holds it; that one gone, the lock is dead at once.
 *
 * A dead lock is taken over in two steps, so that of many contenders one wins: the right to replace the lock
 * named N is itself linked, as `N.1`, then, should its owner have died too, as `N.2` and so on; who has it
 * looks once more whether the lock is still N, and renames its own over it. */

/** Held until `release`. */
export interface Lock {
  release(): void
}

/** Takes the lock at this path, or says who has it. */
export function takeLock(path: string, machine: Machine): Lock | Owner {
  const own = lockTextOf(machine)
  const temporary = temporaryOf(path)
  try {
    writeFileSync(temporary, JSON.stringify(own), { flag: 'wx', mode: 0o600 })
    for (;;) {
      if (linked(temporary, path)) return lockOf(path, own)
      const found = readLock(path)
      if (found === null) continue
      if (!isDead(found, machine)) return found
      const outcome = takeOver(path, found, temporary, machine)
      if (outcome === 'taken') return lockOf(path, own)
      if (outcome !== 'changed') return outcome
    }
  } finally {
    rmSync(temporary, { force: true })
  }
}

/** Whether it was taken. */
export function isLock(outcome: Lock | Owner): outcome is Lock {
  return 'release' in outcome
}

/** The living owner of the lock at this path; null when nobody holds it. */
export function lockOwner(path: string, machine: Machine): Owner | null {
  const found = readLock(path)
  return found === null || isDead(found, machine) ? null : found
}

/** Does something short while holding a lock, waiting for it up to two seconds.
 * @throws LogbookError `locked` */
export function withLock<T>(path: string, machine: Machine, work: () => T): T {
  for (let attempt = 0; ; attempt += 1) {
    const outcome = takeLock(path, machine)
    if (!isLock(outcome)) {
      if (attempt === 200) throw lockedError(`The file ${basename(path, '.lock')}`, path, outcome)
      pause(10)
      continue
    }
    try {
      return work()
    } finally {
      outcome.release()
    }
  }
}

/** @param what is locked, as the beginning of a sentence */
export function lockedError(what: string, path: string, owner: Owner): LogbookError {
  const since = sanitize(owner.at.slice(0, 16).replace('T', ' '))
  return new LogbookError(
    'locked',
    `${what} is in use by process ${owner.pid} on ${sanitize(owner.host)} since ${since}. ` +
      `Close it there; if that machine is gone for good, remove ${sanitize(path)}.`,
  )
}

function lockOf(path: string, own: LockText): Lock {
  return {
    release: () => {
      try {
        if (readLock(path)?.name === own.name) rmSync(path, { force: true })
      } catch {
        // It is dead as soon as this process ends, and is taken over then.
      }
    },
  }
}

function takeOver(
  path: string,
  dead: LockText,
  temporary: string,
  machine: Machine,
): 'taken' | 'changed' | Owner {
  for (let turn = 1; ; turn += 1) {
    const right = `${path}.${dead.name}.${turn}`
    if (!linked(temporary, right)) {
      const rival = readLock(right)
      if (rival === null) return 'changed'
      // Once the lock is another, a right to the dead one is only held for a look and names nobody.
      if (!isDead(rival, machine)) return isStill(path, dead) ? rival : 'changed'
      continue
    }
    const isUnchanged = isStill(path, dead)
    if (isUnchanged) renameOver(copyOf(temporary, path), path)
    // The lock named N is gone for good: whoever still waits for a right to it will see so.
    removeRights(path, dead.name)
    return isUnchanged ? 'taken' : 'changed'
  }
}

function isStill(path: string, lock: LockText): boolean {
  return readLock(path)?.name === lock.name
}

/** A second name for the same file, to be renamed away. */
function copyOf(temporary: string, path: string): string {
  const second = temporaryOf(path)
  linkBeside(temporary, second)
  return second
}

function removeRights(path: string, name: string): void {
  const folder = dirname(path)
  const beginning = `${basename(path)}.${name}.`
  for (const file of readdirSync(folder)) {
    if (file.startsWith(beginning) && /^\d+$/.test(file.slice(beginning.length)))
      rmSync(join(folder, file), { force: true })
  }
}

function linked(temporary: string, path: string): boolean {
  try {
    linkBeside(temporary, path)
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  }
}

/* The content of a lock: who holds it, and a name that no other lock has. */

/** What a power cut left of a lock belongs to a process that is gone. */
const nobody: LockText = {
  pid: 0,
  host: '',
  boot: null,
  began: null,
  space: null,
  at: '',
  name: 'unreadable',
}

/** Null where there is no lock. One that cannot be read may be in the making, where a file system knows no
 * second names: it is waited for until it is a second old. */
export function readLock(path: string): LockText | null {
  for (;;) {
    try {
      const text = readTextFile(path)
      if (text === null) return null
      const read: unknown = JSON.parse(text)
      if (hasShape<LockText>(lockShape(), read)) return read
    } catch (error) {
      if (error instanceof UnreadableFile && !error.isRuined)
        throw new LogbookError('cannot_write', `The lock ${sanitize(path)} ${error.message}. Remove it.`)
    }
    const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0)
    // A file made in this millisecond is a fraction younger than the clock says.
    if (Math.abs(age) > 1000) return nobody
    pause(10)
  }
}

/** Gone for certain: on another machine, or where nothing can be known, an owner counts as living. A machine is known by
 * its name or by its boot, which a container and a renamed machine share with who looks; a process by its number only
 * among those of its own space. */
export function isDead(owner: LockText, machine: Machine): boolean {
  if (owner.name === nobody.name) return true
  const isSameBoot = owner.boot !== null && owner.boot === machine.boot
  if (!isSameBoot && owner.host !== machine.host) return false
  if (owner.boot !== machine.boot) return owner.boot !== null && machine.boot !== null
  if ((owner.space ?? machine.space) !== machine.space) return false
  if (!machine.isRunning(owner.pid)) return true
  const began = machine.began(owner.pid)
  return owner.began !== null && began !== null && owner.began !== began
}

export function lockTextOf(machine: Machine): LockText {
  const { pid, host, boot, space } = machine
  return {
    pid,
    host,
    boot,
    space,
    began: machine.began(pid),
    at: localTimeOf(machine.now()),
    name: nanoid(12),
  }
}
