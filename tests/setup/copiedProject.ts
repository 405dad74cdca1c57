import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'

/** A copy of the sources that the program is built from, with this project's packages.
 * @returns its folder, and a function that removes it */
export function copiedProject(): { folder: string; end: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-copied-'))
  for (const path of ['src', 'package.json', 'package-lock.json'])
    cpSync(path, join(folder, path), { recursive: true })
  // A junction: Windows lets only an administrator make a link.
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'), 'junction')
  return { folder, end: () => rmSync(folder, { recursive: true, force: true }) }
}
