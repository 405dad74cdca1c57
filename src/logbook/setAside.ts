import { readdirSync, rmSync } from 'node:fs'
import { basename, dirname, join, relative } from 'node:path'
import { flushFolder } from './durableWrite.ts'
import type { Damage } from './model.ts'
import { printableOf } from './printable.ts'
import { linkBeside } from './secondName.ts'
import { yearFoldersOf } from './sessionName.ts'

/** Gives a damaged file another name beside, `NAME.damaged-1` or the next number that is free, and takes it
 * out of the way. Nothing is ever written over by this.
 * @returns the new name, without its folder */
export function quarantine(path: string): string {
  for (let number = 1; ; number += 1) {
    const aside = `${path}.damaged-${number}`
    try {
      linkBeside(path, aside)
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') continue
      throw error
    }
    rmSync(path)
    flushFolder(dirname(path))
    return basename(aside)
  }
}

/** What was set aside by an earlier repair may hold what the copy in its place does not: it is damage until
 * the athlete has looked at it and removed it. */
export function quarantinedFiles(home: string): Damage[] {
  return [home, ...yearFoldersOf(home)].flatMap((folder) =>
    filesIn(folder)
      .filter((name) => /\.json\.damaged-\d+$/.test(name))
      .map((name) => ({
        file: printableOf(relative(home, join(folder, name))),
        wrong: 'The file was damaged and set aside before.',
        done: 'It was left alone; take from it what can be saved, then remove it.',
      })),
  )
}

/** Nothing for a folder that is not there, or cannot be listed, which is named as such. */
function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder).sort()
  } catch {
    return []
  }
}
