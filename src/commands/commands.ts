import { Argument, type Command, Option } from 'commander'
import { type CommandInput, commandLineError, type ExitCode } from './command.ts'

/* The one command table: it drives the command line, --help, the completions and the man page. A module is imported
 * only when its command runs. */

type Load = () => Promise<{ run: (input: CommandInput) => Promise<ExitCode> }>

/** What the program does without a command. */
export const opening: { description: string; load: Load } = {
  description: 'opens the app: an unfinished session first, else the day to pick',
  load: () => import('./open.ts'),
}

/** Adds the shared options and every command to the program.
 * @param call runs a command whose words and options have been read */
export function withCommands(
  program: Command,
  call: (load: Load, command: Command) => Promise<void>,
): Command {
  program
    .helpCommand(false)
    .option('--logbook <DIR>', 'the logbook to use (else PAUSEBOOK_DIR, else your data directory)')
    .option('--units <UNITS>', 'units to print in: km or mi, kg or lb, or both ("mi lb")')
    .option('--json', 'figures as JSON on standard output')
  const command = (name: string, description: string, load: Load, hidden = false) =>
    program
      .command(name, { hidden })
      .description(description)
      .action((...given) => call(load, given.at(-1)))
  const from = new Option('--from <DATE>', 'from this day on: 2026-11-26')
  const to = new Option('--to <DATE>', 'up to this day')
  const picture = new Option(
    '--format <FORMAT>',
    'text, or svg: the chart as a picture (default: text)',
  ).choices(['text', 'svg'])

  command('record', 'opens the recorder on that file', () => import('./open.ts')).argument('<PRESCRIPTION>')

  command(
    'check',
    'reads it and prints the day laid out, or every problem in it',
    () => import('./check.ts'),
  ).argument('<PRESCRIPTION>')

  command(
    'summary',
    'the summary of one session (by id or date), by default the newest',
    () => import('./summary.ts'),
  )
    .argument('[SESSION]')
    .option('--full', 'adds what a note does not need')
    .addOption(
      new Option('--format <FORMAT>', 'text, markdown or json (default: text)').choices([
        'text',
        'markdown',
        'json',
      ]),
    )
    .option('--copy', 'puts it onto the clipboard of the terminal as well')

  command('history', 'the sessions, newest first, one a line', () => import('./history.ts'))
    .addOption(from)
    .addOption(to)
    .option('--lift <NAME>', 'only sessions with this lift, in any spelling')
    .option('--text <WORDS>', 'only sessions with these words: title, lines, notes')

  command(
    'progress',
    'how a lift, the running, the session load or pain have gone over the weeks',
    () => import('./progress.ts'),
  )
    .addArgument(
      oneOf(
        '[SUBJECT]',
        ['lift', 'run', 'load', 'pain', 'body'],
        (word, all) =>
          `There is progress of ${all}, not of "${word}". Write one of these, progress lift ${word} for a lift, or nothing to see them all.`,
      ),
    )
    .argument('[NAME...]')
    .addOption(from)
    .addOption(to)
    .option('--full', 'progress load: also the load times its monotony')
    .addOption(picture)

  command(
    'completion',
    'prints a completion script for bash, zsh, fish or PowerShell',
    () => import('./completion.ts'),
  ).addArgument(
    oneOf(
      '<SHELL>',
      ['bash', 'zsh', 'fish', 'powershell'],
      (word, all) => `There are completions for ${all}, not for "${word}". Write one of these.`,
    ),
  )

  command('settings', 'shows the settings, shows one, or sets one', () => import('./settings.ts'))
    .argument('[KEY]')
    .argument('[VALUE]')

  command('plates', 'what goes on each side of the bar', () => import('./plates.ts'))
    .argument('<LOAD...>')
    .option('--bar <MASS>', 'another bar than the one in the settings')
    .option('--collars <MASS>', 'mass of one collar, or none')
    .option('--have <PLATES>', 'pairs that are there: "2 x 25, 1 x 10"')

  command('paces', 'race pace, one lap of the track, and equal performances', () => import('./paces.ts'))
    .option('--race <DISTANCE>', 'what was raced, or is to be: 10km, "half marathon"')
    .option('--time <TIME>', 'race time: 40:00')
    .option(
      '--card',
      "the race card: split and running time for each km or mi; without --race, of the plan's race",
    )
    .option('--negative <PERCENT>', 'on the card: the second half faster by so much: 1%')
    .option('--lap <LENGTH>', 'on the card: for each lap of so many metres: 400')
    .option('--narrow', 'on the card: 14 columns, for a wrist')
    .option('--lanes', 'one lap in each of eight lanes, not only in lane 1')

  command(
    'explain',
    'how a figure is computed, from what source, where it holds and where it does not',
    () => import('./explain.ts'),
  )
    .argument('[FIGURE...]')
    .option('--session <SESSION>', "step by step, with that session's numbers put in")

  command(
    'verify',
    'reads every file in the logbook, names what is damaged, rebuilds what is derived',
    () => import('./verify.ts'),
  )
    .option('--repair', 'replaces a damaged file with its previous copy and keeps the damaged one')
    .option('--seal', 'gives a checksum to each file that has none')

  command(
    'backfill',
    'stores a session that was kept on paper and prints its id',
    () => import('./backfill.ts'),
  )
    .argument('<PRESCRIPTION>')
    .argument('<RESULTS>')
    .option('--date <DATE>', 'when it was, where neither file says so: 2026-11-26')

  command('reopen', 'opens a closed session again, to correct it', () => import('./reopen.ts')).argument(
    '<SESSION>',
  )

  command(
    'new',
    "writes a day into the logbook's prescriptions and opens the editor on it",
    () => import('./new.ts'),
  )
    .argument('[NAME]')
    .option(
      '--like <DAY>',
      'like the prescription of this name or path, or of this session, instead of the template',
    )

  const next = (name: string, hidden = false) =>
    command(
      name,
      'what a session says about the next one like it, with reasons, and the day again as notation',
      () => import('./next.ts'),
      hidden,
    ).argument('[SESSION]')
  next('next')
  // Its earlier name, for one release.
  next('again', true)

  command(
    'cut',
    'prints the prescription cut down, as notation, each change a comment',
    () => import('./cut.ts'),
  )
    .argument('<PRESCRIPTION>')
    .option('--by <PERCENT>', 'by this share of its expected minutes: 30% less')
    .option('--to <PERCENT>', 'to this share of its expected minutes: 70% of it stays')
    .option('--for <DISTANCE>', "the running to what suits a race over this distance, from the day's goal")
    .option('--minutes <N>', 'to what fits into so many minutes')
    .option('--only <PART>', 'run or lift: the other one goes')

  command(
    'plan',
    'the block of training, planned and done, week by week, to the race',
    () => import('./plan.ts'),
  )
    .argument('[DAY]')
    .argument('[DAY]')
    .option('--new', 'writes a first plan from the last four weeks and the goal')
    .option('--weeks <N>', 'of the new plan (default: up to the race, else 8)')
    .option('--move', 'swaps two days of this week: plan --move Thu Fri')
    .addOption(picture)

  command(
    'morning',
    'sleep, resting heart rate, body mass, soreness: shows or records them',
    () => import('./morning.ts'),
  )
    .argument('[WHAT...]')
    .option('--undo', 'takes back what was typed last for that morning')

  command('week', 'a week on one page: days done and days planned', () => import('./week.ts')).argument(
    '[DATE]',
  )

  command('export', 'everything in the logbook, as NDJSON or CSV', () => import('./export.ts'))
    .addOption(
      new Option(
        '--format <FORMAT>',
        "ndjson: a line for each session's summary, then for each morning; csv: a table (default: ndjson)",
      ).choices(['ndjson', 'csv']),
    )
    .addOption(
      new Option(
        '--what <WHAT>',
        'the table as CSV: a line a set, a split or a morning (default: sets)',
      ).choices(['sets', 'splits', 'mornings']),
    )

  command(
    'import',
    'stores the sessions of a CSV file of sets or splits, or mornings, all or none',
    () => import('./import.ts'),
  )
    .argument('<TABLE>')
    .option(
      '--map <COLUMN=FIELD>',
      'what a column is, where its heading does not say it; may be given several times',
      oneALine,
    )
    .option('--dry', 'says how it reads each column, and stores nothing')

  command('backup', 'writes the whole logbook into one file', () => import('./backup.ts')).argument('<FILE>')

  command(
    'restore',
    'puts a backup in the place of an empty logbook, all of it or nothing',
    () => import('./restore.ts'),
  )
    .argument('<FILE>')
    .option('--dry', 'reads the backup and says what it holds')

  command(
    'sync',
    'keeps sessions and prescriptions in step with other machines through your git',
    () => import('./sync.ts'),
  )
    .option(
      '--delete',
      'allows deleting more than three files or a year of mornings, here and on the other machines',
    )
    .option('--keep <ID>', 'of two versions of a session keeps this one; of a day or the plan, give its name')

  return program
}

/** A word of which only some are allowed.
 * @param refusal the error for another, given that and the allowed ones */
function oneOf(
  flags: string,
  allowed: readonly string[],
  refusal: (word: string, all: string) => string,
): Argument {
  const all = allowed.join(', ').replace(/, (?=[^,]*$)/, ' and ')
  return new Argument(flags).choices(allowed).argParser((word) => {
    if (allowed.includes(word)) return word
    throw commandLineError(refusal(word, all))
  })
}

/** An option that may be given several times. */
function oneALine(value: string, before?: string): string {
  return before === undefined ? value : `${before}\n${value}`
}
