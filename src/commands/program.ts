import { readlinkSync, statSync } from 'node:fs'
import { constants, homedir } from 'node:os'
import { join, resolve } from 'node:path'
import { isatty } from 'node:tty'
import { Command, CommanderError } from 'commander'
import { version } from '../../package.json'
import { cautions } from '../app/cautions.ts'
import { ifKnown, LogbookError } from '../logbook/errors.ts'
import { dataFolderOf } from '../logbook/machine.ts'
import { jsonOf } from '../summary/plain.ts'
import { hanging, screenLines } from '../ui/widgets/wrapped.ts'
import { inSentence, upperFirst } from '../units/lists.ts'
import { readUnits } from '../units/words.ts'
import { sanitize } from '../validate/unsafe.ts'
import {
  CommandError,
  type CommandInput,
  commandLineError,
  type ExitCode,
  type Io,
  invalid,
} from './command.ts'
import { opening, withCommands } from './commands.ts'
import { outputOf, processIo } from './io.ts'

/** Runs the program with the process's arguments, streams and exit status. */
export async function main(): Promise<void> {
  const output = outputOf()
  const code = await runCommandLine(process.argv.slice(2), processIo(output))
  // Set the status instead of exiting, or pending output would be cut off.
  process.exitCode = output.status() ?? code
  // The terminal was closed: Node would fail to restore its modes and abort. The signal ends the process instead, once
  // the app no longer listens to it.
  const isHungUp = process.exitCode === 128 + constants.signals.SIGHUP && !isatty(0)
  if (isHungUp) setImmediate(() => process.kill(process.pid, 'SIGHUP'))
}

/** Runs one command line and returns the exit status; never throws.
 * @param argv the words after the program's name */
export async function runCommandLine(argv: readonly string[], io: Io): Promise<ExitCode> {
  const sources: CommandInput['sources'] = []
  let code: ExitCode = 0
  try {
    // `help week` is typed as often as `week --help`.
    const [first, ...others] = argv
    const words = first === 'help' ? [...others.filter((word) => word !== first), '--help'] : argv
    const program = programOf(words, io, async (load, command) => {
      const { run } = await load()
      code = await run(inputOf(command, program, io, sources))
    })
    await program.parseAsync(words, { from: 'user' })
    const status = reportDamages(io, sources)
    return code || status
  } catch (error) {
    // The only errors of commander's own that arrive here are help and version, which are not failures.
    if (error instanceof CommanderError) return 0
    reportDamages(io, sources, String(error))
    return exitOf(error, argv.includes('--json'), io)
  }
}

/** Reports on stderr what is damaged or was left out, each once.
 * @param refusal the message of a command that was refused, which may name a damaged file itself
 * @returns 3 for any damage, else 0 */
function reportDamages(io: Io, sources: CommandInput['sources'], refusal = ''): 0 | 3 {
  const lines = sources
    .flatMap(({ damages }) => damages)
    .filter(({ file }) => !refusal.includes(file))
    .map(({ file, wrong, done }) => `pausebook: ${file}: ${wrong} ${done}\n`)
  for (const line of new Set(lines)) io.err(line)
  return lines.length > 0 ? 3 : 0
}

function programOf(argv: readonly string[], io: Io, call: Parameters<typeof withCommands>[1]): Command {
  const width = Math.max(40, Math.min(io.columns, 110))
  const program = new Command('pausebook')
    .usage('[command] [options]')
    .description('The book that is written in the pauses. Without a command it opens in the terminal.')
    .version(version, '--version', 'prints the version')
    .helpOption('-h, --help', 'prints help; also after a command')
    .addHelpText('after', `\n${screenLines(cautions, width).join('\n')}`)
    .configureOutput({
      writeOut: io.out,
      writeErr: () => {},
      getOutHelpWidth: () => width,
      getOutHasColors: () => false,
    })
    .configureHelp({
      showGlobalOptions: true,
      subcommandTerm: (command) => `${command.name()} ${command.usage()}`.replace(' [options]', ''),
      formatItem: (term, termWidth, description) => helpItem(term, termWidth + 4, description, width),
    })
  withCommands(program, call)
  for (const command of [program, ...program.commands]) {
    command.exitOverride((error) => {
      throw error.exitCode === 0 ? error : refusalOfLine(error.message, command)
    })
  }
  // Only without a command, else a misspelt one would be an argument of the program itself.
  const [called] = program.parseOptions([...argv]).operands
  if (called === undefined) program.action(() => call(opening.load, program))
  // A misspelt one is refused before its help is looked for.
  else if (!program.commands.some((each) => each.name() === called)) program.helpOption(false)
  return program
}

/** A line of help with its description beside it, or below it where more than half of the width is left of it:
 * commander itself does not break a description of less than 40 columns. */
