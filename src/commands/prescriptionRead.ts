import { basename } from 'node:path'
import type { Settings } from '../logbook/settings.ts'
import { type Diagnostic, mostDiagnostics, printDiagnostics } from '../prescription/diagnostic.ts'
import type { Prescription } from '../prescription/model.ts'
import { readPrescription } from '../prescription/read.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput } from './command.ts'
import { unitsOf } from './loadSettings.ts'

const percentSign = 0x25

type Maxima = readonly { name: string; kg: number }[]

/** Reads the prescription in a file, with its warnings and the text of the file.
 * @param path of the file, or `-` for standard input
 * @param maximaKnown one-repetition maxima of earlier days; called only if there may be a load in percent
 * @throws CommandError `bad_prescription` with every problem of the file */
export function parsePrescription(
  { io, units }: Pick<CommandInput, 'io' | 'units'>,
  path: string,
  settings: Settings,
  maximaKnown: () => Maxima = () => [],
): { prescription: Prescription; warnings: Diagnostic[]; text: string } {
  const bytes = io.readBytes(path, 'prescription')
  const reading = readPrescription(bytes, {
    maxima: bytes.includes(percentSign) ? maximaKnown() : [],
    units: unitsOf({ units }, settings),
  })
  if ('prescription' in reading) return { ...reading, text: new TextDecoder().decode(bytes) }
  throw problemsError('bad_prescription', 'prescription', path, reading.problems, 'Correct the file.')
}

/** The error for a file with problems: their number, and each of them.
 * @param what kind of file it is: "prescription"
 * @param then a sentence with what to do */
export function problemsError(
  code: string,
  what: string,
  path: string,
  problems: readonly Diagnostic[],
  then: string,
): CommandError {
  const name = path === '-' ? 'standard input' : sanitize(basename(path))
  return new CommandError(code, `The ${what} "${name}" has ${problemCount(problems)}. ${then}`, {
    problems: problems
      .slice(0, mostDiagnostics)
      .map(({ line, column, message }) => ({ line, column, message })),
    details: printDiagnostics([...problems], name),
  })
}

/** `3 problems`, `more than 100 problems` */
export function problemCount({ length }: readonly Diagnostic[]): string {
  return length > mostDiagnostics ? `more than ${mostDiagnostics} problems` : counted(length, 'problem')
}
