import { readFileSync, statSync } from 'node:fs'
import { nanoid } from 'nanoid'
import { hasShape } from '../shapes/faults.ts'
import { lockShape } from './generated/shapes.js'
import type { LockText } from './lockModel.ts'
import { localTimeOf, type Machine } from './machine.ts'
import { pause } from './pause.ts'

/* What stands in a lock: who holds it, and a name that no other lock has. */

/** What a power cut left of a lock belongs to a process that is gone. */
const nobody: LockText = { pid: 0, host: '', boot: null, began: null, at: '', name: 'unreadable' }

/** Null where there is no lock. One that cannot be read may be in the making, where a file system knows no
 * second names: it is waited for until it is a second old. */
export function readLock(path: string): LockText | null {
  for (;;) {
    try {
      const read: unknown = JSON.parse(readFileSync(path, 'utf8'))
      if (hasShape<LockText>(lockShape(), read)) return read
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code === 'ENOENT') return null
      if (code !== undefined) throw error
    }
    const age = Date.now() - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0)
    // A file made in this millisecond is a fraction younger than the clock says.
    if (Math.abs(age) > 1000) return nobody
    pause(10)
  }
}

/** Gone for certain: on another machine, or where nothing can be known, an owner counts as living. */
export function isDead(owner: LockText, machine: Machine): boolean {
  if (owner.name === nobody.name) return true
  if (owner.host !== machine.host) return false
  if (owner.boot !== machine.boot) return true
  if (!machine.isRunning(owner.pid)) return true
  const began = machine.began(owner.pid)
  return owner.began !== null && began !== null && owner.began !== began
}

export function lockTextOf(machine: Machine): LockText {
  const { pid, host, boot } = machine
  return { pid, host, boot, began: machine.began(pid), at: localTimeOf(machine.now()), name: nanoid(12) }
}
