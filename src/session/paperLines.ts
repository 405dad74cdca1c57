import { lineOf, refused, shownOf } from '../prescription/line.ts'
import type { Prescription } from '../prescription/model.ts'
import { mostProblems, type Problem } from '../prescription/problem.ts'
import { entryIn, remarkIn, UnreadableLine } from './paperLine.ts'
import type { PaperLine, PaperPlace } from './paperModel.ts'
import { type PartNames, partNamesOf } from './paperParts.ts'

/* A results file line by line: one entry a line, and what stands apart. */

const longestLine = 500
const mostLines = 25_000

export interface PaperLines {
  lines: PaperLine[]
  problems: Problem[]
  /** Every entry could be told from the rest. */
  whole: boolean
}

/** The lines of a results file that say something. Blank lines and comments say nothing. Never throws.
 * @param text without regard to line ends and a byte-order mark */
export function readPaperLines(text: string, prescription: Prescription): PaperLines {
  const names = partNamesOf(prescription)
  const lines: PaperLine[] = []
  const problems: Problem[] = []
  let whole = true
  for (const [index, raw] of text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .entries()) {
    if (raw.trim() === '') continue
    const place = { line: index + 1, column: 1, length: 1, shown: shownOf(raw) }
    try {
      const line = lineIn(raw, place, names, prescription)
      if (line !== null) lines.push(line)
      if (lines.length > mostLines)
        throw new UnreadableLine(`a results file has at most ${mostLines} entries`, true)
    } catch (error) {
      if (!(error instanceof UnreadableLine)) throw error
      problems.push(problemAt(place, error.message))
      whole &&= !error.isResult
      if (problems.length > mostProblems || lines.length > mostLines) break
    }
  }
  return { lines, problems, whole }
}

/** A problem of a results file at a place in it. */
export function problemAt(place: PaperPlace, message: string): Problem {
  const { line, column, length, shown } = place
  return { line, column, length, message, text: shown, instead: null, severity: 'error' }
}

/** What is said of a value that is questioned, and how it is insisted on. */
export function unlessInsisted(message: string): string {
  return message.endsWith('?')
    ? `${message} Where it is right, end the line with !!`
    : `${message}; where it is right, end the line with !!`
}

function lineIn(
  raw: string,
  place: PaperPlace,
  names: PartNames,
  prescription: Prescription,
): PaperLine | null {
  if (raw.length > longestLine) throw new UnreadableLine(`a line has at most ${longestLine} characters`, true)
  const control = refused.exec(raw)
  if (control !== null) {
    place.column = [...raw.slice(0, control.index)].length + 1
    throw new UnreadableLine('this character cannot stand in a results file; delete it', true)
  }
  const { written } = lineOf(raw, place.line)
  if (written === '') return null
  place.column = [...raw.slice(0, raw.length - raw.trimStart().length)].length + 1
  place.length = [...written].length
  return { ...(remarkIn(written, names, prescription) ?? entryIn(written, place)), place }
}
