import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

const memory = '/dev/shm'
const place = existsSync(memory) ? memory : tmpdir()

/** A folder for this test, removed after it; in memory if the system supports that, since
 * git and the logbook flush every file. On some systems nothing can be run from there. */
export function folderInMemory(): string {
  const folder = mkdtempSync(join(place, 'pausebook-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
