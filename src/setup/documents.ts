import { Command, Option } from 'commander'
import * as z from 'zod'
import { cautions } from '../app/cautions.ts'
import { opening, withCommands } from '../commands/commands.ts'
import { scripts } from '../commands/completion.ts'
import { Checksum, Mornings } from '../logbook/model.ts'
import { morningFormat } from '../logbook/text.ts'
import { DayFigures, Prescription } from '../prescription/model.ts'
import { keyRows } from '../recorder/keys.ts'
import { Session } from '../session/model.ts'
import { sessionFormat } from '../session/replay.ts'
import { Summary } from '../summary/model.ts'
import { joined, upperFirst } from '../units/lists.ts'

const program = withCommands(new Command('pausebook'), async () => {})
const everywhere = [
  ...program.options,
  new Option('--help', 'prints help; also after a command'),
  new Option('--version', 'prints the version'),
]
/** Opening the app first, then the commands. */
const commands = [
  new Command('').description(opening.description),
  ...program.createHelp().visibleCommands(program),
]

/** The other files of dist/ by path: the manual page and the completions. */
export function documents(version: string): Record<string, string> {
  return {
    'pausebook.1': manualPage(version),
    'completions/pausebook.bash': scripts.bash,
    'completions/_pausebook': scripts.zsh,
    'completions/pausebook.fish': scripts.fish,
    'completions/pausebook.ps1': scripts.powershell,
  }
}

/* The manual page, made from the command table, in the macros of man(7). */

export function manualPage(version: string): string {
  return [
    `.TH PAUSEBOOK 1 "" "pausebook ${version}" "User Commands"`,
    '.SH NAME',
    'pausebook \\- the book that is written in the pauses of a training day',
    '.SH SYNOPSIS',
    commands.map(synopsisOf).join('\n.br\n'),
    '.SH DESCRIPTION',
    'Pausebook walks you through the training day on your whiteboard, runs the rests, the pauses inside cluster sets and the jogs between repeats, takes down what really happened, and says what it was worth. Without a command it opens in the terminal. Only that and record need one; results go to standard output, everything else to standard error.',
    '.SH COMMANDS',
    ...commands.flatMap((row) => ['.TP', synopsisOf(row), sentenceOf(row.description()), ...optionsOf(row)]),
    '.SH OPTIONS',
    'With every command:',
    ...everywhere.flatMap(optionLines),
    ...definitions('EXIT STATUS', {
      0: 'done',
      1: 'what was asked could not be done',
      2: 'the command line is wrong',
      3: 'the logbook is locked or damaged',
      '128 + n': 'ended by signal n',
    }),
    ...definitions('ENVIRONMENT', {
      PAUSEBOOK_DIR: 'the logbook, where --logbook names none',
      XDG_DATA_HOME: 'where the logbook is otherwise, as the folder pausebook; by default ~/.local/share',
      'VISUAL, EDITOR': 'the editor that new opens; without either, the built-in one',
      'NO_COLOR, FORCE_COLOR': 'no colours, or colours in any case',
    }),
    ...definitions('FILES', {
      'settings.json': 'in the logbook: the settings',
      'mornings/YEAR.json': 'in the logbook: the mornings of a year',
      'plan.txt, foods.txt': 'in the logbook: the block and the foods, where you keep them',
      'prescriptions/': 'in the logbook: prepared days',
      'sessions/YEAR/DATE-ID.json': 'in the logbook: one file a session',
      'index.ndjson': 'in the logbook: derived from the sessions; may be deleted',
      '~/.cache/pausebook/':
        'compiled code that makes the next start faster, with Node 22 and newer; may be deleted',
    }),
    '.SH CAUTIONS',
    escaped(cautions),
    '',
  ].join('\n')
}

function optionsOf(row: Command): string[] {
  return row.options.length === 0 ? [] : ['.RS', ...row.options.flatMap(optionLines), '.RE']
}

function optionLines({ long, flags, description }: Option): string[] {
  const value = /<(.*)>/.exec(flags)?.[1]
  const name = `\\fB${escaped(long ?? '')}\\fR`
  return [
    '.TP',
    joined(' ', [name, value !== undefined && `\\fI${escaped(value)}\\fR`]),
    sentenceOf(description),
  ]
}

function synopsisOf(row: Command): string {
  const name = row.name() && `\\fB${escaped(row.name())}\\fR`
  return joined(' ', [
    '\\fBpausebook\\fR',
    name,
    ...wordsOf(row, (word) => `\\fI${escaped(word)}\\fR`, ' ...'),
  ])
}

