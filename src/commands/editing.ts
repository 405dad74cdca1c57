import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { mostProblems, printProblems } from '../prescription/problem.ts'
import { readPrescription } from '../prescription/read.ts'
import { printableOf } from './io.ts'

/** What editing a day needs from outside. */
export interface EditingTools {
  /** Opens the file in the editor and waits until it is closed. */
  edit(path: string): Promise<void>
  /** Whether to go back to the editor, asked with the problems on the screen. */
  goesBack(): Promise<boolean>
  err(text: string): void
  defaults: ReadingDefaults
}

/** Lets a day be edited until it can be read, or is left as it is; says whether it can be read. */
export async function editUntilRead(path: string, tools: EditingTools): Promise<boolean> {
  for (;;) {
    await tools.edit(path)
    const problems = problemsIn(path, tools.defaults)
    if (problems.length === 0) return true
    const count = problems.length > mostProblems ? `more than ${mostProblems}` : String(problems.length)
    tools.err(
      `${printProblems(problems, printableOf(basename(path)))}\n\n` +
        `${count} ${problems.length === 1 ? 'problem' : 'problems'}. Enter goes back to the editor, Escape or q leaves the day as it is. `,
    )
    const isBack = await tools.goesBack()
    tools.err('\n')
    if (!isBack) return false
  }
}

function problemsIn(path: string, defaults: ReadingDefaults) {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    const message = code === 'ENOENT' ? 'the file is gone' : `the file cannot be read (${code})`
    return [{ line: 1, column: 1, length: 1, message, text: '', instead: null, severity: 'error' as const }]
  }
  const reading = readPrescription(bytes, defaults)
  return 'problems' in reading ? reading.problems : []
}

/** What a key says to the question: Enter goes back, Escape, q, Ctrl-C, Ctrl-D and the end of the input leave;
 * null for any other. */
export function answerOf(keys: string): boolean | null {
  if (/^\u001b./s.test(keys)) return null
  const first = [...keys].find((key) => '\r\n\u001bqQ\u0003\u0004'.includes(key))
  return first === undefined ? null : first === '\r' || first === '\n'
}

/** Waits on the terminal for a key that answers. */
export async function keyAnswers(input: NodeJS.ReadStream): Promise<boolean> {
  input.setRawMode(true)
  input.resume()
  try {
    return await new Promise<boolean>((resolve) => {
      input.on('data', (keys: Buffer) => {
        const answer = answerOf(keys.toString('utf8'))
        if (answer !== null) resolve(answer)
      })
      input.once('end', () => resolve(false))
      input.once('error', () => resolve(false))
    })
  } finally {
    input.removeAllListeners('data')
    input.setRawMode(false)
    input.pause()
  }
}
