import { processIo } from './io.ts'
import { outputOf } from './output.ts'
import { runCommandLine } from './program.ts'

/** The process: its arguments, its streams, its exit status. */
export async function main(): Promise<void> {
  // chalk knows FORCE_COLOR only, and reads it when it is imported: https://no-color.org asks for any value.
  if (process.env.NO_COLOR && process.env.FORCE_COLOR === undefined) process.env.FORCE_COLOR = '0'
  const output = outputOf()
  const code = await runCommandLine(process.argv.slice(2), processIo(output))
  // Set, not called: what is still to be drawn or written would be cut off.
  process.exitCode = output.status() ?? code
}
