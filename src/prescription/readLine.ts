import leven from 'leven'
import { inSentence, joined, wordsAlike } from '../units/lists.ts'
import { wordsFor } from '../units/words.ts'
import { type Expected, parse } from './generated/notation.js'
import { type Hasty, hastyAnswer, isFood } from './hasty.ts'
import { type Diagnostic, errorIn, type Line } from './lines.ts'
import type { Written } from './rewrite.ts'
import { inNotation, placeIn } from './spellings.ts'
import { clauseWords, type LineRule, liftClauses, plainEffortWords, runClauses } from './words.ts'
import { type Context, type Mark, marksIn, type Place, unpacked, wholeOf } from './written.ts'

/** Nobody writes a longer line by mistake, and finding out what it means would take long. */
const longestAnswered = 250

interface LineKind<S, V> {
  rule: LineRule
  /** Makes the value from what the grammar made of the line, and reports what is wrong. */
  build(parsed: S, context: Context): V
  /** Writes the value, for a suggested line. */
  print(value: V): string
  /** The message for a line that belongs elsewhere; null for any other line. */
  elsewhere?(): string | null
  /** The same for a line that must be reworded there. */
  reworded?(): string | null
}

export interface LineRead<V> {
  value: V | null
  problems: Diagnostic[]
}

/** Reads one line: as it is, with synonyms replaced, or with words of one's own as notes. A line that does not read is
 * answered with the line to write, or else with what was expected. */
export function readLine<S, V>(line: Line, kind: LineKind<S, V>, context: Context): LineRead<V> {
  const { rule } = kind
  const written = (text: string) => writtenAnew(text, kind, context)
  const early = trainingMaxOf(line, rule) ?? openQuoteOf(line) ?? tooDeep(line)
  const read = early ?? parsedOf(line, kind, context, written)
  if ('message' in read) return refused(line, read)
  const built = builtOf(read.parsed, kind, context)
  const { value } = built
  const found = [...built.found, ...read.notes]
  for (const each of found) each.at = placeIn(line.text, read.said, each.at)
  found.sort((a, b) => a.at[0] - b.at[0])
  const errors = errorsIn(found)
  if (errors.length === 0) return { value, problems: found.map((each) => diagnosticOf(line, each)) }
  const suggestion = errors.every((each) => each.fixed) ? written(kind.print(value)) : null
  const hasty = suggestion === null ? hastyMark(line.text, read.said, rule, written) : null
  if (hasty?.isSure && hasty.suggestion) return refused(line, hasty)
  return {
    value: null,
    problems: found.map((each) => diagnosticOf(line, each, suggestion, each === errors[0])),
  }
}

export function refused(line: Line, mark: Mark): LineRead<never> {
  return { value: null, problems: [diagnosticOf(line, mark)] }
}

/** The value of a line that the grammar reads, and every problem in it. */
function builtOf<S, V>(
  parsed: unknown,
  { build }: LineKind<S, V>,
  context: Context,
): { value: V; found: Mark[] } {
  const own = { ...context, found: marksIn(parsed) }
  return { value: build(unpacked(parsed), own), found: own.found }
}

function errorsIn(found: readonly Mark[]): Mark[] {
  return found.filter(({ isWarning }) => !isWarning)
}

export const trainingMax = /\b(?:t\.?m\.?|(?:training|reduced|working)[ -]*max(?:imum)?)(?![\p{L}\p{N}])/iu

export const trainingMaxMessage =
  'a percentage is of the whole maximum, not of a training max: multiply each by its share (85% of a training max of 90% is written 76.5%), write the whole maximum after max:, and remove the words'

/** Refuses percentages of a reduced maximum wherever the line names it, because they must not be read as percentages
 * of the full one. */
function trainingMaxOf({ text }: Line, rule: LineRule): Mark | null {
  const named = trainingMax.exec(text)
  const refers = rule === 'header' ? /^ *max\b/i : rule === 'liftItem' ? /\d *(?:%|percent)/i : null
  if (named === null || !refers?.test(text)) return null
  return { at: [named.index, named.index + named[0].length], message: trainingMaxMessage }
}

const nutrients = ['carbs', 'protein', 'fat', 'caffeine']

/** `squat 3 x 5, rset 2:00`: the word that was meant where the line stops being readable, and the line with it, if that
 * reads; null for any other words. */
function respeltMark(
  text: string,
  said: string,
  rule: LineRule,
  spelled: Parsing,
  written: Written,
): Mark | null {
  const from = spelled.end
  const typed = /^\p{L}*/u.exec(said.slice(from))?.[0] ?? ''
  const to = from + typed.length
  const words = rule === 'fuelItem' ? nutrients : [...clauseWords, ...plainEffortWords]
  for (const meant of wordsAlike(typed, words)) {
    const suggestion = written(`${said.slice(0, from)}${meant}${said.slice(to)}`.trim())
    const message = `"${typed}" is not understood here; did you mean ${meant}? Write: ${suggestion}`
    if (suggestion !== null) return { at: placeIn(text, said, [from, to]), message, suggestion }
  }
  return null
}

