import { isAscii } from 'node:buffer'
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs'

/** Larger than a thousand sessions; what is larger is no file of ours and is not read into memory. */
const usualLimit = 64 * 1024 * 1024

/** What is wrong with a file before its text is looked at, as the end of a sentence: "is a folder". */
export class UnreadableFile extends Error {
  override name = 'UnreadableFile'
  /** The bytes are no text at all, so nothing is lost when the file gets another name. */
  readonly isNoText: boolean

  constructor(message: string, isNoText = false) {
    super(message)
    this.isNoText = isNoText
  }
}

/** The text of a file; null where there is none.
 * @throws UnreadableFile for a folder, a pipe, a file that may not be read, is too large or is not UTF-8 */
export function readTextFile(path: string, mostBytes = usualLimit): string | null {
  const bytes = readFileBytes(path, mostBytes)
  return bytes === null ? null : textOf(bytes)
}

/** The bytes of a file; null where there is none.
 * @throws UnreadableFile for a folder, a pipe, a file that may not be read or is too large */
export function readFileBytes(path: string, mostBytes = usualLimit): Buffer | null {
  try {
    // A pipe in a file's place would be waited for without the flag.
    const descriptor = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
    try {
      const status = fstatSync(descriptor)
      if (status.isDirectory()) throw new UnreadableFile('is a folder')
      if (!status.isFile()) throw new UnreadableFile('is no ordinary file')
      if (status.size > mostBytes) throw new UnreadableFile(`is larger than ${mostBytes / 1024 / 1024} MiB`)
      return readFileSync(descriptor)
    } finally {
      closeSync(descriptor)
    }
  } catch (error) {
    if (error instanceof UnreadableFile) throw error
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'ENOENT') return null
    if (code === 'EACCES' || code === 'EPERM') throw new UnreadableFile('may not be read by this user')
    if (code === 'EISDIR') throw new UnreadableFile('is a folder')
    throw new UnreadableFile(`cannot be read (${code ?? 'unknown error'})`)
  }
}

/** @throws UnreadableFile for what is not UTF-8 */
export function textOf(bytes: Buffer): string {
  // The digest of ten thousand sessions is read in half the time where it is plain ASCII.
  if (isAscii(bytes)) return bytes.toString('latin1')
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw new UnreadableFile('is not UTF-8 text', true)
  }
}
