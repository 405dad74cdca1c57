import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

/** A folder for this test, removed after it has ended. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
