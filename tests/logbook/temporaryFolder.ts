import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

/** A folder of this test's own, removed when it has ended. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
