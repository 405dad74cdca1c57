import { printPrescription } from '../../src/prescription/print.ts'
import { dayOf } from '../day.ts'

/** The text of a day of one line of a lift part. */
export function liftDay(line: string): string {
  return `Day\n\nlift\n  ${line}\n`
}

/** The line as the notation prints it. */
export function printedLine(line: string): string | undefined {
  return printPrescription(dayOf(liftDay(line)))
    .trimEnd()
    .split('\n')
    .at(-1)
    ?.trim()
}
