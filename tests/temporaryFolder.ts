import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'

/** A folder, removed when this test is over.
 * @param whenOver `afterAll` for a folder of all tests of a file */
export function temporaryFolder(whenOver: (remove: () => void) => void = onTestFinished): string {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-'))
  whenOver(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
