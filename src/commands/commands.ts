import type { CommandRow, OptionRow } from './command.ts'

/* The one command table: it drives the command line, --help, the completions and the man page. A module is imported
 * only when its command runs. */

export const globalOptions: readonly OptionRow[] = [
  {
    name: 'logbook',
    value: 'DIR',
    description: 'the logbook to use (else PAUSEBOOK_DIR, else your data directory)',
  },
  { name: 'units', value: 'UNITS', description: 'units to print in: km or mi, kg or lb, or both ("mi lb")' },
  { name: 'json', value: null, description: 'figures as JSON on standard output' },
]

const dateOptions: readonly OptionRow[] = [
  { name: 'from', value: 'DATE', description: 'from this day on: 2026-11-26' },
  { name: 'to', value: 'DATE', description: 'up to this day' },
]

const pictureOption: OptionRow = {
  name: 'format',
  value: 'FORMAT',
  description: 'text, or svg: the chart as a picture (default: text)',
  choices: ['text', 'svg'],
}

export const commandTable: readonly CommandRow[] = [
  {
    name: '',
    words: [],
    options: [],
    description: 'opens the app: an unfinished session first, else the day to pick',
    load: () => import('./open.ts'),
  },
  {
    name: 'record',
    words: [{ name: 'PRESCRIPTION', required: true, completes: 'file' }],
    options: [],
    description: 'opens the recorder on that file',
    load: () => import('./record.ts'),
  },
  {
    name: 'check',
    words: [{ name: 'PRESCRIPTION', required: true, completes: 'file' }],
    options: [],
    description: 'reads it and prints the day laid out, or every problem in it',
    load: () => import('./check.ts'),
  },
  {
    name: 'summary',
    words: [{ name: 'SESSION', required: false }],
    options: [
      { name: 'full', value: null, description: 'adds what a note does not need' },
      {
        name: 'format',
        value: 'FORMAT',
        description: 'text, markdown or json (default: text)',
        choices: ['text', 'markdown', 'json'],
      },
      { name: 'copy', value: null, description: 'puts it onto the clipboard of the terminal as well' },
    ],
    description: 'the summary of one session (by id or date), by default the newest',
    load: () => import('./summary.ts'),
  },
  {
    name: 'history',
    words: [],
    options: [
      ...dateOptions,
      { name: 'lift', value: 'NAME', description: 'only sessions with this lift, in any spelling' },
      { name: 'text', value: 'WORDS', description: 'only sessions with these words: title, lines, notes' },
    ],
    description: 'the sessions, newest first, one a line',
    load: () => import('./history.ts'),
  },
  {
    name: 'progress',
    words: [
      { name: 'SUBJECT', required: false, completes: ['lift', 'run', 'load', 'pain', 'body'] },
      { name: 'NAME', required: false, rest: true },
    ],
    options: [
      ...dateOptions,
      { name: 'full', value: null, description: 'progress load: also the load times its monotony' },
      pictureOption,
    ],
    description: 'how a lift, the running, the session load or pain have gone over the weeks',
    load: () => import('./progress.ts'),
  },
  {
    name: 'completion',
    words: [{ name: 'SHELL', required: true, completes: ['bash', 'zsh', 'fish', 'powershell'] }],
    options: [],
    description: 'prints a completion script for bash, zsh, fish or PowerShell',
    load: () => import('./completion.ts'),
  },
  {
    name: 'settings',
    words: [
      { name: 'KEY', required: false },
      { name: 'VALUE', required: false },
    ],
    options: [],
    description: 'shows the settings, shows one, or sets one',
    load: () => import('./settings.ts'),
  },
  {
    name: 'plates',
    words: [{ name: 'LOAD', required: true, rest: true }],
    options: [
      { name: 'bar', value: 'MASS', description: 'another bar than the one in the settings' },
      { name: 'collars', value: 'MASS', description: 'mass of one collar, or none' },
      { name: 'have', value: 'PLATES', description: 'pairs that are there: "2 x 25, 1 x 10"' },
    ],
    description: 'what goes on each side of the bar',
    load: () => import('./plates.ts'),
  },
  {
    name: 'paces',
    words: [],
    options: [
      { name: 'race', value: 'DISTANCE', description: 'what was raced, or is to be: 10km, "half marathon"' },
      { name: 'time', value: 'TIME', description: 'race time: 40:00' },
      {
        name: 'card',
        value: null,
        description:
          "the race card: split and running time for each km or mi; without --race, of the plan's race",
      },
      {
        name: 'negative',
        value: 'PERCENT',
        description: 'on the card: the second half faster by so much: 1%',
      },
      { name: 'lap', value: 'LENGTH', description: 'on the card: for each lap of so many metres: 400' },
      { name: 'narrow', value: null, description: 'on the card: 14 columns, for a wrist' },
      { name: 'lanes', value: null, description: 'one lap in each of eight lanes, not only in lane 1' },
    ],
    description: 'race pace, one lap of the track, and equal performances',
    load: () => import('./paces.ts'),
  },
  {
    name: 'explain',
    words: [{ name: 'FIGURE', required: false, rest: true }],
    options: [
      { name: 'session', value: 'SESSION', description: "step by step, with that session's numbers put in" },
    ],
    description: 'how a figure is computed, from what source, where it holds and where it does not',
    load: () => import('./explain.ts'),
  },
  {
    name: 'verify',
    words: [],
    options: [
      {
        name: 'repair',
        value: null,
        description: 'replaces a damaged file with its previous copy and keeps the damaged one',
      },
      { name: 'seal', value: null, description: 'gives a checksum to each file that has none' },
    ],
    description: 'reads every file in the logbook, names what is damaged, rebuilds what is derived',
    load: () => import('./verify.ts'),
  },
  {
    name: 'backfill',
    words: [
      { name: 'PRESCRIPTION', required: true, completes: 'file' },
      { name: 'RESULTS', required: true, completes: 'file' },
    ],
    options: [
      { name: 'date', value: 'DATE', description: 'when it was, where neither file says so: 2026-11-26' },
    ],
    description: 'stores a session that was kept on paper and prints its id',
    load: () => import('./backfill.ts'),
  },
  {
    name: 'reopen',
    words: [{ name: 'SESSION', required: true }],
    options: [],
    description: 'opens a closed session again, to correct it',
    load: () => import('./reopen.ts'),
  },
  {
    name: 'new',
    words: [{ name: 'NAME', required: false }],
    options: [
      {
        name: 'like',
        value: 'DAY',
        description:
          'like the prescription of this name or path, or of this session, instead of the template',
      },
    ],
    description: "writes a day into the logbook's prescriptions and opens the editor on it",
    load: () => import('./new.ts'),
  },
  {
    name: 'next',
    earlierName: 'again',
    words: [{ name: 'SESSION', required: false }],
    options: [],
    description:
      'what a session says about the next one like it, with reasons, and the day again as notation',
    load: () => import('./next.ts'),
  },
  {
    name: 'cut',
    words: [{ name: 'PRESCRIPTION', required: true, completes: 'file' }],
    options: [
      { name: 'by', value: 'PERCENT', description: 'by this share of its expected minutes: 30% less' },
      { name: 'to', value: 'PERCENT', description: 'to this share of its expected minutes: 70% of it stays' },
      {
        name: 'for',
        value: 'DISTANCE',
        description: "the running to what suits a race over this distance, from the day's goal",
      },
      { name: 'minutes', value: 'N', description: 'to what fits into so many minutes' },
      { name: 'only', value: 'PART', description: 'run or lift: the other one goes' },
    ],
    description: 'prints the prescription cut down, as notation, each change a comment',
    load: () => import('./cut.ts'),
  },
  {
    name: 'plan',
    words: [
      { name: 'DAY', required: false },
      { name: 'DAY', required: false },
    ],
    options: [
      { name: 'new', value: null, description: 'writes a first plan from the last four weeks and the goal' },
      { name: 'weeks', value: 'N', description: 'of the new plan (default: up to the race, else 8)' },
      { name: 'move', value: null, description: 'swaps two days of this week: plan --move Thu Fri' },
      pictureOption,
    ],
    description: 'the block of training, planned and done, week by week, to the race',
    load: () => import('./plan.ts'),
  },
  {
    name: 'morning',
    words: [{ name: 'WHAT', required: false, rest: true }],
    options: [{ name: 'undo', value: null, description: 'takes back what was typed last for that morning' }],
    description: 'sleep, resting heart rate, body mass, soreness: shows or records them',
    load: () => import('./morning.ts'),
  },
  {
    name: 'week',
    words: [{ name: 'DATE', required: false }],
    options: [],
    description: 'a week on one page: days done and days planned',
    load: () => import('./week.ts'),
  },
  {
    name: 'export',
    words: [],
    options: [
      {
        name: 'format',
        value: 'FORMAT',
        description:
          "ndjson: a line for each session's summary, then for each morning; csv: a table (default: ndjson)",
        choices: ['ndjson', 'csv'],
      },
      {
        name: 'what',
        value: 'WHAT',
        description: 'the table as CSV: a line a set, a split or a morning (default: sets)',
        choices: ['sets', 'splits', 'mornings'],
      },
    ],
    description: 'everything in the logbook, as NDJSON or CSV',
    load: () => import('./export.ts'),
  },
  {
    name: 'import',
    words: [{ name: 'TABLE', required: true, completes: 'file' }],
    options: [
      {
        name: 'map',
        value: 'COLUMN=FIELD',
        description: 'what a column is, where its heading does not say it; may be given several times',
        repeats: true,
      },
      { name: 'dry', value: null, description: 'says how it reads each column, and stores nothing' },
    ],
    description: 'stores the sessions of a CSV file of sets or splits, or mornings, all or none',
    load: () => import('./import.ts'),
  },
  {
    name: 'backup',
    words: [{ name: 'FILE', required: true, completes: 'file' }],
    options: [],
    description: 'writes the whole logbook into one file',
    load: () => import('./backup.ts'),
  },
  {
    name: 'restore',
    words: [{ name: 'FILE', required: true, completes: 'file' }],
    options: [{ name: 'dry', value: null, description: 'reads the backup and says what it holds' }],
    description: 'puts a backup in the place of an empty logbook, all of it or nothing',
    load: () => import('./restore.ts'),
  },
  {
    name: 'sync',
    words: [],
    options: [
      {
        name: 'delete',
        value: null,
        description:
          'allows deleting more than three files or a year of mornings, here and on the other machines',
      },
      {
        name: 'keep',
        value: 'ID',
        description: 'of two versions of a session keeps this one; of a day or the plan, give its name',
      },
    ],
    description: 'keeps sessions and prescriptions in step with other machines through your git',
    load: () => import('./sync.ts'),
  },
]
