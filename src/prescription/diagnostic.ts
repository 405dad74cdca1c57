/* What is wrong with a prescription, and how to print it. */

export interface Diagnostic {
  /** From 1. */
  line: number
  /** In characters (code points) from 1. */
  column: number
  /** How many characters the carets mark, at least 1. */
  length: number
  /** What is wrong, what was expected and, where it is known, what to write instead. */
  message: string
  /** The line of the file; every refused character is one U+FFFD. */
  text: string
  /** The whole corrected line, or the whole file if headings are missing; null if unknown. */
  suggestion: string | null
  severity: 'error' | 'warning'
  /** The header that the time of a race belongs in: `goal: 5 km in 20:00`. */
  goal?: string
}

/** An error of one character, without a line to write instead. */
export function errorAt(line: number, column: number, message: string, text = ''): Diagnostic {
  return { line, column, length: 1, message, text, suggestion: null, severity: 'error' }
}

/** An error at a place of a line, as messages show the line.
 * @param from in the characters (UTF-16) of the line */
export function errorIn(
  line: { number: number; shown: string },
  from: number,
  length: number,
  message: string,
  suggestion: string | null = null,
): Diagnostic {
  const column = [...line.shown.slice(0, from)].length + 1
  return { ...errorAt(line.number, column, message, line.shown), length: Math.max(1, length), suggestion }
}

/** The most problems that are collected. */
export const mostDiagnostics = 100
const mostShown = 76

/** Prints problems: `day.txt:9:15: message`, the line indented by two spaces, and carets under the place.
 * After a hundred, "… and more".
 * @param file name of the file, printed before each problem */
export function printDiagnostics(problems: Diagnostic[], file: string): string {
  const shown = problems.slice(0, mostDiagnostics).map((problem) => printDiagnostic(problem, file))
  if (problems.length > mostDiagnostics) shown.push('… and more')
  return shown.join('\n')
}

function printDiagnostic(problem: Diagnostic, file: string): string {
  const kind = problem.severity === 'warning' ? 'warning: ' : ''
  const head = `${file}:${problem.line}:${problem.column}: ${kind}${problem.message}`
  const { text, from } = clipped([...problem.text], problem.column - 1)
  const whole = problem.suggestion?.includes('\n\n')
    ? `\n\nThe whole file as it would be read:\n\n${problem.suggestion.trimEnd()}`
    : ''
  if (text.trim() === '') return head + whole
  const carets = Math.max(1, Math.min(problem.length, [...text].length - from || 1))
  return `${head}\n  ${text}\n  ${' '.repeat(from)}${'^'.repeat(carets)}${whole}`
}

/** The part of a long line around the place, with the place's index in it. */
function clipped(characters: string[], from: number): { text: string; from: number } {
  if (characters.length <= mostShown) return { text: characters.join('').trimEnd(), from }
  const start = Math.max(0, Math.min(from - 20, characters.length - mostShown))
  const end = Math.min(characters.length, start + mostShown)
  const text = `${start > 0 ? '…' : ''}${characters.slice(start, end).join('').trimEnd()}${end < characters.length ? '…' : ''}`
  return { text, from: from - start + (start > 0 ? 1 : 0) }
}
