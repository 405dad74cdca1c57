import { outputOf, processIo } from '../../src/commands/io.ts'
import { runCommandLine } from '../../src/commands/program.ts'

/** Runs a command line and returns what the built program would print into a pipe. */
export async function printed(words: readonly string[]): Promise<string> {
  let said = ''
  const output = outputOf((_, bytes) => {
    said += new TextDecoder().decode(bytes)
    return bytes.length
  })
  const { readText, readBytes } = processIo(output)
  await runCommandLine(words, {
    ...output,
    steer: () => {},
    readText,
    readBytes,
    terminal: { in: false, out: false, err: false },
    columns: 80,
    env: process.env,
    now: () => new Date(),
  })
  return said
}
