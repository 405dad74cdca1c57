import { faultsIn, faultWords } from '../validate/faults.ts'
import type { Fault } from '../validate/shape.ts'
import { type Diagnostic, errorAt, mostDiagnostics } from './diagnostic.ts'
import { prescriptionShape } from './generated/shapes.js'
import { headerNames, unknownHeadingOf } from './headers.ts'
import { lineOf, shownOf, textOf } from './lines.ts'
import type { PartKind, Prescription } from './model.ts'
import { itemsOf, printedLines, printItem, printPrescription } from './print.ts'
import { mostItems, mostParts, type Read, type ReadingDefaults, readDay } from './reader.ts'
import { isMeal } from './synonyms.ts'
import { anyPartKind, partKinds } from './syntax.ts'
import { answerTogether, isRounds, type Together } from './together.ts'

export type Reading = { prescription: Prescription; warnings: Diagnostic[] } | { problems: Diagnostic[] }

/** Reads a day: the notation, or JSON if the first non-blank character is `{`. Never throws. A day without headings is
 * answered with the whole file as it would be read. Returns at most 101 problems (the last means that there are more);
 * printProblems prints them. A day that only has warnings can be read.
 * @param input at most 1 MiB of UTF-8 */
export function readPrescription(input: Uint8Array | string, defaults: ReadingDefaults = {}): Reading {
  const read = textOf(input, 'day')
  if ('message' in read) return { problems: [read] }
  const isJson = read.bytes === null && firstCharacter(read.text) === '{'
  const { prescription, problems } = isJson
    ? readJson(read.text, defaults)
    : readDay(read.text, read.bytes, defaults)
  if (prescription !== null) return { prescription, warnings: problems.slice(0, mostDiagnostics) }
  const other = otherFiles.find(([pattern]) => pattern.test(read.text))?.[1]
  if (other !== undefined) return { problems: [errorAt(1, 1, other)] }
  const errors = problems.filter(({ severity }) => severity === 'error').slice(0, mostDiagnostics + 1)
  const whole = isJson || read.bytes !== null ? null : withHeadings(read.text, defaults)
  const [first] = errors
  if (whole === null || first === undefined) return { problems: errors }
  return { problems: [{ ...first, message: `this day has no headings: ${anyPartKind}`, suggestion: whole }] }
}

/** Files that look like no day, by their first line, and what to do with each. Asked only if the day cannot be read: its
 * title may be anything. */
const otherFiles: readonly (readonly [RegExp, string])[] = [
  [/^\s*<(?:!doctype|html|\?xml)/i, 'this is a web page (HTML or XML), not a day: save the text of it'],
  [/^\{\\rtf/, 'this is a formatted document (RTF), not a day: save it as plain text'],
  [
    /^(?:.*[,;\t])?"?date"?[,;\t](?! )/i,
    'this is a table, not a day: "pausebook import" reads tables of sets, splits and mornings',
  ],
]

function firstCharacter(text: string): string {
  return text[text.search(/\S/)] ?? ''
}

/* The same prescription as JSON. JSON that the notation cannot express is refused, so that every day
 * can be printed and read again. */

const deepestJson = 40

/** Reads a day in JSON. Problems name the place by its path. */
function readJson(
  text: string,
  defaults: ReadingDefaults,
): { prescription: Prescription | null; problems: Diagnostic[] } {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    return failed([syntaxProblem(text, error)])
  }
  if (isDeeperThan(value, deepestJson))
    return failed([pathProblem([], 'this is nested deeper than any prescription')])
  const many = tooMany(value)
  if (many !== null) return failed([pathProblem(['parts'], many)])
  const filled = withSources(value)
  const faults = faultsIn(prescriptionShape(), filled, mostDiagnostics + 1)
  if (faults.length > 0) return failed(faults.map(faultProblem))
  return asWritten(filled as Prescription, value, defaults)
}

/** Checked first, since a schema would report every fault in a million items. */
function tooMany(value: unknown): string | null {
  const parts = isRecord(value) && Array.isArray(value.parts) ? value.parts : []
  if (parts.length > mostParts) return `a day has at most ${mostParts} parts`
  const items = parts.reduce<number>(
    (sum, part) => sum + (isRecord(part) && Array.isArray(part.items) ? part.items.length : 0),
    0,
  )
  return items > mostItems ? `a day has at most ${mostItems} items` : null
}

