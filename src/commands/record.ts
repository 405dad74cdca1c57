import { printProblems } from '../prescription/problem.ts'
import { readPrescription } from '../prescription/read.ts'
import { openOn } from './open.ts'
import { CommandError, type CommandInput, type ExitCode } from './port.ts'

/** Opens the recorder on a prescription.
 * @throws CommandError `bad_prescription` with every problem of the file */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [path = ''] = input.words
  const reading = readPrescription(input.io.readText(path, 'prescription'))
  if ('prescription' in reading) return openOn(input, reading.prescription)
  const { problems } = reading
  throw new CommandError(
    'bad_prescription',
    `The prescription has ${problems.length === 1 ? 'a problem' : `${problems.length} problems`}. Correct what is shown below and try again.`,
    { problems, details: `${printProblems(problems, path)}\n` },
  )
}
