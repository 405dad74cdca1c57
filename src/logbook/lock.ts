import { statSync, writeFileSync } from 'node:fs'
import { nanoid } from 'nanoid'
import { hasShape } from '../validate/faults.ts'
import { sanitize } from '../validate/unsafe.ts'
import { isLinked, linkOver, removeFile, removeQuietly, temporaryOf } from './durableFile.ts'
import { attempt, LogbookError } from './errors.ts'
import { lockShape } from './generated/shapes.js'
import { localTimeOf, type Machine, pause } from './machine.ts'
import type { LockText, Owner } from './model.ts'
import { readObject, readTextFile } from './text.ts'

/* A lock is a file created with link(), which is atomic and fails if the name is taken, so nobody ever
 * sees it half written. It names the process that holds it; when that process ends, the lock is dead at once.
 *
 * A dead lock is taken over in two steps, so that one of many contenders wins. The right to replace the lock
 * named N is a lock, too: `PATH.N`. Whoever holds it checks again that the lock is still N, and renames its own lock
 * over it. */

/** Held until `release`. */
export interface Lock {
  release(): void
}

/** Takes the lock at this path, or returns its owner. */
export function takeLock(path: string, machine: Machine): Lock | Owner {
  const ours = lockTextOf(machine)
  const temporary = temporaryOf(path)
  try {
    writeFileSync(temporary, JSON.stringify(ours), { flag: 'wx', mode: 0o600 })
    for (;;) {
      if (isLinked(temporary, path)) return lockOf(path, ours)
      const found = readLock(path)
      if (found === null) continue
      if (!isDead(found, machine)) return found
      const right = takeLock(`${path}.${found.name}`, machine)
      try {
        // If the lock has changed meanwhile, the right to take over the dead one is worth nothing.
        if (!isSameLock(path, found)) continue
        if (!isLock(right)) return right
        linkOver(temporary, path)
        return lockOf(path, ours)
      } finally {
        if (isLock(right)) right.release()
      }
    }
  } finally {
    removeQuietly(temporary)
  }
}

export function isLock(outcome: Lock | Owner): outcome is Lock {
  return 'release' in outcome
}

/** The living owner of the lock at this path; null if nobody holds it. */
export function lockOwner(path: string, machine: Machine): Owner | null {
  const found = readLock(path)
  return found === null || isDead(found, machine) ? null : found
}

/** Takes a lock, or refuses if another process holds it.
 * @param what the locked thing, as the beginning of a sentence
 * @param tries how often, 10 ms apart
 * @throws LogbookError `locked` */
export function lockOrRefuse(what: string, path: string, machine: Machine, tries = 1): Lock {
  for (let left = tries; ; left -= 1) {
    const outcome = takeLock(path, machine)
    if (isLock(outcome)) return outcome
    if (left <= 1) throw lockedError(what, path, outcome)
    pause(10)
  }
}

/** Runs an action while holding a lock, with the parameters of `lockOrRefuse`.
 * @throws LogbookError `locked` */
export function underLock<T>(what: string, path: string, machine: Machine, work: () => T, tries = 1): T {
  const lock = lockOrRefuse(what, path, machine, tries)
  try {
    return work()
  } finally {
    lock.release()
  }
}

/** @param what the locked thing, as the beginning of a sentence */
export function lockedError(what: string, path: string, owner: Owner): LogbookError {
  const since = sanitize(owner.at.slice(0, 16).replace('T', ' '))
  return new LogbookError(
    'locked',
    `${what} is in use by process ${owner.pid} on ${sanitize(owner.host)} since ${since}. ` +
      `Close it there; if that machine is gone for good, remove ${sanitize(path)}.`,
  )
}

function lockOf(path: string, ours: LockText): Lock {
  return {
    // If it fails, the lock is dead as soon as this process ends, and the next contender takes it over.
    release: () => {
      attempt(() => {
        if (isSameLock(path, ours)) removeFile(path)
      })
    },
  }
}

function isSameLock(path: string, lock: LockText): boolean {
  return readLock(path)?.name === lock.name
}

/* The content of a lock: who holds it, and a name that no other lock has. */

/** A lock that a power cut ruined belongs to a process that is gone. */
const nobody: LockText = {
  pid: 0,
  host: '',
  boot: null,
  began: null,
  space: null,
  at: '',
  name: 'unreadable',
}

/** Null without a lock. On a file system without hard links, a lock that cannot be read may still be half written:
 * wait until it is a second old. */
function readLock(path: string): LockText | null {
  for (;;) {
    const text = readTextFile(path)
    if (text === null) return null
    if (typeof text !== 'string' && text.cause !== 'ruined')
      throw new LogbookError('cannot_write', `The lock ${sanitize(path)} ${text.wrong}. Remove it.`)
    const read = typeof text === 'string' ? readObject(text) : null
    if (hasShape<LockText>(lockShape(), read)) return read
    const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0)
    // A file created in this millisecond can look newer than the clock.
    if (Math.abs(age) > 1000) return nobody
    pause(10)
  }
}

/** Whether the owner is certainly gone. An owner on another machine, or one that cannot be checked, counts as living. A
 * machine is known by its name or by its boot, which a container or a renamed machine shares with the checker; a
 * process is known by its number only within its own process-number space. */
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

function lockTextOf(machine: Machine): LockText {
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