function failed(problems: Diagnostic[]): { prescription: null; problems: Diagnostic[] } {
  return { prescription: null, problems }
}

/** Items may lack `line` and `text`: they are then taken from the printed day. */
function withSources(value: unknown): unknown {
  const parts = isRecord(value) && Array.isArray(value.parts) ? value.parts : null
  if (parts === null) return value
  const filled = parts.map((part: unknown) => {
    if (!isRecord(part) || !Array.isArray(part.items)) return part
    return {
      ...part,
      items: part.items.map((item: unknown) => (isRecord(item) ? { line: 1, text: '', ...item } : item)),
    }
  })
  return { ...(value as object), parts: filled }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** The day, if its print reads as the same day. */
function asWritten(
  prescription: Prescription,
  source: unknown,
  defaults: ReadingDefaults,
): { prescription: Prescription | null; problems: Diagnostic[] } {
  const lines = printedLines(prescription)
  const read = readDay(printPrescription(prescription), null, defaults)
  if (read.prescription === null) {
    const pathOf = (line: number) => {
      const { part = null, item = null } = lines[line - 1] ?? {}
      return part === null ? [] : item === null ? ['parts', part] : ['parts', part, 'items', item]
    }
    return failed(read.problems.map((problem) => pathProblem(pathOf(problem.line), problem.message)))
  }
  const different = firstDifference(prescription, read.prescription, [])
  if (different !== null) return failed([pathProblem(different, 'this cannot be written in the notation')])
  return {
    prescription: withWrittenSources(prescription, read.prescription, source),
    problems: read.problems,
  }
}

/** Keeps given lines and texts; takes missing ones from the printed day. */
function withWrittenSources(
  prescription: Prescription,
  printed: Prescription,
  source: unknown,
): Prescription {
  const given = source as { parts: { items: { line?: number; text?: string }[] }[] }
  const parts = prescription.parts.map((part, index) => {
    const written = printed.parts[index]
    const items = itemsOf(part).map((item, place) => {
      const from = written === undefined ? undefined : itemsOf(written)[place]
      const own = given.parts[index]?.items[place]
      return {
        ...item,
        line: own?.line ?? from?.line ?? item.line,
        text: own?.text ?? from?.text ?? item.text,
      }
    })
    return { ...part, items } as Prescription['parts'][number]
  })
  return { ...prescription, parts }
}

/** The path of the first place where two values differ (apart from the source of items); null if they are equal. */
function firstDifference(a: unknown, b: unknown, path: PropertyKey[]): PropertyKey[] | null {
  if (typeof a !== 'object' || a === null || typeof b !== 'object' || b === null)
    return Object.is(a, b) ? null : path
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  for (const key of keys) {
    if ((key === 'line' || key === 'text') && path.at(-2) === 'items') continue
    const found = firstDifference((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], [
      ...path,
      Array.isArray(a) ? Number(key) : key,
    ])
    if (found !== null) return found
  }
  return null
}

function isDeeperThan(value: unknown, depth: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  if (depth === 0) return true
  return Object.values(value).some((inner) => isDeeperThan(inner, depth - 1))
}

function faultProblem(fault: Fault): Diagnostic {
  const words = faultWords(fault)
  return pathProblem(fault.path, fault.path.length === 0 ? `the day ${words}` : words)
}

function pathProblem(path: readonly PropertyKey[], message: string): Diagnostic {
  const place = path.reduce<string>(
    (said, key) =>
      said + (typeof key === 'number' ? `[${key}]` : `${said === '' ? '' : '.'}${printableKey(key)}`),
    '',
  )
  return errorAt(1, 1, place === '' ? message : `${place}: ${message}`)
}

/** A key from someone else's file, made fit for a message. */
function printableKey(key: PropertyKey): string {
  return shownOf(String(key)).slice(0, 80)
}

/** Where the JSON becomes invalid. */
function syntaxProblem(text: string, error: unknown): Diagnostic {
  const said = error instanceof Error ? error.message : ''
  const end = text.trimEnd().length
  const position = /JSON at position (\d+)/.exec(said)?.[1]
  const found = position ?? (unexpected.test(said) ? unexpectedIn(text) : end)
  const place = Math.min(Number(found), end)
  const before = text.slice(0, place).split('\n')
  const column = [...(before.at(-1) ?? '')].length + 1
  const faultAt = `${text[place]} ${said}`
  const what =
    place === end
      ? `the file ends before it is complete: ${unclosedIn(text)} missing`
      : (jsonFaults.find(([pattern]) => pattern.test(faultAt))?.[1] ?? 'this cannot be read from here on')
  const message = `Invalid JSON: ${what}. The file begins with {, so it is read as JSON`
  const line = text.split('\n', before.length).at(-1) ?? ''
  return errorAt(before.length, column, message, shownOf(line).trimEnd())
}

const unexpected = /Unexpected token/

/** Where the word or sign begins that the parser does not expect. Node does not say where, but a start of the text is
 * refused in these words only if it includes that place. */
function unexpectedIn(text: string): number {
  let [low, high] = [0, text.length]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (unexpected.test(jsonErrorOf(text.slice(0, middle)))) high = middle
    else low = middle
  }
  return text.slice(0, low).search(/[a-z]*$/i)
}

