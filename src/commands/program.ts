import { statSync } from 'node:fs'
import { homedir } from 'node:os'
import { join, resolve } from 'node:path'
import { Argument, Command, CommanderError, Option } from 'commander'
import leven from 'leven'
import { version } from '../../package.json'
import { cautions } from '../app/cautions.ts'
import { type Damage, LogbookError } from '../logbook/errors.ts'
import { dataFolderOf } from '../logbook/machine.ts'
import { jsonOf } from '../summary/json.ts'
import { sanitize } from '../validate/unsafe.ts'
import {
  CommandError,
  type CommandInput,
  type CommandRow,
  commandLineError,
  type ExitCode,
  type Io,
  type OptionRow,
} from './command.ts'
import { commandTable, globalOptions } from './commands.ts'
import { outputOf, processIo } from './io.ts'

/** Runs the program with the process's arguments, streams and exit status. */
export async function main(): Promise<void> {
  const output = outputOf()
  const code = await runCommandLine(process.argv.slice(2), processIo(output))
  // Set the status instead of exiting, or pending output would be cut off.
  process.exitCode = output.status() ?? code
}

/** Runs one command line and returns the exit status; never throws.
 * @param argv the words after the program's name */
export async function runCommandLine(argv: readonly string[], io: Io): Promise<ExitCode> {
  const json = argv.includes('--json')
  try {
    const called: { code: ExitCode } = { code: 0 }
    const program = programOf(argv, io, async (row, command) => {
      called.code = await runRow(row, command, io)
    })
    await program.parseAsync(argv, { from: 'user' })
    return called.code
  } catch (error) {
    const read = readCommandLineError(error)
    return read === 'printed' ? 0 : exitOf(read, json, io)
  }
}

type Call = (row: CommandRow, command: Command) => Promise<void>

function programOf(argv: readonly string[], io: Io, call: Call): Command {
  const program = new Command('pausebook')
    .usage('[command] [options]')
    .description('The book that is written in the pauses. Without a command it opens in the terminal.')
    .version(version, '--version', 'prints the version')
    .helpOption('-h, --help', 'prints help; also after a command')
    .helpCommand(false)
    .addHelpText('after', `\n${cautions}`)
    .exitOverride()
    .configureOutput({
      writeOut: io.out,
      writeErr: () => {},
      getOutHelpWidth: () => Math.max(40, Math.min(io.columns, 110)),
      getOutHasColors: () => false,
    })
    .configureHelp({ showGlobalOptions: true })
  for (const option of globalOptions) program.addOption(optionOf(option))
  for (const row of commandTable.filter(({ name }) => name !== '')) {
    const names = row.earlierName === undefined ? [row.name] : [row.name, row.earlierName]
    for (const name of names) {
      const command = program.command(name, { hidden: name !== row.name }).description(row.description)
      addRow(command, row, call)
    }
  }
  // Only without a command, else a misspelt one would be an argument of the program itself.
  const opening = commandTable.find((row) => row.name === '')
  const [called] = program.parseOptions([...argv]).operands
  if (opening !== undefined && called === undefined) addRow(program, opening, call)
  return program
}

function addRow(command: Command, row: CommandRow, call: Call): void {
  for (const word of row.words) {
    const name = word.rest ? `${word.name}...` : word.name
    const argument = new Argument(word.required ? `<${name}>` : `[${name}]`)
    if (Array.isArray(word.completes)) argument.choices(word.completes)
    command.addArgument(argument)
  }
  for (const option of row.options) command.addOption(optionOf(option))
  command.action(() => call(row, command))
}

function optionOf(row: OptionRow): Option {
  const flags = row.value === null ? `--${row.name}` : `--${row.name} <${row.value}>`
  const option = new Option(flags, row.description)
  if (row.repeats)
    option.argParser((value: string, before?: string) =>
      before === undefined ? value : `${before}\n${value}`,
    )
  return row.choices === undefined ? option : option.choices([...row.choices])
}

async function runRow(row: CommandRow, command: Command, io: Io): Promise<ExitCode> {
  const options = command.optsWithGlobals<Record<string, unknown>>()
  const values: Record<string, string> = {}
  const flags = new Set<string>()
  for (const option of [...globalOptions, ...row.options]) {
    const value = options[option.name]
    if (typeof value === 'string') values[option.name] = value
    else if (value === true) flags.add(option.name)
  }
  const units = readUnits(values.units)
  const { run } = await row.load()
  const damages: Damage[] = []
  const code = await run({
    words: command.args,
    values,
    flags,
    json: flags.has('json'),
    units,
    logbookDir: logbookFolderOf(values.logbook, io),
    damages,
    io,
    table: { commands: commandTable, options: globalOptions },
  })
  return code === 0 && damages.length > 0 ? 3 : code
}

/** @throws CommandError for an empty folder name, and for a file where a folder is expected */
function logbookFolderOf(given: string | undefined, io: Io): string {
  if (given === '') {
    const message = '--logbook needs a folder. Name the folder of the logbook, or leave the option out.'
    throw commandLineError(message)
  }
  const folder = logbookDirOf(given, io.env, ownHome)
  if (!isFile(folder)) return folder
  const message = `The logbook ${folder} is a file, not a folder. Give another with --logbook.`
  throw new CommandError('not_a_logbook', message, { exit: 3 })
}

