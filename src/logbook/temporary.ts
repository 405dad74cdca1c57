import { readdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { nanoid } from 'nanoid'
import type { Machine } from './machine.ts'
import { yearFoldersOf } from './sessionName.ts'

const hour = 60 * 60 * 1000

/** A name beside a file for what is not finished yet: whose it is can be read from it. */
export function temporaryOf(path: string): string {
  return `${path}.${process.pid}.${nanoid(8)}.tmp`
}

function isOld(path: string, machine: Machine): boolean {
  const changed = statSync(path, { throwIfNoEntry: false })?.mtimeMs
  return changed !== undefined && machine.now().getTime() - changed > hour
}

/** Removes the temporary files and folders in a folder that a killed process has left, and what is left of
 * taking over a dead lock. One of a process that runs is
 * left alone for an hour: its number may have gone to another process since. */
export function sweepTemporaries(folder: string, machine: Machine): void {
  for (const name of readdirSync(folder)) {
    if (name.endsWith('.json')) continue
    const pid = /\.(\d+)\.[\w-]{8}\.tmp$/.exec(name)?.[1]
    if (pid === undefined && !/\.lock\.[\w-]+\.\d+$/.test(name)) continue
    const path = join(folder, name)
    const isOrphan = pid !== undefined && !machine.isRunning(Number(pid))
    if (isOrphan || isOld(path, machine)) rmSync(path, { recursive: true, force: true })
  }
}

/** Sweeps the folder of a logbook and those of its years, the newest first.
 * @param years how many of them: what killed programs leave lies where they recorded */
export function sweepLogbook(home: string, machine: Machine, years = Number.POSITIVE_INFINITY): void {
  const newest = yearFoldersOf(home).sort().reverse().slice(0, years)
  for (const folder of [home, ...newest]) {
    try {
      sweepTemporaries(folder, machine)
    } catch {
      // A folder that cannot be listed is named by whoever needs it.
    }
  }
}
