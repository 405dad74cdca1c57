import { mostTextBytes, sanitize, unsafeAt } from '../validate/unsafe.ts'
import { mostCharacters } from './print.ts'

/* The lines of a file, prepared for the grammar, and what is wrong with them. Every change replaces one character with
 * one other, so that a place in the grammar's text is the same place in the file. */

export interface Line {
  number: number
  /** For messages: the line with tabs as spaces and refused characters as U+FFFD. */
  shown: string
  /** The line without its comment and outer spaces. */
  written: string
  /** The text given to the grammar. */
  text: string
  /** Where an unclosed quote opens, in UTF-16 units. */
  openQuote: number | null
}

/** A tab, and every space that is not the plain one. */
const spaces = /[\t\u00A0\u2000-\u200A\u202F\u205F\u3000]/g

export function shownOf(raw: string): string {
  return sanitize(raw.replace(spaces, ' '))
}

/** Prepares a line that has no refused characters. */
export function lineOf(raw: string, number: number): Line {
  const shown = raw.replace(spaces, ' ')
  const { text, end, openQuote } = plainOf(shown)
  return { number, shown, written: shown.slice(0, end).trim(), text: text.trimEnd(), openQuote }
}

/** Blank, a comment, or a line drawn below a heading: `---`. */
export const otherLine = /^\s*(?:$|#|[-=_*~–—]{2,}\s*$)/

/** What a list has before its lines: a bullet, a number, a box to tick. */
const listMark = /^ *(?:(?:[-*•◦▪●·]|\[[ x]?\]|\d{1,2}[a-h]?[.)]) +|[☐☑□✓✔✅]\uFE0F? *)+(?=\S)/iu

/** The line of a list without its mark, for which it has spaces. */
export function withoutListMark(line: Line): Line {
  const [mark] = listMark.exec(line.text) ?? []
  if (mark === undefined) return line
  const text = line.text.replace(mark, ' '.repeat(mark.length))
  return { ...line, text, written: line.shown.slice(mark.length, text.length).trim() }
}

/** With one space where there are several: patterns that may begin at each of 200 spaces would take seconds. */
export function withoutGaps(text: string): string {
  return text.replace(/ {2,}/g, ' ')
}

/** The plain sign of each typographic one. */
const plain = new Map(
  [
    ['x', '×'],
    ['-', '‐‑–—−'],
    ["'", '′‘’‚‛'],
    ['"', '“”„‟'],
  ].flatMap(([sign = '', others = '']) => [...others].map((other) => [other, sign])),
)

/** Outside quotes: replaces signs with plain ones and cuts off the comment. A quote that touches a digit means inches
 * or seconds: it opens no text and becomes a double prime. A text opened by a curly quote is closed by a curly or
 * a plain one; any other text only by a plain one. */
function plainOf(shown: string): { text: string; end: number; openQuote: number | null } {
  let text = ''
  let quote: number | null = null
  let closers = '"'
  for (let place = 0; place < shown.length; place++) {
    const character = shown[place] ?? ''
    if (quote !== null) {
      const closes = closers.includes(character)
      if (closes) quote = null
      text += closes ? '"' : character
      continue
    }
    if (character === '#' && (place === 0 || shown[place - 1] === ' '))
      return { text, end: place, openQuote: null }
    const made = plain.get(character) ?? character
    const isMark = made === '"' && /[0-9]/.test(shown[place - 1] ?? '')
    text += isMark ? '″' : made
    if (made !== '"' || isMark) continue
    quote = place
    closers = character === '"' ? '"' : '"”“'
  }
  return { text, end: shown.length, openQuote: quote }
}

/** Decodes a file, or returns why it cannot. Removes a byte-order mark. What is not UTF-8 becomes U+FFFD, and
 * `linesOf` reports the lines that have it. */
