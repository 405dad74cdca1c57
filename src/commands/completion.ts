import { bashCompletion } from './completionBash.ts'
import { fishCompletion } from './completionFish.ts'
import { zshCompletion } from './completionZsh.ts'
import type { CommandInput, ExitCode } from './port.ts'
import { commandTable, globalOptions } from './table.ts'

/** `pausebook completion (bash|zsh|fish)`: a script for the shell to read, made of the command table. */
export async function run(input: CommandInput): Promise<ExitCode> {
  const rows = commandTable.filter((row) => row.name !== '' && row.hidden !== true)
  const script = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion }[
    input.words[0] as 'bash' | 'zsh' | 'fish'
  ]
  input.io.out(script(rows, globalOptions))
  return 0
}
