import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs'
import { isatty } from 'node:tty'
import { reasonOf } from '../logbook/errors.ts'
import { pause } from '../logbook/machine.ts'
import { writeBytes } from '../ui/terminal/capabilities.ts'
import { mostTextBytes, sanitizeLines } from '../validate/unsafe.ts'
import { CommandError, type Io } from './command.ts'

/* Standard output and standard error, written as files: when a write returns, the text has left the process, and
 * Node's streams and network modules need not be loaded. */

export interface Output {
  out(text: string): void
  err(text: string): void
  /** Writes a control sequence to the terminal unchanged. */
  steer(sequence: string, to: 1 | 2): void
  /** The exit status if something could not be written; null otherwise. A reader that stops early (head, less) is
   * not a failure. */
  status(): 0 | 1 | null
}

/** @param write like `writeSync`: returns how many bytes it wrote */
export function outputOf(write: (descriptor: number, bytes: Uint8Array) => number = writeBytes): Output {
  let status: 0 | 1 | null = null
  const err = (text: string) => {
    try {
      writeAll(write, 2, sanitizeLines(text))
    } catch {
      // Standard error is gone, so the failure cannot be reported.
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
    // Later text would make no sense without the text that was lost.
    out: (text) => {
      if (status !== null) return
      try {
        writeAll(write, 1, sanitizeLines(text))
      } catch (error) {
        failed(error as NodeJS.ErrnoException)
      }
    },
    steer: (sequence, to) => {
      try {
        writeAll(write, to, sequence)
      } catch {
        // A closed terminal needs no control sequences.
      }
    },
    status: () => status,
  }
}

/** Writes all of a text, in as many calls as the receiver needs. */
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
    readText: (path, what, limit = mostTextBytes) => read(path, what, limit, decoded),
    readBytes: (path, what) => read(path, what, mostTextBytes, (bytes) => bytes),
    terminal: { in: isatty(0), out: isatty(1), err: isatty(2) },
    get columns() {
      return (isatty(1) && process.stdout.columns) || 80
    },
    env: process.env,
    now: () => new Date(),
  }
}

function decoded(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
}

function read<T>(path: string, what: string, limit: number, as: (bytes: Uint8Array) => T): T {
  const shown = path === '-' ? 'standard input' : `"${path}"`
  try {
    const bytes = readAtMost(path, limit + 1)
    if (bytes.length > limit) {
      throw new CommandError(
        'too_large',
        `The ${what} ${shown} is larger than ${limit / mostTextBytes} MiB. Give a smaller file.`,
      )
    }
    return as(bytes)
  } catch (error) {
    if (error instanceof CommandError) throw error
    throw new CommandError('cannot_read', unreadable(what, shown, error))
  }
}

/** Reads in a loop, because a pipe may return less than was asked for. */
function readAtMost(path: string, limit: number): Buffer {
  // Without this flag, opening a pipe without a writer would wait.
  const descriptor = path === '-' ? 0 : openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0))
  try {
    const status = fstatSync(descriptor)
    if (status.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' })
    // A descriptor that a shell has opened already, as in <(...), is read like standard input.
    if (!status.isFile() && path !== '-' && !/^\/(?:dev|proc\/self)\/(?:stdin|fd\/\d+)$/.test(path))
      throw Object.assign(new Error(), { code: 'ENOTFILE' })
    const buffer = Buffer.alloc(limit)
    let filled = 0
    while (filled < limit) {
      const count = readNow(descriptor, buffer, filled)
      if (count === 0) break
      filled += count
    }
    return buffer.subarray(0, filled)
  } finally {
    if (descriptor !== 0) closeSync(descriptor)
  }
}

/** Waits when a non-blocking pipe has no data yet (EAGAIN). */
function readNow(descriptor: number, buffer: Buffer, filled: number): number {
  for (;;) {
    try {
      return readSync(descriptor, buffer, filled, buffer.length - filled, null)
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code
      if (code === 'EOF') return 0
      if (code !== 'EAGAIN') throw error
      pause(10)
    }
  }
}

function unreadable(what: string, shown: string, error: unknown): string {
  if (error instanceof TypeError) return `The ${what} ${shown} is not UTF-8 text. Save it as UTF-8 text.`
  const code = (error as NodeJS.ErrnoException).code
  if (code === 'ENOENT') return `There is no ${what} ${shown}. Check the path.`
  if (code === 'EISDIR') return `${shown} is a folder, not a ${what}. Give the path of a file.`
  if (code === 'ENOTFILE') return `${shown} is a pipe or a device, not a ${what}. Give the path of a file.`
  if (code === 'ELOOP') return `${shown} is a link that leads back to itself. Give the path of a file.`
  if (code === 'EACCES' || code === 'EPERM')
    return `The ${what} ${shown} may not be read. Change its permissions or give another file.`
  return `The ${what} ${shown} cannot be read (${code ?? 'unknown error'}). Give another file.`
}

/* A progress line for long work. */

/** Progress is shown only after this many milliseconds. */
const patience = 500
const between = 100

type ProgressIo = Pick<Io, 'terminal' | 'env' | 'now' | 'steer'>
type Show = (done: number, of: number) => void

/** A progress line on the terminal for long work; without a terminal nothing is shown. */
export interface ProgressLine {
  show: Show
  clear(): void
}

/** @param what the name of the work: `reading session` */
export function progressLine(io: ProgressIo, what: string): ProgressLine {
  let shownAt = io.now().getTime() + patience
  let isShown = false
  const mayShow = io.terminal.err && io.env.TERM !== 'dumb'
  return {
    show(done, of) {
      const now = io.now().getTime()
      if (!mayShow || now < shownAt) return
      io.steer(`\r${what} ${done + 1} of ${of}`)
      shownAt = now + between
      isShown = true
    },
    clear() {
      if (isShown) io.steer('\r\u001b[K')
      isShown = false
    },
  }
}

/** Does some work with a progress line, which is gone afterwards. */
export function withProgress<T>(io: ProgressIo, what: string, work: (show: Show) => T): T {
  const line = progressLine(io, what)
  try {
    return work(line.show)
  } finally {
    line.clear()
  }
}

/** For a screen reader: a single line with the number of sessions to read. */
export function spokenProgress(io: Pick<Io, 'now' | 'out'>): ProgressLine {
  const saidAt = io.now().getTime() + patience
  let isSaid = false
  return {
    show(_done, of) {
      if (isSaid || io.now().getTime() < saidAt) return
      isSaid = true
      io.out(`reading ${of} sessions, which takes a moment\n`)
    },
    clear() {
      isSaid = true
    },
  }
}