function jsonErrorOf(text: string): string {
  try {
    JSON.parse(text)
    return ''
  } catch (error) {
    return String(error)
  }
}

/** What the errors of the JSON parser mean, by the sign where they are and by their words. */
const jsonFaults: readonly (readonly [RegExp, string])[] = [
  [/^\//, 'JSON has no comments: take this one out'],
  [/Expected ',' or '}'/, 'a comma or } is missing here'],
  [/Expected ',' or ']'/, 'a comma or ] is missing here'],
  [/Expected ':'/, 'a colon is missing here, between a name and its value'],
  [/Expected double-quoted property name/, 'after a comma comes a name in double quotes (")'],
  [/Expected property name/, 'a name in double quotes (") is missing here'],
  [/^[\]},:] .*Unexpected token/, 'a value is missing before this sign, or a comma is too many'],
  [unexpected, 'write a text in double quotes ("), a number, true, false or null here'],
  [/number/, 'write a number as in 12, 0.5 or -3 here'],
  [/after JSON/, 'nothing may follow the last }'],
  [/^[\r\n].*control character/, 'the closing quote of a text is missing on this line'],
  [/control character/, 'a tab in a text is written \\t'],
  [/Unterminated string/, 'the closing quote of a text is missing'],
  [/[Ee]scape/, 'a backslash in a text is written twice'],
]

/** `}]} is`: the brackets, and the quote, that would close a cut-off text. */
function unclosedIn(text: string): string {
  const closers: string[] = []
  for (const [mark] of text.matchAll(/"(?:[^"\\]|\\.)*"?|[[\]{}]/gs)) {
    if (mark === '{') closers.push('}')
    else if (mark === '[') closers.push(']')
    else if (mark === '}' || mark === ']') closers.pop()
    else if (mark.length < 2 || !mark.endsWith('"')) closers.push('"')
  }
  return closers.length > 9 ? `${closers.length} closing brackets are` : `${closers.reverse().join('')} is`
}

