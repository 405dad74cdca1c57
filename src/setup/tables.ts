import type { CommandRow } from '../commands/command.ts'
import { commandTable, globalOptions } from '../commands/commands.ts'
import { keyRows } from '../recorder/keys.ts'

/* The tables of README.md that are made of the program's own. */

export function keysTable(): string {
  return tableOf(
    ['key', 'does'],
    keyRows.map(({ key, does }) => [`**${key}**`, does]),
  )
}

export function commandsTable(): string {
  const rows = commandTable.filter((row) => row.hidden !== true)
  return tableOf(
    ['command', 'does', 'options'],
    [
      ...rows.map((row) => [`\`${usageOf(row)}\``, row.description, row.options.map(optionOf).join(' ')]),
      ['everywhere', '', [...globalOptions, { name: 'help', value: null }].map(optionOf).join(' ')],
    ],
  )
}

function usageOf(row: CommandRow): string {
  const words = row.words.map(({ name, required, rest }) => {
    const word = rest ? `${name}...` : name
    return required ? word : `[${word}]`
  })
  return ['pausebook', row.name, ...words].filter((word) => word !== '').join(' ')
}

function optionOf(row: { name: string; value: string | null }): string {
  return `\`--${row.name}${row.value === null ? '' : ` ${row.value}`}\``
}

function tableOf(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const lines = [head, head.map(() => '---'), ...rows]
  return lines.map((cells) => `| ${cells.map((cell) => cell.replace(/\|/g, '\\|')).join(' | ')} |\n`).join('')
}