export function textOf(
  input: Uint8Array | string,
  what: 'day' | 'plan' | 'list of foods' | 'results file',
): { text: string; isUtf8: boolean } | Diagnostic {
  const size = typeof input === 'string' ? new TextEncoder().encode(input).length : input.length
  if (size > mostTextBytes)
    return errorAt(1, 1, `this file is larger than 1 MiB, more than any ${what} needs: start a new one`)
  if (typeof input === 'string')
    return { text: input.startsWith('\uFEFF') ? input.slice(1) : input, isUtf8: true }
  if ((input[0] === 0xff && input[1] === 0xfe) || (input[0] === 0xfe && input[1] === 0xff))
    return errorAt(1, 1, 'this file is written in UTF-16: save it as UTF-8')
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(input), isUtf8: true }
  } catch {
    // Text in another encoding has no such bytes; a picture or an archive has.
    if (input.some((byte) => byte < 9))
      return errorAt(1, 1, `this is not text: write the ${what} as a text file in UTF-8`)
    return { text: new TextDecoder('utf-8').decode(input), isUtf8: false }
  }
}

/** Yields the lines of what `textOf` returns one at a time, as they are asked for, or why one cannot be read. */
export function* linesOf(text: string, isUtf8 = true): Generator<Line | Diagnostic> {
  let number = 1
  for (let start = 0; start <= text.length; number++) {
    const found = text.indexOf('\n', start)
    const end = found === -1 ? text.length : found
    const raw = text.slice(start, end).replace(/\r$/, '')
    yield problemOf(raw, number, isUtf8) ?? lineOf(raw, number)
    start = end + 1
  }
}

/** Why a line is refused before it is read. */
function problemOf(raw: string, number: number, isUtf8: boolean): Diagnostic | null {
  const refused = (at: number, message: string) =>
    errorAt(number, [...raw.slice(0, at)].length + 1, message, shownOf(raw.slice(0, 4000)).trimEnd())
  const broken = isUtf8 ? -1 : raw.indexOf('\uFFFD')
  if (broken >= 0) return refused(broken, 'this is not UTF-8: save the file as UTF-8')
  const unsafe = unsafeAt(raw)
  if (unsafe >= 0) {
    const code = (raw.codePointAt(unsafe) ?? 0).toString(16).toUpperCase().padStart(4, '0')
    return refused(unsafe, `the character U+${code} is not allowed: delete it`)
  }
  const characters = raw.length <= mostCharacters ? [] : [...raw]
  if (characters.length <= mostCharacters) return null
  const message = `this line has ${characters.length} characters, and a line has at most ${mostCharacters}: break it up`
  return refused(characters.slice(0, mostCharacters).join('').length, message)
}

/** Yields the lines of one of the athlete's own texts, without blank ones and comments. Invalid ones become problems,
 * until there are too many.
 * @param what kind of file it is: `plan` */
export function* linesOfText(
  input: Uint8Array | string,
  what: 'day' | 'plan' | 'list of foods' | 'results file',
  problems: Diagnostic[],
): Generator<Line> {
  const file = textOf(input, what)
  if ('message' in file) {
    problems.push(file)
    return
  }
  for (const line of linesOf(file.text, file.isUtf8)) {
    if (problems.length > mostDiagnostics) return
    if ('message' in line) problems.push(line)
    // `-` alone is a skipped result, and what has an empty box was not done.
    else if (line.text.trim() !== '') yield /^ *-|\[ ?\]|[☐□]/.test(line.text) ? line : withoutListMark(line)
  }
}

/** The texts between the commas, or semicolons, outside quotes, trimmed, each with its place; empty for a blank text. */
export function betweenCommas(text: string): { text: string; at: number }[] {
  if (text.trim() === '') return []
  const unquoted = text.replace(/"[^"]*"?/g, (quoted) => '"'.repeat(quoted.length))
  let from = 0
  return unquoted.split(/[,;]/).map(({ length }) => {
    const bit = text.slice(from, from + length)
    const at = from + Math.max(0, bit.search(/\S/))
    from += length + 1
    return { text: bit.trim(), at }
  })
}

/* What is wrong with a line. */

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
  if (characters.length <= mostShown)
    return { text: characters.join('').trimEnd(), from: Math.min(from, characters.length) }
  const start = Math.max(0, Math.min(from - 20, characters.length - mostShown))
  const end = Math.min(characters.length, start + mostShown)
  const text = `${start > 0 ? '…' : ''}${characters.slice(start, end).join('').trimEnd()}${end < characters.length ? '…' : ''}`
  return { text, from: from - start + (start > 0 ? 1 : 0) }
}