function definitions(title: string, texts: Readonly<Record<string, string>>): string[] {
  const rows = Object.entries(texts)
  return [
    `.SH ${title}`,
    ...rows.flatMap(([term, text]) => ['.TP', `\\fB${escaped(term)}\\fR`, sentenceOf(text)]),
  ]
}

function sentenceOf(text: string): string {
  return escaped(`${upperFirst(text)}.`)
}

/** Escapes text for man(7): hyphens, backslashes, quotes and a leading dot or apostrophe. */
function escaped(text: string): string {
  const plain = text.replace(/\\/g, '\\e').replace(/-/g, '\\-').replace(/"/g, '\\(dq')
  return /^[.']/.test(plain) ? `\\&${plain}` : plain
}

/** What follows the name of a command. */
function wordsOf(row: Command, shown: (word: string) => string, more: string): string[] {
  return row.registeredArguments.map((argument) => {
    const word = `${shown(argument.name())}${argument.variadic ? more : ''}`
    return argument.required ? word : `[${word}]`
  })
}

/* The tables of keys and commands in the documents. */

export function keysTable(): string {
  return tableOf(
    ['key', 'does'],
    keyRows.map(({ key, does }) => [`**${key}**`, does]),
  )
}

export function commandsTable(): string {
  return tableOf(
    ['command', 'does', 'options'],
    [
      ...commands.map((row) => [usageOf(row), row.description(), row.options.map(optionOf).join(' ')]),
      ['everywhere', '', everywhere.map(optionOf).join(' ')],
    ],
  )
}

function usageOf(row: Command): string {
  return `\`${joined(' ', ['pausebook', row.name(), ...wordsOf(row, (word) => word, '...')])}\``
}

/** `--format FORMAT` */
function optionOf({ flags }: Option): string {
  return `\`${flags.replace(/[<>]/g, '')}\``
}

function tableOf(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const lines = [head, head.map(() => '---'), ...rows]
  return lines.map((cells) => `| ${cells.map((cell) => cell.replace(/\|/g, '\\|')).join(' | ')} |\n`).join('')
}

/* The JSON Schemas that other programs can rely on, made from the program's own schemas.
 * `npm run docs` writes them into shared/; a test fails if a file there differs. */

/** By file name in shared/. */
export function publishedSchemas(): Record<string, object> {
  return {
    'prescription.schema.json': schemaOf(
      Prescription,
      'A Pausebook prescription',
      'What is to be done on a day: the same as a day in the notation. Seconds, and metres or kilograms only where no unit is given; every amount keeps the unit in which it was written. When a file is read, `line` and `text` of its items may be missing, and what the notation cannot write is refused.',
    ),
    'session.schema.json': schemaOf(
      Session.extend({ checksum: Checksum }),
      `A Pausebook session, format ${sessionFormat}`,
      'What was to be done on a day, and what happened, in the order in which it happened. Seconds, and metres where no unit is given; a load keeps the unit in which it was typed. A later event for a step corrects an earlier one; "undone" takes back everything from the event with the index "from" on, an earlier "undone" too, so that what that took back counts again. Everything shown is computed from these events. "checksum" is the SHA-256 of the file\'s UTF-8 bytes with its own 64 digits set to 0; a file without one is read.',
    ),
    'mornings.schema.json': schemaOf(
      Mornings,
      `A year of mornings, format ${morningFormat}`,
      'What was typed on the mornings of a year, in order: sleep in seconds, resting heart rate, body mass, soreness or pain by place from 0 to 10, a note. A later value for the same thing of the same morning replaces an earlier one; "undone" takes back what was last typed for that morning.',
    ),
    'summary.schema.json': schemaOf(
      Summary,
      'What `pausebook summary --json` prints',
      'The figures of one session: SI units, named in the keys, in full precision. Null means that a figure cannot be known; what was not done is known, and is 0. No key is ever missing. Every piece of work of the run and cross parts is there, done or not; every exercise with a recorded set, one entry a name.',
    ),
    'check.schema.json': schemaOf(
      DayFigures,
      'What `pausebook check --json` prints',
      'A prescription laid out: how many results it asks for, its metres, sets, planned tonnage and, roughly, its minutes. targetSeconds is the range for one entry, and absent where nothing determines it.',
    ),
  }
}

function schemaOf(schema: z.ZodType, title: string, description: string): object {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12' })
  return { $schema, title, description, ...rest }
}