/** The line with the words after its commas in quotes, and a warning for each, which a food of a meal does not need.
 * `isSure`: none of them is like the word of a clause, which may be meant. */
function withNotes(said: string, rule: LineRule): { quoted: string; notes: Mark[]; isSure: boolean } {
  const notes: Mark[] = []
  let isSure = true
  const quoted = said.replace(/"[^"]*"|(?<=, *)\p{L}[^\d,"()@+:]*(?=,|$)/gu, (found, at: number) => {
    if (found.startsWith('"')) return found
    const words = found.trim()
    const each = words.toLowerCase().split(/[^\p{L}]+/u)
    // A clause, such as jog back, or one that lacks its figure.
    if (each.every((word) => clauseWords.includes(word) || /^(?:arm|leg|back|down|same)$/.test(word)))
      return found
    isSure &&= each.every((word) => word === '' || clauseWords.every((clause) => leven(word, clause) > 2))
    const isMeal = rule === 'fuelItem' && isFood(words)
    if (!isMeal) notes.push({ at: [at, at + words.length], message: `note: ${words}`, isWarning: true })
    return `"${words}"`
  })
  return { quoted, notes, isSure }
}

/** A suggested line as the notation prints it; null if it would be refused: it does not read, or its values are not
 * plausible. */
function writtenAnew<S, V>(text: string, kind: LineKind<S, V>, context: Context): string | null {
  const { parsed } = parseLine(text, kind.rule, context.units)
  if (!isPlain(parsed)) return null
  const { value, found } = builtOf(parsed, kind, context)
  if (found.some(({ isDoubt }) => isDoubt)) return null
  const printed = kind.print(value)
  const errors = errorsIn(found)
  if (errors.length === 0 || printed === text) return errors.length === 0 ? printed : null
  return errors.every(({ fixed }) => fixed) ? writtenAnew(printed, kind, context) : null
}

/** A line that the grammar reads: its text with synonyms replaced, and the notes that it has without quotes. */
interface ReadLine {
  parsed: unknown
  said: string
  notes: Mark[]
}

/** What the grammar makes of a line and the text it was read from, or the first answer to the line. */
function parsedOf<S, V>(
  line: Line,
  { rule, ...kind }: LineKind<S, V>,
  { units }: Context,
  written: Written,
): ReadLine | Mark {
  const { text } = line
  const ofWhole = (message: string | null = null): Mark | null =>
    message === null ? null : { at: wholeOf(text), message }
  const read = parseLine(text, rule, units)
  const asWritten = read.parsed === null ? null : { parsed: read.parsed, said: text, notes: [] }
  // In prep almost every line reads, as a name: its words are replaced first.
  if (asWritten !== null && rule !== 'prepItem' && isPlain(read.parsed)) return asWritten
  if (text.length > longestAnswered)
    return asWritten ?? ofWhole(kind.elsewhere?.()) ?? unreadable(line, read, rule)
  const said = inNotation(text, rule)
  const spelled = said === text ? read : parseLine(said, rule, units)
  if (isPlain(spelled.parsed)) return { parsed: spelled.parsed, said, notes: [] }
  const { quoted, notes, isSure } = withNotes(said, rule)
  const noted = isSure && quoted !== said ? parseLine(quoted, rule, units).parsed : null
  if (isPlain(noted)) return { parsed: noted, said, notes }
  const hasty = hastyMark(text, said, rule, written)
  return (
    (hasty?.isSure ? hasty : asWritten) ??
    ofWhole(kind.elsewhere?.()) ??
    respeltMark(text, said, rule, spelled, written) ??
    hasty ??
    ofWhole(kind.reworded?.()) ??
    unreadable(line, read, rule, inOwnWords(quoted, parseLine(quoted, rule, units), written))
  )
}

/** What the grammar makes of a text: null if the rule does not read it. */
interface Parsing {
  parsed: unknown
  /** The word at which it stops being readable, and what could be there. */
  end: number
  expected: readonly Expected[]
}

function parseLine(text: string, startRule: LineRule | 'part', units?: Context['units']): Parsing {
  const read = parse(text, { startRule, units, peg$library: true })
  if (read.peg$success) return { parsed: read.peg$result, end: text.length, expected: [] }
  const failed = read.peg$maxFailPos
  const end = failed + text.slice(failed).search(/[^ ]|$/)
  return { parsed: null, end, expected: read.peg$maxFailExpected }
}

/** Whether a text was read as it is meant. */
function isPlain(parsed: unknown): boolean {
  return parsed !== null && marksIn(parsed).every(({ isRead }) => isRead)
}

