/* How a command is written.
 *
 * A command is one file in this folder that exports
 *
 *   export async function run(input: CommandInput): Promise<ExitCode> {
 *     const context = contextOf(input)
 *     const sessions = sessionsDone(context)
 *     ...
 *     show(input, figures, `${text}\n`)
 *     return 0
 *   }
 *
 * and is called in commands.ts, from which the command line, --help, the completions and the man page are made. What
 * it needs of the logbook it takes from `contextOf` (context.ts), which reads only what is asked for. Results go to
 * `show` or `io.out`, everything else to `io.err`; both take whole lines with their line feeds. Commands never write to
 * process.stdout and never call process.exit.
 *
 * A command throws a CommandError for what it cannot do. It is printed on stderr as
 * `pausebook: WHAT HAPPENED. WHAT TO DO.`, then its `details`, and with --json also on stdout as
 * `{"error": {"code", "message", "problems"}}`. Any other error is a bug in the program.
 *
 * Tests call a command inside the test process: `runProgram(['plates', '92.5'], { files: {...} })` of
 * tests/commands/runProgram.ts returns exit code, stdout and stderr. */

import { basename } from 'node:path'
import type { Command } from 'commander'
import type { Damage } from '../logbook/errors.ts'
import { type Diagnostic, mostDiagnostics, printDiagnostics } from '../prescription/lines.ts'
import { type Page, pageColumns } from '../progress/overview.ts'
import { jsonOf } from '../summary/plain.ts'
import type { AskedUnits } from '../summary/view.ts'
import { wrappedPage } from '../ui/widgets/wrapped.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'

/** 0 done; 1 the request could not be carried out; 2 the command line is wrong; 3 the logbook is locked or damaged;
 * 128 + n where signal n ended the app. */
export type ExitCode = number

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
  /** `--units`, as far as given. */
  units: AskedUnits
  /** Absolute. Need not exist yet. */
  logbookDir: string
  /** What the command has read of the logbook. Damage in it is reported when the command ends, which then ends with 3
   * instead of 0. */
  sources: { readonly damages: readonly Damage[] }[]
  io: Io
  /** With every command and the shared options, for completion scripts. */
  program: Command
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
  env: NodeJS.ProcessEnv
  now(): Date
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

/** The error for a word or an option's value that cannot be read.
 * @param what it should be: "distance"
 * @param then the second sentence: "Example: 10 km." */
export function invalid(what: string, text: string, then: string, code = 'command_line'): CommandError {
  return new CommandError(code, `Invalid ${what} "${text}". ${then}`, { exit: 2 })
}

/** Prints the result of a command: its figures with --json, else its text. */
export function show({ io, json }: Pick<CommandInput, 'io' | 'json'>, figures: unknown, text: string): void {
  io.out(json ? jsonOf(figures) : text)
}

/** A page whose lines end at the edge of the terminal. A pipe gets whole lines. Not for what is read again, as
 * notation. */
export function fitted(text: string, { terminal, columns }: Pick<Io, 'terminal' | 'columns'>): string {
  return terminal.out ? wrappedPage(text, Math.max(40, columns)).join('\n') : text
}

/** Prints a page of figures as text of 40 to 100 columns, as JSON, or as a picture.
 * @throws CommandError for a picture of a page without a chart */
export async function showPage(input: CommandInput, { figures, lines, picture }: Page): Promise<void> {
  const { io, values } = input
  if (input.json || values.format !== 'svg')
    show(input, figures, `${lines(pageColumns(io.columns)).join('\n')}\n`)
  else if (picture !== null) io.out((await import('./progressPicture.ts')).pictureOf(picture))
  else throw commandLineError('Only progress lift NAME, progress run and progress load have a picture.')
}

/** The error for a wrong command line. @param message as of a CommandError */
export function commandLineError(message: string): CommandError {
  return new CommandError('command_line', message, { exit: 2 })
}

/** How messages name a file that was given by its path, or by `-`. */
export function fileName(path: string): string {
  return path === '-' ? 'standard input' : sanitize(basename(path))
}

/** The error for a file with problems: their number, and each of them.
 * @param what kind of file it is: "prescription"
 * @param then a sentence with what to do */
export function problemsError(
  code: string,
  what: string,
  path: string,
  problems: readonly Diagnostic[],
  then: string,
): CommandError {
  const name = fileName(path)
  return new CommandError(code, `The ${what} "${name}" has ${problemCount(problems)}. ${then}`, {
    problems: problems
      .slice(0, mostDiagnostics)
      .map(({ line, column, message }) => ({ line, column, message })),
    details: printDiagnostics([...problems], name),
  })
}

/** `3 problems`, `more than 100 problems` */
export function problemCount({ length }: readonly Diagnostic[]): string {
  return length > mostDiagnostics ? `more than ${mostDiagnostics} problems` : counted(length, 'problem')
}

/** The dates of `--from` and `--to`, both included; null for one that is not given.
 * @throws CommandError `bad_date` for an invalid date, or when the first is after the last */
export function parseDates(values: Readonly<Record<string, string | undefined>>): {
  from: string | null
  to: string | null
} {
  const given = (option: 'from' | 'to') =>
    parseDate(values[option], '1900', `Example: --${option} 2026-11-26.`)
  const [from, to] = [given('from'), given('to')]
  if (from !== null && to !== null && from > to) {
    const message = `--from ${from} is after --to ${to}. Give the earlier date first.`
    throw new CommandError('bad_date', message, { exit: 2 })
  }
  return { from, to }
}

/** Reads a local date from the command line; null when none is given.
 * @param from the earliest date accepted
 * @param advice what to write, as the second sentence of the error
 * @throws CommandError `bad_date` for an invalid date */
export function parseDate(text: string | undefined, from: string, advice: string): string | null {
  if (text === undefined) return null
  if (isCalendarDate(text) && text >= from) return text
  throw invalid('date', text, advice, 'bad_date')
}
