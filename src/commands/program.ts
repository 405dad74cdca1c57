import { statSync } from 'node:fs'
import { homedir } from 'node:os'
import { Argument, Command, Option } from 'commander'
import { version } from '../../package.json'
import { cautions } from './cautions.ts'
import { readCommandLineError, readUnits } from './commandLine.ts'
import { exitOf } from './errors.ts'
import { printableOf } from './io.ts'
import { logbookDirOf } from './logbookDir.ts'
import { CommandError, type CommandRow, type ExitCode, type Io, type OptionRow } from './port.ts'
import { commandTable, globalOptions } from './table.ts'

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
  })
}

/** @throws CommandError for a folder without a name, and for a file in the place of one */
function logbookFolderOf(given: string | undefined, io: Io): string {
  if (given === '') {
    const message = 'No folder is named behind --logbook. Name the folder of the logbook, or leave it out.'
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
