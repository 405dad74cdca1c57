import { statSync } from 'node:fs'
import { expect } from 'vitest'

/** Expects that only the user may read and write a file or folder. Passes on Windows, where a mode does not say
 * that. */
export function expectPrivate(path: string): void {
  const status = statSync(path)
  if (process.platform === 'win32') return
  expect(status.mode & 0o777).toBe(status.isDirectory() ? 0o700 : 0o600)
}