function helpItem(term: string, indent: number, description: string, width: number): string {
  if (indent <= width / 2) return hanging(`  ${term}`, description, indent, width).join('\n')
  const below = description === '' ? [] : screenLines(description, width - 6)
  return [`  ${term}`, ...below.map((line) => `      ${line}`)].join('\n')
}

function inputOf(command: Command, program: Command, io: Io, sources: CommandInput['sources']): CommandInput {
  const options = Object.entries(command.optsWithGlobals<Record<string, string | true>>())
  const values: Record<string, string> = {}
  const flags = new Set<string>()
  for (const [name, value] of options) {
    if (value === true) flags.add(name)
    else values[name] = value
  }
  return {
    words: command.args,
    values,
    flags,
    json: flags.has('json'),
    units: askedUnits(values.units),
    logbookDir: logbookFolderOf(values.logbook, io),
    sources,
    io,
    program,
  }
}

/** @throws CommandError for an empty folder name, for a file, and for a link to a folder that cannot be reached, as on a
 * disk that is not connected */
function logbookFolderOf(given: string | undefined, io: Io): string {
  if (given === '') {
    const message = '--logbook needs a folder. Name the folder of the logbook, or leave the option out.'
    throw commandLineError(message)
  }
  const folder = logbookDirOf(given, io.env, ownHome)
  const wrong = wrongWith(folder)
  if (wrong === null) return folder
  throw new CommandError('not_a_logbook', `The logbook ${folder} is ${wrong}.`, { exit: 3 })
}

/** Null if the path does not exist or may not be read: opening it then gives the reason. */
function wrongWith(folder: string): string | null {
  const found = ifKnown(() => statSync(folder))
  if (found !== null) return found.isDirectory() ? null : `a file, not a folder. Give another with --logbook`
  const target = ifKnown(() => readlinkSync(folder))
  return (
    target && `a link to ${target}, which cannot be reached. Connect its disk, or give another with --logbook`
  )
}

/** @throws CommandError `no_home` for a user without one, as an unknown one in a container, or with an empty HOME */
function ownHome(): string {
  const home = ifKnown(homedir)
  if (home) return home
  throw new CommandError(
    'no_home',
    'This user has no home folder. Name the folder of the logbook with --logbook, or set HOME.',
  )
}

/** Translates an error of commander's, and names the help of the command that it is about. */
function refusalOfLine(message: string, command: Command): CommandError {
  const [what = '', near] = sanitize(message.replace(/\n/g, ' '))
    .replace(/^error: (?:command-argument )?/, '')
    .split(/ *\(Did you mean (?:one of )?|\?\)/)
  const help = [command.parent?.name(), command.name(), '--help'].filter(Boolean).join(' ')
  const advice = near === undefined ? `See "${help}".` : `Did you mean ${inSentence(near.split(', '), 'or')}?`
  return commandLineError(`${upperFirst(what.replace(/\.$/, ''))}. ${advice}`)
}

/** The units of `--units`. */
function askedUnits(given: string | undefined): CommandInput['units'] {
  if (given === undefined) return { distance: null, mass: null }
  const units = readUnits(given)
  if (units !== null) return units
  throw invalid('units', given, 'Write km or mi, kg or lb, or one of each: --units "mi lb".')
}

/** The logbook's directory: `--logbook`, else `PAUSEBOOK_DIR`, else one in the user's folder for data. */
export function logbookDirOf(given: string | undefined, env: NodeJS.ProcessEnv, home: () => string): string {
  // A shell leaves the ~ of --logbook=~/runs as it is, and PowerShell that of ~\runs.
  const chosen = (given || env.PAUSEBOOK_DIR)?.replace(/^~(?=[\\/]|$)/, home)
  return chosen ? resolve(chosen) : join(dataFolderOf(env, home), 'pausebook')
}

/** Prints an error, for people and with `json` for programs, and returns the exit status. */
function exitOf(error: unknown, json: boolean, io: Io): ExitCode {
  const known = commandErrorOf(error)
  io.err(`pausebook: ${known.message}\n`)
  if (known.details !== '') io.err(`${known.details.replace(/\n$/, '')}\n`)
  if (json) {
    const { code, message, problems } = known
    io.out(jsonOf({ error: { code, message, problems } }))
  }
  return known.exit
}

function commandErrorOf(error: unknown): CommandError {
  if (error instanceof CommandError) return error
  if (error instanceof LogbookError) return new CommandError(error.code, error.message, { exit: error.exit })
  // Anything else is a bug: a report needs its stack trace.
  const { message, stack } = error instanceof Error ? error : new Error(String(error))
  return new CommandError(
    'fault',
    `This is a bug in the program (${message.split('\n')[0]}). What was saved is safe; please report the lines below.`,
    { details: stack ?? '' },
  )
}