/** @throws CommandError `no_home` for a user without one, as an unknown one in a container */
function ownHome(): string {
  try {
    return homedir()
  } catch {
    throw new CommandError(
      'no_home',
      'This user has no home folder. Name the folder of the logbook with --logbook, or set HOME.',
    )
  }
}

/** False if the path does not exist or may not be read: opening it then gives the reason. */
function isFile(path: string): boolean {
  try {
    return !statSync(path).isDirectory()
  } catch {
    return false
  }
}

/** Translates commander's errors: 'printed' for help and version, which are not errors. */
function readCommandLineError(error: unknown): unknown {
  if (!(error instanceof CommanderError)) return error
  if (error.exitCode === 0) return 'printed'
  const said = sanitize(error.message.replace(/\n/g, ' '))
  const choice = choiceErrorOf(said)
  if (choice !== null) return choice
  const close = nearOnes(said).join(' or ')
  const what = said
    .replace(/^error: /, '')
    .replace(/ *\(Did you mean .*\)$/, '')
    .replace(/\.$/, '')
  const advice = close !== '' ? `Did you mean ${close}?` : 'See "pausebook --help".'
  return commandLineError(`${sentenceOf(what)}. ${advice}`)
}

/** The error for a word if only a few are allowed. */
function choiceErrorOf(said: string): CommandError | null {
  const pattern =
    /^error: command-argument value '(.*)' is invalid for argument '(SHELL|SUBJECT)'\. Allowed choices are (.*)\.$/
  const [, word = '', argument = '', list = ''] = pattern.exec(said) ?? []
  if (argument === '') return null
  const choices = list.replace(/, (?=[^,]*$)/, ' and ')
  const message =
    argument === 'SHELL'
      ? `There are completions for ${choices}, not for "${word}". Write one of these.`
      : `There is progress of ${choices}, not of "${word}". Write one of these, progress lift ${word} for a lift, or nothing to see them all.`
  return commandLineError(message)
}

/** Narrows commander's similar names to those one slip of the hand away. */
function nearOnes(said: string): string[] {
  const [, written = ''] = /'(.*?)'/.exec(said) ?? []
  const [, names = ''] = /\(Did you mean (?:one of )?(.+?)\?\)/.exec(said) ?? []
  return names.split(', ').filter((name) => name !== '' && isSlip(bareOf(written), bareOf(name)))
}

function bareOf(name: string): string {
  return name.replace(/^-+/, '').toLowerCase()
}

/** Whether at most two letters, and fewer than half, differ; two swapped letters count as one. */
function isSlip(written: string, meant: string): boolean {
  const letters = isSwap(written, meant) ? 1 : leven(written, meant)
  return letters <= 2 && letters < written.length / 2
}

function isSwap(written: string, meant: string): boolean {
  const places = [...written].flatMap((letter, place) => (letter === meant[place] ? [] : [place]))
  const [first = 0, second = 0] = places
  const isPair = written.length === meant.length && places.length === 2 && second === first + 1
  return isPair && written[first] === meant[second] && written[second] === meant[first]
}

function sentenceOf(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** `--units`: km or mi, kg or lb, or one of each, in either order, with a space or a comma between them. */
function readUnits(given: string | undefined): CommandInput['units'] {
  const units: CommandInput['units'] = { distance: null, mass: null }
  if (given === undefined) return units
  const words = given
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '')
  for (const word of words) {
    if ((word === 'km' || word === 'mi') && units.distance === null) units.distance = word
    else if ((word === 'kg' || word === 'lb') && units.mass === null) units.mass = word
    else throw unitsError(given)
  }
  if (words.length === 0) throw unitsError(given)
  return units
}

function unitsError(given: string): CommandError {
  const message = `Invalid units "${given}". Write km or mi, kg or lb, or one of each: --units "mi lb".`
  return commandLineError(message)
}

/** The logbook's directory: `--logbook`, else `PAUSEBOOK_DIR`, else one in the user's folder for data. */
export function logbookDirOf(
  given: string | undefined,
  env: Readonly<Record<string, string | undefined>>,
  home: () => string,
): string {
  const chosen = given || env.PAUSEBOOK_DIR
  return chosen ? resolve(chosen) : join(dataFolderOf(env, home), 'pausebook')
}

/** Prints an error, for people and with `json` for programs, and returns the exit status. */
function exitOf(error: unknown, json: boolean, io: Io): ExitCode {
  const known = error instanceof CommandError ? error : (refusalOf(error) ?? faultOf(error))
  io.err(`pausebook: ${known.message}\n`)
  if (known.details !== '') io.err(`${known.details.replace(/\n$/, '')}\n`)
  if (json) {
    const { code, message, problems } = known
    io.out(jsonOf({ error: { code, message, problems } }))
  }
  return known.exit
}

/** A refusal by the logbook is not a bug: its message is shown to the user unchanged. */
function refusalOf(error: unknown): CommandError | null {
  return error instanceof LogbookError
    ? new CommandError(error.code, error.message, { exit: error.exit })
    : null
}

/** An unexpected error is a bug: a report needs its stack trace. */
function faultOf(error: unknown): CommandError {
  const said = error instanceof Error ? error.message : String(error)
  const trace = error instanceof Error && error.stack !== undefined ? error.stack : ''
  return new CommandError(
    'fault',
    `Something in the program is wrong (${said.split('\n')[0]}). What was saved is safe; please report the lines below.`,
    { details: trace },
  )
}
