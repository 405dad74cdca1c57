import { readSync } from 'node:fs'
import { isatty } from 'node:tty'
import { attempt, codeOf, reasonOf } from '../logbook/errors.ts'
import { pause } from '../logbook/machine.ts'
import { readFileBytes, textOf, type Unreadable } from '../logbook/text.ts'
import { writeBytes } from '../ui/terminal/capabilities.ts'
import { mostTextBytes, sanitizeLines } from '../validate/unsafe.ts'
import { CommandError, type Io } from './command.ts'

/* Standard output and standard error, written as files: when a write returns, the text has left the process. Node's
 * own stream to a file ignores how much of a text was written, so on a full disk it would lose the rest silently. */

export type Output = ReturnType<typeof outputOf>

/** @param write like `writeSync`: returns how many bytes it wrote */
export function outputOf(write: (descriptor: number, bytes: Uint8Array) => number = writeBytes) {
  let status: 0 | 1 | null = null
  // If the receiver is gone, nobody is left to be told, and a closed terminal needs no control sequences.
  const steer = (text: string, to: 1 | 2) => void attempt(() => writeAll(write, to, text))
  const err = (text: string) => steer(sanitizeLines(text), 2)
  const failed = (error: unknown) => {
    const code = codeOf(error)
    status = code === 'EPIPE' ? 0 : 1
    // The terminal was closed: SIGHUP ends the run.
    if (code === 'EPIPE' || code === 'EIO') return
    err(`pausebook: The output cannot be written: ${reasonOf(error)}. Make room or send it elsewhere.\n`)
  }
  return {
    err,
    // Later text would make no sense without the text that was lost.
    out: (text: string) => {
      if (status !== null) return
      try {
        writeAll(write, 1, sanitizeLines(text))
      } catch (error) {
        failed(error)
      }
    },
    /** Writes a control sequence to the terminal unchanged. */
    steer,
    /** The exit status if something could not be written; null otherwise. A reader that stops early (head, less) is
     * not a failure. */
    status: () => status,
  }
}

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
      if (codeOf(error) !== 'EAGAIN') throw error
      // Wait until the pipe has room.
      pause(10)
    }
  }
}

/** The process's own streams, files, environment and clock. */
export function processIo({ out, err, steer }: Pick<Output, 'out' | 'err' | 'steer'>): Io {
  return {
    out,
    err,
    steer: (sequence) => steer(sequence, isatty(2) ? 2 : 1),
    readText: (path, what, limit = mostTextBytes) => {
      return orUnreadable(textOf(readBytes(path, what, limit), true), path, what)
    },
    readBytes: (path, what) => readBytes(path, what, mostTextBytes),
    terminal: { in: isatty(0), out: isatty(1), err: isatty(2) },
    get columns() {
      return (isatty(1) && process.stdout.columns) || 80
    },
    env: process.env,
    now: () => new Date(),
  }
}

function readBytes(path: string, what: string, limit: number): Buffer {
  const descriptor = descriptorOf(path)
  const read = descriptor === null ? readFileBytes(path, limit) : readOpen(descriptor, limit)
  return orUnreadable(read, path, what)
}

/** @throws CommandError for a file that cannot be read or does not exist */
function orUnreadable<T extends Buffer | string>(read: T | Unreadable | null, path: string, what: string): T {
  if (typeof read === 'string' || Buffer.isBuffer(read)) return read
  const shown = path === '-' ? 'standard input' : `"${path}"`
  const message =
    read === null
      ? `There is no ${what} ${shown}. Check the path.`
      : `The ${what} ${shown} ${read.wrong}. ${read.cause === 'ruined' ? 'Save it as UTF-8' : 'Give another file'}.`
  throw new CommandError('cannot_read', message)
}

/** The descriptor of standard input, or of a pipe that a shell has opened, as in <(...); null for other paths. */
function descriptorOf(path: string): number | null {
  if (path === '-' || path === '/dev/stdin') return 0
  const [, opened] = /^\/(?:dev|proc\/self)\/fd\/(\d{1,9})$/.exec(path) ?? []
  return opened === undefined ? null : Number(opened)
}

/** Reads in a loop, because a pipe may return less than was asked for, or have nothing yet (EAGAIN). */
function readOpen(descriptor: number, limit: number): Buffer | Unreadable {
  const buffer = Buffer.alloc(limit + 1)
  let filled = 0
  while (filled <= limit) {
    try {
      const count = readSync(descriptor, buffer, filled, buffer.length - filled, null)
      if (count === 0) return buffer.subarray(0, filled)
      filled += count
    } catch (error) {
      const code = codeOf(error)
      if (code === 'EOF') return buffer.subarray(0, filled)
      if (code !== 'EAGAIN') return { wrong: `cannot be read (${code})` }
      pause(10)
    }
  }
  return { wrong: `is larger than ${limit / mostTextBytes} MiB` }
}
