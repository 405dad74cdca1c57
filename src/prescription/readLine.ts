import { looseBracket, tooDeep } from './brackets.ts'
import type { Building, Found } from './building.ts'
import { marksIn } from './building.ts'
import { expectedInWords } from './expected.ts'
import { SyntaxError as GrammarError, parse } from './generated/notation.js'
import type { Line } from './line.ts'
import type { Problem } from './problem.ts'
import type { Place, Wrong } from './syntax.ts'

export type LineRule = 'header' | 'prepItem' | 'runItem' | 'liftItem' | 'fuelItem'
/** Nobody writes a longer line by mistake; looking for what was meant in one would take long. */
const longestLoose = 250

/** Reads one line: what it says, and what is wrong with it. What cannot be read as the notation is read once
 * more as people write it; only what that cannot read either is answered with what was expected.
 * @param build makes the value of the syntax, reporting into `building.found`
 * @param print writes the value as it should stand, for the line to write instead
 * @param elsewhere what to say of a line that is no such line but another; null when it is none either */
export function readLine<S, V>(
  line: Line,
  rule: LineRule,
  building: Building,
  build: (syntax: S) => V,
  print: (value: V) => string,
  elsewhere: () => string | null = () => null,
): { value: V | null; problems: Problem[] } {
  const early = openQuoteOf(line) ?? tooDeep(line)
  const read = early === null ? syntaxOf<S>(line, rule, building, elsewhere) : early
  if ('message' in read)
    return { value: null, problems: [problemOf(line, { severity: 'error', ...read }, null)] }
  building.found = marksIn(read.syntax).map((mark) => ({ severity: 'error', ...mark }))
  const value = build(read.syntax)
  const found = building.found.sort((a, b) => a.at[0] - b.at[0])
  const errors = found.filter((each) => each.severity === 'error')
  const instead =
    errors.length > 0 && errors.every((each) => each.fixed) ? readableOr(print(value), rule, building) : null
  return {
    value: errors.length > 0 ? null : value,
    problems: found.map((each) => problemOf(line, each, instead)),
  }
}

/** A line to write instead is one that can be read: else none is named. */
function readableOr(text: string, rule: LineRule, { units }: Building): string | null {
  const syntax = strictSyntaxOf(text, rule, units)
  return syntax !== null && marksIn(syntax).length === 0 ? text : null
}

/** The syntax of a line, or the one thing that makes it none. */
function syntaxOf<S>(
  line: Line,
  startRule: LineRule,
  building: Building,
  elsewhere: () => string | null,
): { syntax: S } | Wrong {
  const { units } = building
  const read = parse(line.text, { startRule, units, loose: false, peg$library: true })
  if (read.peg$success) return { syntax: read.peg$result as S }
  const message = elsewhere()
  if (message !== null) return { at: [0, line.text.length], message, fixed: false }
  return looseSyntaxOf<S>(line, startRule, building) ?? unreadable(line, errorOf(read), startRule)
}

function looseSyntaxOf<S>(
  line: Line,
  startRule: LineRule,
  { units }: Building,
): { syntax: S } | Wrong | null {
  if (line.text.length > longestLoose) return null
  const read = parse(line.text, { startRule, units, loose: true, peg$library: true, peg$silentFails: 1 })
  if (!read.peg$success) return null
  const syntax = read.peg$result as S | { message: Wrong }
  if (typeof syntax === 'object' && syntax !== null && 'message' in syntax)
    return { ...syntax.message, fixed: false }
  return { syntax }
}

/** Made when it is to be told: to word it takes longer than to read a line. */
function errorOf({ peg$throw }: { peg$throw: () => never }): GrammarError {
  try {
    return peg$throw()
  } catch (error) {
    if (error instanceof GrammarError) return error
    throw error
  }
}

function unreadable(line: Line, { location, expected }: GrammarError, startRule: LineRule): Wrong {
  const bracket = startRule === 'runItem' ? looseBracket(line.text) : null
  if (bracket !== null) return bracket
  const found = location.start.offset
  const from = found + line.text.slice(found).search(/[^ ]|$/)
  const word = /^(?:[^\s,()+@"]+|.)/u.exec(line.text.slice(from))?.[0] ?? ''
  const words = expectedInWords(expected ?? [])
  const message =
    word === ''
      ? `something is missing here; expected: ${words}`
      : `${word} cannot be read here; expected: ${words}`
  return { at: [from, from + Math.max(1, word.length)], message, fixed: false }
}

function openQuoteOf(line: Line): Wrong | null {
  if (line.openQuote === null) return null
  return {
    at: [line.openQuote, line.openQuote + 1],
    message: 'a text that begins with a quote here has no quote at its end',
    fixed: false,
  }
}

/** A problem at a place of a line; the line to write instead becomes part of the message too. */
export function problemOf(line: Line, found: Found, instead: string | null): Problem {
  const [from, to] = trimmed(line.text, found.at)
  const joint = found.message.endsWith('?') ? ' Write: ' : '; write: '
  const says =
    instead === null || found.severity === 'warning' ? found.message : found.message + joint + instead
  return {
    line: line.number,
    column: [...line.shown.slice(0, from)].length + 1,
    length: Math.max(1, [...line.shown.slice(from, to)].length),
    message: says,
    text: line.shown.trimEnd(),
    instead,
    severity: found.severity,
  }
}

/** Without spaces at its ends. */
function trimmed(text: string, [from, to]: Place): Place {
  const inner = text.slice(from, to)
  const start = from + inner.length - inner.trimStart().length
  return start >= to ? [from, to] : [start, start + inner.trim().length]
}

/** Whether a text can be read by a rule as it stands. */
export function isReadable(text: string, startRule: LineRule, units: Building['units']): boolean {
  return strictSyntaxOf(text, startRule, units) !== null
}

/** The syntax of a text that can be read as it stands; null for another. */
export function strictSyntaxOf(
  text: string,
  startRule: LineRule | 'lineKind',
  units: Building['units'],
): unknown {
  const read = parse(text, { startRule, units, loose: false, peg$library: true, peg$silentFails: 1 })
  return read.peg$success ? read.peg$result : null
}
