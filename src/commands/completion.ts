import { bashCompletion } from './completionBash.ts'
import { fishCompletion } from './completionFish.ts'
import { zshCompletion } from './completionZsh.ts'
import type { CommandInput, ExitCode } from './port.ts'
import { commandTable, globalOptions } from './table.ts'

const writers = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion }
export type Shell = keyof typeof writers

/** `pausebook completion (bash|zsh|fish)`: a script for the shell to read. */
export async function run(input: CommandInput): Promise<ExitCode> {
  input.io.out(completionFor(input.words[0] as Shell))
  return 0
}

/** A shell's script, made of the command table. */
export function completionFor(shell: Shell): string {
  const rows = commandTable.filter((row) => row.name !== '' && row.hidden !== true)
  return writers[shell](rows, globalOptions)
}
