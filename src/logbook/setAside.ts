import { rmSync } from 'node:fs'
import { basename, dirname } from 'node:path'
import { flushFolder } from './durableWrite.ts'
import { giveSecondName } from './secondName.ts'

/** Gives a damaged file another name beside, `NAME.damaged-1` or the next number that is free, and takes it
 * out of the way. Nothing is ever written over by this.
 * @returns the new name, without its folder */
export function setAside(path: string): string {
  for (let number = 1; ; number += 1) {
    const aside = `${path}.damaged-${number}`
    try {
      giveSecondName(path, aside)
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'EEXIST') continue
      throw error
    }
    rmSync(path)
    flushFolder(dirname(path))
    return basename(aside)
  }
}
