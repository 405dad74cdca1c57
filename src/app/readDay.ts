import { readFileSync } from 'node:fs'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { readPrescription } from '../prescription/read.ts'

/** A prescription from a file; else in one line what is in the way, and how to see all of it. */
export function readDay(
  path: string,
  defaults: ReadingDefaults,
): { prescription: Prescription } | { message: string } {
  let bytes: Uint8Array
  try {
    bytes = readFileSync(path)
  } catch (error) {
    return { message: `it cannot be read: ${error instanceof Error ? error.message : String(error)}` }
  }
  const reading = readPrescription(bytes, defaults)
  if ('prescription' in reading) return { prescription: reading.prescription }
  const [first] = reading.problems
  const count = reading.problems.length
  const more = count > 1 ? ` (and ${count - 1} more; "pausebook check" shows all)` : ''
  return { message: first ? `line ${first.line}: ${first.message}${more}` : 'it is no prescription' }
}
