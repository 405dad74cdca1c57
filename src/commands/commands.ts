import { Argument, type Command, Option } from 'commander'
import type { CommandInput, ExitCode } from './command.ts'

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
  const day = 'a training day in a text file, or - for standard input'
  const session = 'its id, the beginning of it, its date, or newest'
  const command = (name: string, load: Load, hidden = false) =>
    program.command(name, { hidden }).action((...given) => call(load, given.at(-1)))
  const choice = (flags: string, description: string, ...choices: string[]) =>
    new Option(flags, description).choices(choices)
  const from = new Option('--from <DATE>', 'from this day on: 2026-11-26')
  const to = new Option('--to <DATE>', 'up to this day')
  const picture = choice(
    '--format <FORMAT>',
    'text, or svg: the chart as a picture (default: text)',
    'text',
    'svg',
  )

  command('record', () => import('./open.ts'))
    .description('opens the recorder on a day')
    .argument('<PRESCRIPTION>', day)

  command('check', () => import('./check.ts'))
    .description('reads a day and prints it laid out, or every problem in it')
    .argument('<PRESCRIPTION>', day)

  command('new', () => import('./new.ts'))
    .description("writes a day into the logbook's prescriptions and opens the editor on it")
    .argument('[NAME]', 'the title of the day')
    .option(
      '--like <DAY>',
      'like the prescription of this name or path, or of this session, instead of the template',
    )

  command('backfill', () => import('./backfill.ts'))
    .description('stores a session that was kept on paper and prints its id')
    .argument('<PRESCRIPTION>', day)
    .argument('<RESULTS>', 'what was done, a text file with one result a line')
    .option('--date <DATE>', 'when it was, where neither file says so: 2026-11-26')

  command('summary', () => import('./summary.ts'))
    .description('the summary of one session (by id or date), by default the newest')
    .argument('[SESSION]', session)
    .option('--full', 'adds what a note does not need')
    .addOption(
      choice('--format <FORMAT>', 'text, markdown or json (default: text)', 'text', 'markdown', 'json'),
    )
    .option('--copy', "also copies it to the terminal's clipboard")

  const next = (name: string, hidden = false) =>
    command(name, () => import('./next.ts'), hidden)
      .description(
        'what a session says about the next one like it, with reasons, and the day again as notation',
      )
      .argument('[SESSION]', session)
  next('next')
  // Its earlier name, for one release.
  next('again', true)

  command('history', () => import('./history.ts'))
    .description('the sessions, newest first, one a line')
    .addOption(from)
    .addOption(to)
    .option('--lift <NAME>', 'only sessions with this lift, in any spelling')
    .option('--text <WORDS>', 'only sessions with these words: title, lines, notes')

  command('progress', () => import('./progress.ts'))
    .description('how a lift, the running, the session load, pain or the body have gone over the weeks')
    .addArgument(new Argument('[SUBJECT]').choices(['lift', 'run', 'load', 'pain', 'body']))
    .argument('[NAME...]', 'of the lift: progress lift front squat')
    .addOption(from)
    .addOption(to)
    .option('--full', 'progress load: also the load times its monotony')
    .addOption(picture)

  command('week', () => import('./week.ts'))
    .description('a week on one page: days done and days planned')
    .argument('[DATE]', 'any day of the week, or the week: 2026-11-26, 2026-W48 (default: this week)')

  command('plan', () => import('./plan.ts'))
    .description('the block of training, planned and done, week by week, to the race')
    .argument('[DAY]', 'with --move: a weekday')
    .argument('[DAY]', 'the one to swap it with')
    .option('--new', 'writes a first plan from the last four weeks and the goal')
    .option('--weeks <N>', 'weeks of the new plan (default: up to the race, else 8)')
    .option('--move', 'swaps two days of this week: plan --move Thu Fri')
    .addOption(picture)

  command('morning', () => import('./morning.ts'))
    .description('sleep, resting heart rate, body mass, soreness: shows or records them')
    .argument('[WHAT...]', '6:40 h, 48 bpm, 67.8 kg, legs 3, "late train"; without it, today is shown')
    .option('--undo', 'takes back what was typed last for that morning')

  command('cut', () => import('./cut.ts'))
    .description('prints the prescription cut down, as notation, each change a comment')
    .argument('<PRESCRIPTION>', day)
    .option('--by <PERCENT>', 'by this share of its expected minutes: 30% less')
    .option('--to <PERCENT>', 'to this share of its expected minutes: 70% of it stays')
    .option(
      '--for <DISTANCE>',
      "the running to what suits a race over this distance instead of the day's goal",
    )
    .option('--minutes <N>', 'to what fits into this many minutes')
    .addOption(choice('--only <PART>', 'run or lift: drops the other one', 'run', 'lift'))

  command('paces', () => import('./paces.ts'))
    .description('race pace, one lap of the track, and equal performances')
    .option('--race <DISTANCE>', 'what was raced, or is to be: 10km, "half marathon"')
    .option('--time <TIME>', 'race time: 40:00')
    .option(
      '--card',
      "the race card: split and running time for each km or mi; without --race, of the plan's race",
    )
    .option('--negative <PERCENT>', 'on the card: the second half faster by this much: 1%')
    .option('--lap <LENGTH>', 'a lap of this many metres, on the card each of them: 200')
    .option('--narrow', 'on the card: 14 columns, for a wrist')
    .option('--lanes', 'one lap in each of eight lanes, not only in lane 1')

  command('plates', () => import('./plates.ts'))
    .description('what goes on each side of the bar')
    .argument('<LOAD...>', 'the bar and all that is on it: 92.5, 225 lb')
    .option('--bar <MASS>', 'another bar than the one in the settings')
    .option('--collars <MASS>', 'mass of one collar, or none')
    .option('--have <PLATES>', 'the pairs you have: "2 x 25, 1 x 10"')

  command('explain', () => import('./explain.ts'))
    .description('how a figure is computed, from what source, where it holds and where it does not')
    .argument('[FIGURE...]', 'without one, the names of all figures are listed')
    .option('--session <SESSION>', "step by step, with that session's numbers put in")

  command('reopen', () => import('./reopen.ts'))
    .description('opens a closed session again, to correct it')
    .argument('<SESSION>', session)

  command('import', () => import('./import.ts'))
    .description('stores the sessions of a CSV file, all or none')
    .argument('<TABLE>', 'the CSV file, with a line of headings')
    .option(
      '--map <COLUMN=FIELD>',
      'what a column is, where its heading does not say it; may be given several times',
      oneALine,
    )
    .option('--dry', 'says how it reads each column, and stores nothing')

  command('export', () => import('./export.ts'))
    .description('everything in the logbook, as NDJSON or CSV')
    .addOption(
      choice(
        '--format <FORMAT>',
        "ndjson: a line for each session's summary, each morning and each text (plan, foods); csv: a table (default: ndjson)",
        'ndjson',
        'csv',
      ),
    )
    .addOption(
      choice(
        '--what <WHAT>',
        'the table as CSV: a line a set, a split or a morning (default: sets)',
        'sets',
        'splits',
        'mornings',
      ),
    )

  command('backup', () => import('./backup.ts'))
    .description('writes the whole logbook into one file')
    .argument('<FILE>', 'a new file, or an older backup of this logbook, which is replaced')

  command('restore', () => import('./restore.ts'))
    .description('restores a backup into an empty logbook, all of it or nothing')
    .argument('<FILE>', 'written by pausebook backup')
    .option('--dry', 'reads the backup and says what it holds')

  command('sync', () => import('./sync.ts'))
    .description('keeps sessions and prescriptions in step with other machines through your git')
    .option(
      '--delete',
      'allows deleting more than three files or a year of mornings, here and on the other machines',
    )
    .option(
      '--keep <ID>',
      'keeps this one of two versions of a session; for a day or the plan, give its name',
    )

  command('verify', () => import('./verify.ts'))
    .description('reads every file in the logbook, names what is damaged, rebuilds what is derived')
    .option('--repair', 'replaces a damaged file with its previous copy and keeps the damaged one')
    .option('--seal', 'gives a checksum to each file that has none')

  command('settings', () => import('./settings.ts'))
    .description('shows the settings, shows one, or sets one')
    .argument('[KEY]', 'without one, all settings are shown with what they are for')
    .argument('[VALUE...]', 'the new value: settings units mi lb')

  command('completion', () => import('./completion.ts'))
    .description('prints a completion script for bash, zsh, fish or PowerShell')
    .addArgument(new Argument('<SHELL>').choices(['bash', 'zsh', 'fish', 'powershell']))
    .argument('[WORD...]', 'typed so far, after --: prints what may follow them')

  return program
}

/** An option that may be given several times. */
function oneALine(value: string, before?: string): string {
  return before === undefined ? value : `${before}\n${value}`
}
