import { closeSync, constants, copyFileSync, fsyncSync, linkSync, openSync } from 'node:fs'

/** What file systems answer that know no second name for a file: exFAT, some network folders. */
const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']

/** Gives a file a second name, or where there are no such names, makes a flushed copy of it.
 * @throws the system's error: EEXIST where the name is taken, ENOENT where there is no file */
export function linkBeside(path: string, second: string): void {
  try {
    linkSync(path, second)
  } catch (error) {
    if (!noLinks.includes((error as NodeJS.ErrnoException).code ?? '')) throw error
    copyFileSync(path, second, constants.COPYFILE_EXCL)
    const descriptor = openSync(second, 'r+')
    try {
      fsyncSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
  }
}
