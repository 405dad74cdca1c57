import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

const memory = '/dev/shm'
const place = existsSync(memory) ? memory : tmpdir()

/** A folder of this test's own, removed when it has ended; in memory where the system has a place for that, since
 * git and the logbook flush every file. Nothing can be run from there on some systems. */
export function folderInMemory(): string {
  const folder = mkdtempSync(join(place, 'pausebook-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
