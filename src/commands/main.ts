import { reasonOf } from '../logbook/reasons.ts'
import { processIo } from './io.ts'
import { runCommandLine } from './program.ts'

/** The process: its arguments, its streams, its exit status. */
export async function main(): Promise<void> {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      // A reader that has seen enough (head, less) is no failure; there is nobody left to write to.
      if (error.code === 'EPIPE') process.exit(0)
      // The terminal was closed: SIGHUP ends the run.
      if (error.code === 'EIO') return
      if (stream === process.stdout)
        process.stderr.write(
          `pausebook: The output cannot be written: ${reasonOf(error)}. Make room or send it elsewhere.\n`,
        )
      process.exit(1)
    })
  }
  // chalk knows FORCE_COLOR only, and reads it when it is imported: https://no-color.org asks for any value.
  if (process.env.NO_COLOR && process.env.FORCE_COLOR === undefined) process.env.FORCE_COLOR = '0'
  // Set, not called: process.exit cuts what a pipe has not taken yet.
  process.exitCode = await runCommandLine(process.argv.slice(2), processIo())
}