/** A longer file is answered line by line. */
const mostLines = 60
const otherLine = /^\s*(?:$|#)/
const header = new RegExp(`^\\s*(?:${headerNames.join('|')})\\s*:`, 'i')
const heading = new RegExp(`^\\s*(?:${partKinds.join('|')})\\s*(?::|$)`, 'i')
/** `3x5`, `140kg`, `400 m`: amounts that titles rarely have. */
const amount = /\d *(?:x *\d|(?:kg|lbs?|km|m|mi|miles?|min|secs?|s)\b)/i
/** In the order in which they are tried: most lines of a file without headings are runs or lifts. */
const tried: readonly PartKind[] = ['run', 'lift', 'fuel', 'prep']

/** A day without headings, with headings put in; null if a line fits no part. */
function withHeadings(text: string, defaults: ReadingDefaults): string | null {
  const lines = text.split(/\r?\n/)
  const units = defaults.units ?? { distance: 'km' as const, mass: 'kg' as const }
  const isHeading = (line: string) => heading.test(line) || unknownHeadingOf(line, units, true) !== null
  if (lines.length > mostLines || lines.some((line) => !header.test(line) && isHeading(line))) return null
  const said = lines.filter((line) => !otherLine.test(line))
  const [first = ''] = said.filter((line) => !header.test(line))
  const isAlone = said.filter((line) => !header.test(line)).length === 1
  // A first line that reads as an item, or has an amount and can be reworded to one, is not the title.
  const isReworded = (line: string) => {
    const item = itemIn(line, ['Day'], null, defaults)
    return item !== null && (amount.test(line) || (isAlone && item.kind !== 'prep'))
  }
  const isItem =
    (['run', 'lift'] as const).some((kind) => readAs(first, kind, ['Day'], defaults).prescription !== null) ||
    isReworded(first)
  const isUntitled = isItem || header.test(said[0] ?? '')
  const [title = '', ...rest] = isUntitled ? ['Day', ...said] : said
  if (title === '') return null
  const headers = rest.filter((line) => header.test(line)).map((line) => line.trim())
  const items = roundsOnOneLine(rest.filter((line) => !header.test(line)))
  if (items === null) return null
  const written: string[] = []
  let goal: string | null = null
  let open: PartKind | null = null
  for (const line of items) {
    const item = itemIn(line, [title, ...headers], open, defaults)
    if (item === null) return null
    if (item.kind !== open) written.push('', item.kind)
    open = item.kind
    written.push(...item.text.split('\n').map((each) => `  ${each.trim()}`))
    goal ??= item.goal
  }
  const head = [title.trim(), ...headers]
  if (goal !== null && !headers.some((line) => /^goal/i.test(line))) head.push(goal)
  const whole = `${[...head, ...written].join('\n')}\n`
  return open !== null && readDay(whole, null, defaults).prescription !== null ? whole : null
}

/** The lines with the stations below `3 rounds:` on its line; null where it is not plain which lines those are: all below
 * it that are indented further or have a list mark, else all that begin with a number and have no unit of a run. */
function roundsOnOneLine(lines: readonly string[]): string[] | null {
  const written: string[] = []
  let rest = lines
  for (let [first] = rest; first !== undefined; [first] = rest) {
    if (!isRounds(first)) {
      written.push(first)
      rest = rest.slice(1)
      continue
    }
    const together = stationsBelow(first, rest.slice(1))
    const line = together === null ? null : answerTogether(together).line
    if (together === null || line === null) return null
    written.push(line)
    rest = rest.slice(1 + together.others.length)
  }
  return written
}

const indentOf = (line: string) => line.search(/\S|$/)

function stationsBelow(first: string, below: readonly string[]): Together | null {
  const isSet = (line: string) => indentOf(line) > indentOf(first) || /^ *[-*•] /.test(line)
  const isStation = isSet(below[0] ?? '') ? isSet : (line: string) => /^ *\d+ +\p{L}/u.test(line)
  const end = below.findIndex((line) => !isStation(line))
  const others = end < 0 ? below : below.slice(0, end)
  const isRun = others.some((line) => !isSet(line) && amount.test(line))
  if (others.length === 0 || isRun) return null
  const lined = (line: string) => lineOf(line, 1)
  return { first: lined(first), others: others.map(lined), kind: 'below a heading' }
}

/** The part that a line belongs to, and how to write it there. A line that reads as it is goes before one that must be
 * reworded, and the part that is already open before any other. */
function itemIn(
  line: string,
  above: readonly string[],
  open: PartKind | null,
  defaults: ReadingDefaults,
): { kind: PartKind; text: string; goal: string | null } | null {
  const kinds = open === null || open === 'prep' ? tried : [open, ...tried.filter((kind) => kind !== open)]
  const reads = kinds.map((kind) => ({ kind, read: readAs(line, kind, above, defaults) }))
  for (const { kind, read } of reads) {
    const item = read.prescription?.parts[0]?.items[0]
    // Any words are an item of prep; only an amount makes it likely.
    const isLikely =
      kind !== 'prep' ||
      (item !== undefined && 'amount' in item && item.amount !== null && !/^\d/.test(item.name))
    if (item !== undefined && isLikely) return { kind, text: printItem(item), goal: null }
  }
  for (const { kind, read } of reads) {
    const problem = read.problems.find(({ suggestion }) => suggestion !== null)
    const isLikely = kind !== 'prep' && (kind !== 'fuel' || isMeal(line))
    if (problem?.suggestion && isLikely) return { kind, text: problem.suggestion, goal: problem.goal ?? null }
  }
  return null
}

/** One line in a part of its own. */
function readAs(line: string, kind: PartKind, above: readonly string[], defaults: ReadingDefaults): Read {
  return readDay([...above, kind, line].join('\n'), null, defaults)
}
