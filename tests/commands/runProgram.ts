import { CommandError, type Io } from '../../src/commands/command.ts'
import { runCommandLine } from '../../src/commands/program.ts'

export interface Ran {
  code: number
  stdout: string
  stderr: string
}

/** Runs a command line in this process.
 * @param given `files`: what readText finds, by path, instead of the disk ('-' is standard input);
 * `logbook`: its directory; the clock is stopped at `now` */
export async function runProgram(
  argv: readonly string[],
  given: {
    files?: Record<string, string | Uint8Array>
    env?: Record<string, string>
    columns?: number
    now?: Date
    logbook?: string
    terminal?: boolean
  } = {},
): Promise<Ran> {
  const ran: Ran = { code: 0, stdout: '', stderr: '' }
  const terminal = given.terminal ?? false
  const readBytes = (path: string, what: string) => {
    const content = given.files?.[path]
    if (content !== undefined)
      return typeof content === 'string' ? new TextEncoder().encode(content) : content
    throw new CommandError('cannot_read', `There is no ${what} "${path}". Check the path.`)
  }
  const io: Io = {
    out: (text) => {
      ran.stdout += text
    },
    err: (text) => {
      ran.stderr += text
    },
    steer: (sequence) => {
      ran.stderr += sequence
    },
    readText: (path, what) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(readBytes(path, what)),
    readBytes,
    terminal: { in: terminal, out: terminal, err: terminal },
    columns: given.columns ?? 80,
    env: { PAUSEBOOK_DIR: given.logbook ?? '/nowhere/logbook', ...given.env },
    now: () => given.now ?? new Date('2026-11-26T06:40:00+01:00'),
  }
  ran.code = await runCommandLine(argv, io)
  return ran
}