function hastyMark(text: string, said: string, rule: LineRule, written: Written): Hasty | null {
  const hasty = text.length > longestAnswered ? null : hastyAnswer(said, rule, written)
  if (hasty === null) return null
  const { message, suggestion = null, at } = hasty
  const write = suggestion === null ? '' : `; write: ${suggestion.replaceAll('\n  ', ' and below it ')}`
  return { ...hasty, at: placeIn(text, said, at), message: `${message}${write}` }
}

/** A line as it is written in another kind of part, if it can mean only that; null for any other. */
export function writtenSurely<S, V>({ text }: Line, kind: LineKind<S, V>, context: Context): string | null {
  const said = inNotation(text, kind.rule)
  const written = (each: string) => writtenAnew(each, kind, context)
  const hasty = hastyMark(text, said, kind.rule, written)
  return written(said) ?? (hasty?.isSure ? (hasty.suggestion ?? null) : null)
}

/** From where the words of one's own may be at which a line stops being readable: from there, a sign, a comma or the
 * colon of a meal. */
const ownFrom = [
  /$/,
  /(?:@|\+|\b(?:at|in)\b)[^@+,:()"]*$/,
  /(?<=,|^ *(?:before|between|after)\b[^,]*:)[^,:()"]*$/i,
]
const units = wordsFor('m', 'km', 'mi', 'yd', 'lap', 's', 'min', 'h', 'kg', 'lb')
/** Not words of one's own. */
const notOwn = [
  // A unit, sets or a recovery comes first.
  `^(?:${units}|sets?|jog|walk|stand|rest|pause)\\b`,
  // Sets, or an amount without a + before it.
  `^[^+±]*\\d *(?:x *\\d|(?:${units})\\b)`,
  // Words of clauses alone.
  `^[^\\p{L}\\d]*(?:(?:${clauseWords.join('|')}|rpe) *)*$`,
  // Figures without a word.
  `^(?=.*\\d)(?!.*[%±]|\\+ *\\d+ *m$|.*(?<!\\p{L})(?!(?:${units})\\b)\\p{L}{3})`,
  // A time.
  `\\d(?::\\d\\d| *['″])`,
  // A recovery, or what follows one.
  `\\b(?:jog|walk|rest|then|every|tempo)\\b.*(?:\\d|\\bback\\b|\\bdown\\b)`,
].map((source) => new RegExp(source, 'iu'))

/** What cannot be read may be a station of `EMOM 10: row 15, 8 push-up`. */
const hasStations = /^[^"]*(?:\d(?: *min)?|rounds|of|time) *:(?!\d\d)/i

/** The line with the words where it stops being readable in quotes at its end, as few as make the rest read: up to a
 * comma, and of a line that begins with them up to a figure. */
function inOwnWords(said: string, { parsed, end }: Parsing, written: Written): string | null {
  if (parsed !== null || hasStations.test(said)) return written(said)
  const from = said.slice(0, end).search(/[^ ,:()"]*$/)
  const ending = said.slice(0, from).trim() === '' ? /^[^\d,@()"]*/ : /^[^,()"]*/
  const to = from + (ending.exec(said.slice(from))?.[0].length ?? 0)
  for (const beginning of ownFrom) {
    const start = said.slice(0, from).search(beginning)
    const own = said.slice(start, to).trim()
    if (start < 0 || own.length < 3 || notOwn.some((each) => each.test(own))) continue
    const rest = `${said.slice(0, start)}${said.slice(to)}, "${own}"`
    const line = written(rest.replace(/([,:])( *,)+/g, '$1'))
    if (line !== null) return line
  }
  return null
}

function unreadable(
  line: Line,
  { end, expected }: Parsing,
  startRule: LineRule,
  suggestion: string | null = null,
): Mark {
  const { unmatched } = bracketsIn(line.text)
  if (startRule === 'runItem' && unmatched !== undefined) {
    const isOpen = line.text[unmatched] === '('
    return signMark(
      unmatched,
      isOpen
        ? 'this bracket is never closed: write ) after the last step'
        : 'this bracket closes nothing: open one before the first step',
    )
  }
  const word = /^(?:[^\s,()+@"]+|.)/u.exec(line.text.slice(end))?.[0] ?? ''
  const words = expectedInWords(expected)
  const typed = line.shown.slice(end, end + word.length)
  const what = word === '' ? 'the line ends too early' : `"${typed}" cannot be read here`
  const example = wholeLines[startRule]
  const message = joined('; ', [
    what,
    words !== '' && `expected: ${words}`,
    suggestion === null
      ? words !== intervals && example !== undefined && `a whole line: ${example}`
      : `or, if those are words of your own, write: ${suggestion}`,
  ])
  return { at: [end, end + Math.max(1, word.length)], message, suggestion }
}

const wholeLines: Partial<Record<LineRule, string>> = {
  runItem: '6 x 500 m @ 4:00/km, jog 200 m',
  liftItem: 'squat 3 x 8 @ 60 kg, rest 2:00',
}

function signMark(place: number, message: string): Mark {
  return { at: [place, place + 1], message }
}

function openQuoteOf({ openQuote }: Line): Mark | null {
  return openQuote === null
    ? null
    : signMark(openQuote, 'a text that begins with a quote here has no quote at its end')
}

/** A problem at a place of a line.
 * @param suggestion the line as read, which becomes part of the message too; the mark's own is part of it already
 * @param saysLine whether the message ends with the suggested line */
export function diagnosticOf(
  line: Line,
  found: Mark,
  suggestion: string | null = null,
  saysLine = true,
): Diagnostic {
  const [from, to] = trimmed(line.text, found.at)
  const length = [...line.shown.slice(from, to)].length
  const joint = found.message.endsWith('?') ? ' Write: ' : '; write: '
  const says = suggestion === null || !saysLine ? found.message : found.message + joint + suggestion
  return {
    ...errorIn(line, from, length, says, suggestion ?? found.suggestion),
    text: line.shown.trimEnd(),
    severity: found.isWarning ? 'warning' : 'error',
  }
}

/** Without spaces at its ends. */
function trimmed(text: string, [from, to]: Place): Place {
  const inner = text.slice(from, to)
  const start = from + inner.length - inner.trimStart().length
  return start >= to ? [from, to] : [start, start + inner.trim().length]
}

/** Whether a rule reads a text without rewording, whatever the units of the file. */
export function isReadable(text: string, startRule: LineRule): boolean {
  return parseLine(text, startRule).parsed !== null
}

/** What the grammar makes of a text that reads without rewording; null for any other. */
export function strictlyRead<T extends object>(text: string, startRule: LineRule | 'part'): T | null {
  return unpacked(parseLine(text, startRule).parsed)
}

const deepest = 4

/** Checked before the grammar sees the line, because its rules recurse as deep as the brackets. */
function tooDeep({ text }: Line): Mark | null {
  const { deep } = bracketsIn(text)
  return deep === undefined ? null : signMark(deep, `brackets can be ${deepest} deep, no more`)
}

/** The first bracket outside quotes that is too deep, and the first without a partner: of two open ones the inner. */
function bracketsIn(text: string): { deep: number | undefined; unmatched: number | undefined } {
  const open: number[] = []
  let deep: number | undefined
  let unmatched: number | undefined
  for (const { 0: found, index } of text.matchAll(/"[^"]*"?|[()]/g)) {
    if (found === '(' && open.push(index) > deepest) deep ??= index
    if (found === ')' && open.pop() === undefined) unmatched ??= index
  }
  return { deep, unmatched: unmatched ?? open.at(-1) }
}

/* Says in words where a line stops being readable. */

const intervals = 'an interval such as 6 x 500 m or 10 min easy, or a recovery such as jog 400 m'
const signs: Record<string, string> = {
  ',': 'a comma',
  '"': 'a text in quotes',
  '(': 'a bracket (',
  ')': 'a bracket )',
  ':': 'a colon',
  '+': 'a +',
  x: 'an x',
  '/': 'a unit such as /km',
  '-': '',
  ' ': '',
}

/** Words that together mean one thing, in the order in which they are replaced. */
const groups: readonly (readonly [members: readonly string[], name: string])[] = [
  [[...runClauses, 'equal', 'a distance (500 m)'], `a clause (${runClauses.join(', ')})`],
  [liftClauses, `a clause (${liftClauses.join(', ').replace('build', 'build from')})`],
  [['each', 'a unit such as /km'], 'each side'],
  [['@', 'at'], '@'],
  [['a colon', 'sets (3 x 8, or 10/8/6)'], 'sets (3 x 8, or 10/8/6)'],
  [['warm', 'cool', 'all'], 'a word such as easy'],
  [['jog', 'a number', 'a bracket ('], intervals],
]

/** What the grammar expected next, as a list in words; empty where only digits or parts of words would go on. */
function expectedInWords(expected: readonly Expected[]): string {
  const words = new Set(expected.map(wordOf))
  words.delete('')
  for (const [members, name] of groups) {
    if (!members.every((word) => words.has(word))) continue
    for (const word of members) words.delete(word)
    words.add(name)
  }
  if (words.has(intervals)) return intervals
  if (words.size > 1) words.delete('the end of the line')
  return inSentence([...words], 'or')
}

function wordOf(expected: Expected): string {
  if (expected.type === 'other') return expected.description
  if (expected.type !== 'literal') return ''
  return signs[expected.text] ?? expected.text
}
