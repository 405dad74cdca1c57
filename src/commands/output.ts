import { fstatSync, writeSync } from 'node:fs'
import { isatty } from 'node:tty'
import { pause } from '../logbook/pause.ts'
import { reasonOf } from '../logbook/reasons.ts'

/* Standard output and standard error, written to as files: what was written has left the process, and neither
 * Node's streams nor its network modules, on which they are built, have to be loaded for it. */

export interface Output {
  out(text: string): void
  err(text: string): void
  /** What the process ends with when something could not be written; null when all was. A reader that has seen
   * enough (head, less) is no failure. */
  status(): 0 | 1 | null
}

/** @param write as `writeSync`: returns how many of the bytes were taken */
export function outputOf(write: (descriptor: number, bytes: Uint8Array) => number = writeBytes): Output {
  let status: 0 | 1 | null = null
  const err = (text: string) => {
    try {
      writeAll(write, 2, text)
    } catch {
      // There is nowhere left to say it.
    }
  }
  const failed = (error: NodeJS.ErrnoException) => {
    status = error.code === 'EPIPE' ? 0 : 1
    // The terminal was closed: SIGHUP ends the run.
    if (error.code === 'EPIPE' || error.code === 'EIO') return
    err(`pausebook: The output cannot be written: ${reasonOf(error)}. Make room or send it elsewhere.\n`)
  }
  return {
    err,
    // What follows a text that was lost would make no sense without it.
    out: (text) => {
      if (status !== null) return
      try {
        writeAll(write, 1, text)
      } catch (error) {
        failed(error as NodeJS.ErrnoException)
      }
    },
    status: () => status,
  }
}

/** Whether a descriptor is a terminal. A file or a pipe is told apart without loading what knows terminals. */
export function isTerminal(descriptor: number): boolean {
  try {
    if (process.platform !== 'win32' && !fstatSync(descriptor).isCharacterDevice()) return false
  } catch {
    return false
  }
  return isatty(descriptor)
}

/** All of a text, in as many turns as the other end needs. */
function writeAll(
  write: (descriptor: number, bytes: Uint8Array) => number,
  descriptor: number,
  text: string,
) {
  let left: Uint8Array = Buffer.from(text, 'utf8')
  while (left.length > 0) {
    try {
      left = left.subarray(write(descriptor, left))
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error
      // Until it has room.
      pause(10)
    }
  }
}

/** A console of Windows takes bytes for its own code page; Node's stream hands it characters. */
function writeBytes(descriptor: number, bytes: Uint8Array): number {
  if (process.platform !== 'win32' || !isTerminal(descriptor)) return writeSync(descriptor, bytes)
  const stream = descriptor === 1 ? process.stdout : process.stderr
  stream.write(bytes)
  return bytes.length
}
