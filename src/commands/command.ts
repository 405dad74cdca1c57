/* How a command is written.
 *
 * A command is one file in this folder that exports
 *
 *   export async function run(input: CommandInput): Promise<ExitCode> {
 *     const text = input.io.readText(input.words[0], 'prescription')
 *     ...
 *     input.io.out(`${result}\n`)
 *     return 0
 *   }
 *
 * and one row in commands.ts, from which the command line, --help, the completions and the man page
 * are made. Results go to `io.out`, everything else to `io.err`; both take whole lines with their line
 * feeds. Commands never write to process.stdout and never call process.exit.
 *
 * A command throws a CommandError for what it cannot do. It is printed on stderr as
 * `pausebook: WHAT HAPPENED. WHAT TO DO.`, then its `details`, and with --json also on stdout as
 * `{"error": {"code", "message", "problems"}}`. Any other error is a bug in the program.
 *
 * Tests call a command inside the test process: `runProgram(['plates', '92.5'], { files: {...} })` of
 * tests/commands/runProgram.ts returns exit code, stdout and stderr. */

import type { Damage } from '../logbook/errors.ts'
import type { Diagnostic } from '../prescription/diagnostic.ts'
import { sanitize } from '../validate/unsafe.ts'

/** 0 done; 1 the request could not be carried out; 2 the command line is wrong; 3 the logbook is locked or damaged. */
export type ExitCode = 0 | 1 | 2 | 3

export interface CommandInput {
  /** The words after the command, in order, without options; an absent optional word is not in the list.
   * The words that the row declares `required` are present. */
  words: readonly string[]
  /** Options with a value, by long name without dashes: `values['format']`. */
  values: Readonly<Record<string, string | undefined>>
  /** Options without a value that were given: `flags.has('full')`. */
  flags: ReadonlySet<string>
  /** `--json` was given: the result is JSON and nothing else. */
  json: boolean
  /** `--units`, as far as given; null: the file and the settings decide. */
  units: { distance: 'km' | 'mi' | null; mass: 'kg' | 'lb' | null }
  /** Absolute. Need not exist yet. */
  logbookDir: string
  /** Damage of the settings that the command has met so far; it then ends with 3 where it would end with 0. */
  damages: Damage[]
  io: Io
  /** Every command and the shared options, for completion scripts. */
  table: { commands: readonly CommandRow[]; options: readonly OptionRow[] }
}

/** What a command may use besides the logbook. */
export interface Io {
  /** Control characters in the text are shown as U+FFFD. */
  out(text: string): void
  err(text: string): void
  /** Writes a control sequence to the stream that is the terminal: standard error, else standard output. */
  steer(sequence: string): void
  /** A text file as UTF-8, or standard input for `-`. Throws a CommandError that calls the file `what`.
   * @param limit the most bytes to read, by default 1 MiB */
  readText(path: string, what: string, limit?: number): string
  /** The file as bytes, at most 1 MiB, whether or not they are UTF-8. */
  readBytes(path: string, what: string): Uint8Array
  terminal: { readonly in: boolean; readonly out: boolean; readonly err: boolean }
  /** Width of the terminal on stdout, 80 without one. */
  readonly columns: number
  env: Readonly<Record<string, string | undefined>>
  now(): Date
}

/** The columns of a page of figures. */
export function pageColumns({ columns }: Pick<Io, 'columns'>): number {
  return Math.max(40, Math.min(columns, 100))
}

/** A place in a file, and what is wrong there. */
type Located = Pick<Diagnostic, 'line' | 'column' | 'message'>

/** A request that cannot be carried out. */
export class CommandError extends Error {
  override name = 'CommandError'
  readonly code: string
  readonly exit: 1 | 2 | 3
  readonly problems: readonly Located[]
  readonly details: string

  /** @param code for programs, in snake_case: `no_such_session`
   * @param message two sentences, "WHAT HAPPENED. WHAT TO DO."; may hold text from outside, which is sanitized here
   * @param more `exit` status, by default 1; `problems` of a file; `details`: lines printed below on stderr */
  constructor(
    code: string,
    message: string,
    more: { exit?: 1 | 2 | 3; problems?: readonly Located[]; details?: string } = {},
  ) {
    super(sanitize(message))
    this.code = code
    this.exit = more.exit ?? 1
    this.problems = more.problems ?? []
    this.details = more.details ?? ''
  }
}

/** For a command line that is wrong. @param message as of a CommandError */
export function commandLineError(message: string): CommandError {
  return new CommandError('command_line', message, { exit: 2 })
}

/** A word of a command, as --help prints it: `PRESCRIPTION`, `[SESSION]`, `LOAD...`. */
interface WordRow {
  name: string
  required: boolean
  /** Takes all remaining words. */
  rest?: boolean
  /** What a shell completes here. */
  completes?: 'file' | readonly string[]
}

export interface OptionRow {
  /** Its long name, one word, without the dashes before it. */
  name: string
  /** What its value is called, `FORMAT`; null for an option without a value. */
  value: string | null
  description: string
  /** The only accepted values, if there are few. */
  choices?: readonly string[]
  /** It may be given several times: `values` then holds its values one per line. */
  repeats?: boolean
}

export interface CommandRow {
  /** Empty for the row that runs without a command. */
  name: string
  /** Still works for one release; neither --help nor the completions name it. */
  earlierName?: string
  words: readonly WordRow[]
  options: readonly OptionRow[]
  /** One line, lower case, no full stop. */
  description: string
  load: () => Promise<{ run: (input: CommandInput) => Promise<ExitCode> }>
}
