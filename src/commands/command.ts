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
 * and one row in commands.ts, which is all that the command line, --help, the completions and the man page
 * know of it. Results go to `io.out`, everything else to `io.err`; both take whole lines with their line
 * feeds. Nothing is written to process.stdout, and nothing calls process.exit.
 *
 * What cannot be done is thrown as a CommandError. It is printed on stderr as
 * `pausebook: WHAT HAPPENED. WHAT TO DO.`, then its `details`, and with --json also on stdout as
 * `{"error": {"code", "message", "problems"}}`. Any other error is a fault of the program.
 *
 * Tests call a command in the process: `runProgram(['plates', '92.5'], { files: {...} })` of
 * tests/commands/runProgram.ts gives back exit code, stdout and stderr. */

/** 0 done; 1 what was asked could not be done; 2 the command line is wrong; 3 the logbook is locked or damaged. */
export type ExitCode = 0 | 1 | 2 | 3

export interface CommandInput {
  /** The words after the command, in order, without options; an absent optional one is not in the list.
   * As many as the row declares `required` are there. */
  words: readonly string[]
  /** Options with a value, by long name without dashes: `values['format']`. */
  values: Readonly<Record<string, string | undefined>>
  /** Options without a value that were given: `flags.has('full')`. */
  flags: ReadonlySet<string>
  /** `--json` was given: the result is JSON and nothing else. */
  json: boolean
  /** `--units`, as far as given; null leaves it to the file and the settings. */
  units: { distance: 'km' | 'mi' | null; mass: 'kg' | 'lb' | null }
  /** Absolute. Need not exist yet. */
  logbookDir: string
  io: Io
  /** Every command and the shared options, for completion scripts. */
  table: { commands: readonly CommandRow[]; options: readonly OptionRow[] }
}

/** What a command may touch besides the logbook. */
export interface Io {
  /** What steers a terminal in the text is shown as U+FFFD. */
  out(text: string): void
  err(text: string): void
  /** Writes a sequence that steers the terminal, to the stream that leads there: standard error, else standard output.
   * */
  steer(sequence: string): void
  /** A text file as UTF-8, or standard input for `-`. Throws a CommandError that calls the file `what`.
   * @param limit most bytes that are read, by default 1 MiB */
  readText(path: string, what: string, limit?: number): string
  /** The file as bytes, at most 1 MiB, whether or not they are UTF-8. */
  readBytes(path: string, what: string): Uint8Array
  terminal: { readonly in: boolean; readonly out: boolean; readonly err: boolean }
  /** Width of the terminal on stdout, 80 without one. */
  readonly columns: number
  env: Readonly<Record<string, string | undefined>>
  now(): Date
}

/** A problem in a file that was read; line and column count from 1. */
export interface Problem {
  line: number
  column: number
  message: string
}

/** A request that cannot be carried out. */
export class CommandError extends Error {
  override name = 'CommandError'
  readonly code: string
  readonly exit: 1 | 2 | 3
  readonly problems: readonly Problem[]
  readonly details: string

  /** @param code for programs, in snake_case: `no_such_session`
   * @param message two sentences, "WHAT HAPPENED. WHAT TO DO."
   * @param more `exit` status, by default 1; `problems` of a file; `details`: lines printed below on stderr */
  constructor(
    code: string,
    message: string,
    more: { exit?: 1 | 2 | 3; problems?: readonly Problem[]; details?: string } = {},
  ) {
    super(message)
    this.code = code
    this.exit = more.exit ?? 1
    this.problems = more.problems ?? []
    this.details = more.details ?? ''
  }
}

/** A word of a command, as --help prints it: `PRESCRIPTION`, `[SESSION]`, `LOAD...`. */
export interface WordRow {
  name: string
  required: boolean
  /** Takes all words that are left. */
  rest?: boolean
  /** What a shell completes here. */
  completes?: 'file' | readonly string[]
}

export interface OptionRow {
  /** Long name without dashes. */
  name: string
  /** What its value is called, `FORMAT`; null for an option without a value. */
  value: string | null
  description: string
  /** The only values that are accepted, when they are known. */
  choices?: readonly string[]
  /** It may be given several times: `values` then holds its values one per line. */
  repeats?: boolean
}

export interface CommandRow {
  /** Empty for the row that runs without a command. */
  name: string
  words: readonly WordRow[]
  options: readonly OptionRow[]
  /** One line, lower case, no full stop. */
  description: string
  /** Left out of --help and completions. */
  hidden?: boolean
  load: () => Promise<{ run: (input: CommandInput) => Promise<ExitCode> }>
}
