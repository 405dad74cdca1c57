import type { CommandRow, OptionRow } from './port.ts'

/* The one command table: the command line, --help, the completions and the man page are made of it.
 * A module is imported only when its command is called. */

export const globalOptions: readonly OptionRow[] = [
  {
    name: 'logbook',
    value: 'DIR',
    description: 'the logbook to use (else PAUSEBOOK_DIR, else your data directory)',
  },
  { name: 'units', value: 'UNITS', description: 'units to print in: km or mi, kg or lb, or both ("mi lb")' },
  { name: 'json', value: null, description: 'figures as JSON on standard output' },
]

export const commandTable: readonly CommandRow[] = [
  {
    name: 'completion',
    words: [{ name: 'SHELL', required: true, completes: ['bash', 'zsh', 'fish'] }],
    options: [],
    description: 'prints a completion script for bash, zsh or fish',
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
]
