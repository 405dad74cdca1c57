import { statSync } from 'node:fs'
import { homedir } from 'node:os'
import { isAbsolute, join, resolve } from 'node:path'
import { Argument, Command, CommanderError, Option } from 'commander'
import leven from 'leven'
import { version } from '../../package.json'
import { cautions } from '../app/cautions.ts'
import { LogbookError } from '../logbook/errors.ts'
import {
  CommandError,
  type CommandInput,
  type CommandRow,
  type ExitCode,
  type Io,
  type OptionRow,
} from './command.ts'
import { commandTable, globalOptions } from './commands.ts'
import { outputOf, printableOf, processIo } from './io.ts'

/** The process: its arguments, its streams, its exit status. */
export async function main(): Promise<void> {
  // chalk knows FORCE_COLOR only, and reads it when it is imported: https://no-color.org asks for any value.
  if (process.env.NO_COLOR && process.env.FORCE_COLOR === undefined) process.env.FORCE_COLOR = '0'
  const output = outputOf()
  const code = await runCommandLine(process.argv.slice(2), processIo(output))
  // Set, not called: what is still to be drawn or written would be cut off.
  process.exitCode = output.status() ?? code
}

/** Runs one command line and gives back the exit status; never throws.
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
  const [called] = program.parseOptions([...argv]).operands
  const asked = commandTable.filter((row) => row.name === called)
  // All of them are only needed to be listed, or to say which was meant.
  for (const row of asked.length > 0 ? asked : commandTable) {
    if (row.name === '') continue
    const command = program.command(row.name, { hidden: row.hidden === true }).description(row.description)
    addRow(command, row, call)
  }
  const opening = commandTable.find((row) => row.name === '')
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
    const value = options[camelCaseOf(option.name)]
    if (typeof value === 'string') values[option.name] = value
    else if (value === true) flags.add(option.name)
  }
  const units = readUnits(values.units)
  const { run } = await row.load()
  return run({
    words: command.args,
    values,
    flags,
    json: flags.has('json'),
    units,
    logbookDir: logbookFolderOf(values.logbook, io),
    io,
    table: { commands: commandTable, options: globalOptions },
  })
}

/** @throws CommandError for a folder without a name, and for a file in the place of one */
function logbookFolderOf(given: string | undefined, io: Io): string {
  if (given === '') {
    const message = '--logbook needs a folder. Name the folder of the logbook, or leave the option out.'
    throw new CommandError('command_line', message, { exit: 2 })
  }
  const folder = logbookDirOf(given, io.env, homedir(), process.platform)
  if (!isFile(folder)) return folder
  const message = `The logbook ${printableOf(folder)} is a file, not a folder. Give another with --logbook.`
  throw new CommandError('not_a_logbook', message, { exit: 3 })
}

/** False where nothing is there, or it may not be seen: what opens it says why. */
function isFile(path: string): boolean {
  try {
    return !statSync(path).isDirectory()
  } catch {
    return false
  }
}

function camelCaseOf(name: string): string {
  return name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())
}

/** What went wrong, from what commander throws: 'printed' for help and version, which are no error. */
export function readCommandLineError(error: unknown): unknown {
  if (!(error instanceof CommanderError)) return error
  if (error.exitCode === 0) return 'printed'
  const said = printableOf(error.message.replace(/\n/g, ' '))
  const choice = choiceErrorOf(said)
  if (choice !== null) return choice
  const close = nearOnes(said).join(' or ')
  const what = said
    .replace(/^error: /, '')
    .replace(/ *\(Did you mean .*\)$/, '')
    .replace(/\.$/, '')
  const advice = close !== '' ? `Did you mean ${close}?` : 'See "pausebook --help".'
  return new CommandError('command_line', `${sentenceOf(what)}. ${advice}`, { exit: 2 })
}

/** A word that stands where only a few can. */
function choiceErrorOf(said: string): CommandError | null {
  const pattern =
    /^error: command-argument value '(.*)' is invalid for argument '(SHELL|SUBJECT)'\. Allowed choices are (.*)\.$/
  const [, word = '', argument = '', list = ''] = pattern.exec(said) ?? []
  if (argument === '') return null
  const choices = list.replace(/, (?=[^,]*$)/, ' and ')
  const message =
    argument === 'SHELL'
      ? `There are completions for ${choices}, not for "${word}". Write one of these.`
      : `There is progress of ${choices}, not of "${word}". Write one of these, or nothing to see them all.`
  return new CommandError('command_line', message, { exit: 2 })
}

/** Of the names that commander finds similar those that a slip of the hand makes of what was written. */
function nearOnes(said: string): string[] {
  const [, written = ''] = /'(.*?)'/.exec(said) ?? []
  const [, names = ''] = /\(Did you mean (?:one of )?(.+?)\?\)/.exec(said) ?? []
  return names.split(', ').filter((name) => name !== '' && isSlip(bareOf(written), bareOf(name)))
}

function bareOf(name: string): string {
  return name.replace(/^-+/, '').toLowerCase()
}

/** At most two letters, and less than half of them, are others; two that changed places count as one. */
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
export function readUnits(given: string | undefined): CommandInput['units'] {
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
  const message = `Invalid units "${printableOf(given)}". Write km or mi, kg or lb, or one of each: --units "mi lb".`
  return new CommandError('command_line', message, { exit: 2 })
}

/** The directory of the logbook: `--logbook`, else `PAUSEBOOK_DIR`, else the data directory of the
 * platform: `XDG_DATA_HOME` where it is absolute (XDG Base Directory Specification 0.8: a relative one is
 * ignored), `LOCALAPPDATA` on Windows, `~/.local/share`. */
export function logbookDirOf(
  given: string | undefined,
  env: Readonly<Record<string, string | undefined>>,
  home: string,
  platform: string,
): string {
  const chosen = given || env.PAUSEBOOK_DIR
  if (chosen) return resolve(chosen)
  const xdg = env.XDG_DATA_HOME
  if (xdg && isAbsolute(xdg)) return join(xdg, 'pausebook')
  if (platform === 'win32' && env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'pausebook')
  return join(home, '.local', 'share', 'pausebook')
}

/** Prints what went wrong, for people and with `json` for programs, and says how to exit. */
export function exitOf(error: unknown, json: boolean, io: Io): ExitCode {
  const known = error instanceof CommandError ? error : (refusalOf(error) ?? faultOf(error))
  io.err(`pausebook: ${known.message}\n`)
  if (known.details !== '') io.err(`${known.details.replace(/\n$/, '')}\n`)
  if (json) {
    const { code, message, problems } = known
    io.out(`${JSON.stringify({ error: { code, message, problems } }, null, 2)}\n`)
  }
  return known.exit
}

/** What the logbook refuses is no fault: its message is for the user as it stands. */
function refusalOf(error: unknown): CommandError | null {
  return error instanceof LogbookError
    ? new CommandError(error.code, error.message, { exit: error.exit })
    : null
}

/** An error that nothing foresaw is a fault of the program: its trace is what a report needs. */
function faultOf(error: unknown): CommandError {
  const said = error instanceof Error ? error.message : String(error)
  const trace = error instanceof Error && error.stack !== undefined ? error.stack : ''
  return new CommandError(
    'fault',
    `Something in the program is wrong (${said.split('\n')[0]}). What was saved is safe; please report the lines below.`,
    { details: trace },
  )
}
