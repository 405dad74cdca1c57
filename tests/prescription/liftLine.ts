import { printPrescription } from '../../src/prescription/print.ts'
import { dayOf } from '../day.ts'

/** The text of a day with one lift line. */
export function liftDay(line: string): string {
  return `Day\n\nlift\n  ${line}\n`
}

/** The line as printed in the notation. */
export function printedLine(line: string): string | undefined {
  return printPrescription(dayOf(liftDay(line)))
    .trimEnd()
    .split('\n')
    .at(-1)
    ?.trim()
}
