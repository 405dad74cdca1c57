import { bisector, range, sum } from 'd3-array'
import { type Fault, faultsIn, isObject } from '../validate/faults.ts'
import { jsonMistake } from '../validate/json.ts'
import { prescriptionShape } from './generated/shapes.js'
import { type Diagnostic, errorAt, linesOf, mostDiagnostics, shownOf } from './lines.ts'
import type { Prescription } from './model.ts'
import { printedLines, printPrescription } from './print.ts'
import { mostItems, mostParts, type Read, type ReadingDefaults, readDay } from './reader.ts'
import { firstDifference } from './readItem.ts'

/* Reads a prescription as JSON. JSON that the notation cannot express is refused, so that every day can be printed and
 * read again. */

const deepestJson = 40

/** Reads a day in JSON. Problems name the place by its path. */
export function readJson(text: string, defaults: ReadingDefaults): Read {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    return failed([syntaxProblem(text, error instanceof Error ? error.message : '')])
  }
  if (isDeeperThan(value, deepestJson))
    return failed([pathProblem([], 'this is nested deeper than any prescription')])
  const many = tooMany(value)
  if (many !== null) return failed([pathProblem(['parts'], many)])
  const faults = faultsIn(prescriptionShape(), value, mostDiagnostics + 1)
  if (faults.length > 0) return failed(faults.map(faultProblem))
  return asWritten(value as Prescription, defaults)
}

/** The error for too many parts or items. Checked first, because a schema would report every fault in a million
 * items. */
function tooMany(value: unknown): string | null {
  const parts = isObject(value) && Array.isArray(value.parts) ? value.parts : []
  if (parts.length > mostParts) return `a day has at most ${mostParts} parts`
  const items = sum(parts, (part) => (isObject(part) && Array.isArray(part.items) ? part.items.length : 0))
  return items > mostItems ? `a day has at most ${mostItems} items` : null
}

function failed(problems: Diagnostic[]): Read {
  return { prescription: null, problems }
}

/** The day, if printing and reading it gives the same day. */
function asWritten(prescription: Prescription, defaults: ReadingDefaults): Read {
  const lines = printedLines(prescription)
  const read = readDay(linesOf(printPrescription(prescription)), defaults)
  const problems = read.problems.map(({ line, message, severity }) => {
    const { part = null, item = null } = lines[line - 1] ?? {}
    const path = part === null ? [] : item === null ? ['parts', part] : ['parts', part, 'items', item]
    return { ...pathProblem(path, message), severity }
  })
  if (read.prescription === null) return failed(problems.filter(({ severity }) => severity === 'error'))
  const different = firstDifference(prescription, read.prescription, [])
  if (different !== null) return failed([pathProblem(different, 'this cannot be written in the notation')])
  return { prescription, problems }
}

function isDeeperThan(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  if (depth === 0) return true
  return Object.values(value).some((inner) => isDeeperThan(inner, depth - 1))
}

function faultProblem({ path, wrong }: Fault): Diagnostic {
  return pathProblem(path, path.length === 0 ? `the day ${wrong}` : wrong)
}

function pathProblem(path: readonly PropertyKey[], message: string): Diagnostic {
  const place = path.reduce<string>(
    (written, key) =>
      written + (typeof key === 'number' ? `[${key}]` : `${written === '' ? '' : '.'}${printableKey(key)}`),
    '',
  )
  return errorAt(1, 1, place === '' ? message : `${place}: ${message}`)
}

/** A key from someone else's file, made fit for a message. */
function printableKey(key: PropertyKey): string {
  return shownOf(String(key)).slice(0, 80)
}

/** What the parser says is wrong, where it met it; of a file that was cut off, that its end is missing. */
function syntaxProblem(text: string, reason: string): Diagnostic {
  const { place, isCutOff } = jsonMistake(text, reason)
  const before = text.slice(0, place ?? strangeToken(text)).split('\n')
  const column = [...(before.at(-1) ?? '')].length + 1
  const wrong = isCutOff ? 'the file ends here, before its last bracket is closed' : shownOf(reason)
  const message = `Invalid JSON: ${wrong}. The file begins with {, so it is read as JSON`
  return errorAt(before.length, column, message)
}

/** The place of a token that the parser refuses without saying where: only what comes before it can be continued. */
function strangeToken(text: string): number {
  const byEnd = bisector((end: number) => Number(isRefused(text.slice(0, end))))
  return byEnd.left(range(text.length), 1) - 1
}

function isRefused(text: string): boolean {
  try {
    JSON.parse(text)
    return false
  } catch (error) {
    return error instanceof Error && error.message.endsWith('is not valid JSON')
  }
}
