import { namesFood } from './hasty.ts'
import { beginsHeader } from './headers.ts'
import { afterKind, beginsPart, unknownHeadingOf } from './headings.ts'
import { type Diagnostic, errorAt, linesOf, mostDiagnostics, otherLine, textOf } from './lines.ts'
import type { PartKind, Prescription } from './model.ts'
import { type Item, printItem } from './print.ts'
import { type Head, headOf, type Read, type ReadingDefaults, readDay } from './reader.ts'
import { readJson } from './readJson.ts'
import { anyPartKind } from './words.ts'

export type Reading = { prescription: Prescription; warnings: Diagnostic[] } | { problems: Diagnostic[] }

/** Reads a day: the notation, or JSON if the first non-blank character is `{`. Never throws. A day without headings is
 * answered with the whole file as it would be read. Returns at most 101 problems (the last means that there are more),
 * for `printDiagnostics`. A day that only has warnings can be read.
 * @param input at most 1 MiB of UTF-8 */
export function readPrescription(input: Uint8Array | string, defaults: ReadingDefaults = {}): Reading {
  const read = textOf(input, 'day')
  if ('message' in read) return { problems: [read] }
  if (formatted.test(read.text))
    return { problems: [errorAt(1, 1, 'this is a formatted document or a web page: save it as plain text')] }
  if (table.test(read.text))
    return {
      problems: [errorAt(1, 1, 'this is a table, not a day: `pausebook import` reads the sessions in it')],
    }
  const isJson = read.isUtf8 && read.text.trimStart().startsWith('{')
  const { prescription, problems } = isJson
    ? readJson(read.text, defaults)
    : readDay(linesOf(read.text, read.isUtf8), defaults)
  if (prescription !== null) return { prescription, warnings: problems.slice(0, mostDiagnostics) }
  const errors = problems.filter(({ severity }) => severity === 'error').slice(0, mostDiagnostics + 1)
  const whole = isJson || !read.isUtf8 ? null : withHeadings(read.text, defaults)
  const [first] = errors
  if (whole === null || first === undefined) return { problems: errors }
  const unread = /^ +#/m.test(whole) ? '; lines that cannot be read have a # in front' : ''
  return {
    problems: [{ ...first, message: `this day has no headings: ${anyPartKind}${unread}`, suggestion: whole }],
  }
}

/** The title of a day, empty without one, and its date, whatever is wrong further down: only the lines above its parts
 * are read. */
export function readHead(input: Uint8Array | string, defaults: ReadingDefaults = {}): Head {
  const read = textOf(input, 'day')
  if ('message' in read || /^\s*[{<]/.test(read.text)) {
    const reading = readPrescription(input, defaults)
    return 'prescription' in reading ? reading.prescription : { title: '', date: null }
  }
  const [above = ''] = read.text.split(new RegExp(beginsPart, 'im'), 1)
  return headOf(linesOf(above, read.isUtf8))
}

/** What a word processor (RTF) or a browser saves. */
const formatted = /^\s*(?:\{\\rtf|<(?:!doctype|html|\?xml)\b)/i

/** A first line of the names of at least three columns, one of which is the date. */
const table = /^(?=[^\n]{0,500}(?:^|[,;\t])"?date"?(?:[,;\t\r\n]|$))(?:[^,;\t\n]{1,80}[,;\t]){2}/i

/** A longer file is answered line by line. */
const mostLines = 60
/** `3x5`, `140kg`, `400 m`: amounts that titles rarely have. */
const amount = /\d *(?:x *\d|(?:kg|lbs?|km|m|mi|miles?|min|secs?|s)\b)/i
/** In the order in which they are tried: most lines of a file without headings are runs or lifts. */
const tried: readonly PartKind[] = ['run', 'lift', 'fuel', 'prep']

/** A day without headings, with headings put in, and `#` before a line that fits no part; null if most do not. */
function withHeadings(text: string, defaults: ReadingDefaults): string | null {
  const lines = text.split(/\r?\n/)
  const isHeading = (line: string) => beginsPart.test(line) || unknownHeadingOf(line) !== null
  const content = lines.filter((line) => !otherLine.test(line))
  const isHeaded = content.some((line, index) =>
    // The title may be a word of other headings: Legs, Track.
    index === 0 ? beginsPart.test(line) : !beginsHeader.test(line) && isHeading(line),
  )
  if (lines.length > mostLines || isHeaded) return null
  const [first = ''] = content.filter((line) => !beginsHeader.test(line))
  // A first line that is an item and has an amount, or is all there is, is not the title.
  const item = itemIn(first, ['Day'], null, false, defaults)
  const isItem = item !== null && (amount.test(first) || (content.length === 1 && item.kind !== 'prep'))
  const isUntitled = isItem || beginsHeader.test(content[0] ?? '')
  const [title = '', ...rest] = isUntitled ? ['Day', ...content] : content
  if (title === '') return null
  const headers = rest.filter((line) => beginsHeader.test(line)).map((line) => line.trim())
  const items = rest.filter((line) => !beginsHeader.test(line))
  const written: string[] = []
  let current: PartKind | null = null
  let unread = 0
  for (const [index, line] of items.entries()) {
    const isBetween = current !== null && index < items.length - 1
    const item = itemIn(line, [title, ...headers], current, isBetween, defaults)
    if (item === null) {
      unread++
      if (2 * unread >= items.length) return null
      written.push(`  # ${line.trim()}`)
      continue
    }
    if (item.kind !== current) written.push('', item.kind)
    current = item.kind
    written.push(...item.text.split('\n').map((each) => `  ${each.trim()}`))
  }
  const whole = `${[title.trim(), ...headers, ...written].join('\n')}\n`
  return readDay(linesOf(whole), defaults).prescription === null ? null : whole
}

/** The part that a line belongs to, and how to write it there. Prefers a part in which the line reads as it is over one
 * in which it must be reworded, and the current part over any other. */
function itemIn(
  line: string,
  above: readonly string[],
  current: PartKind | null,
  isBetween: boolean,
  defaults: ReadingDefaults,
): { kind: PartKind; text: string } | null {
  const begun = afterKind(line)
  if (begun !== null && /\d/.test(begun.rest)) {
    const item = itemIn(begun.rest, above, begun.kind, isBetween, defaults)
    if (item?.kind === begun.kind) return item
  }
  const kinds =
    current === null || current === 'prep' ? tried : [current, ...tried.filter((kind) => kind !== current)]
  // A recovery is read with a run on either side, as it is written between two of them.
  const inRun = current === 'run' && isBetween ? readAs(`1 km\n${line}\n1 km`, 'run', above, defaults) : null
  const between = inRun?.prescription?.parts[0]?.items[1]
  const recovery = between === undefined ? inRun?.problems[0]?.suggestion : printItem(between)
  if (recovery != null && /^(?:jog|walk|stand|rest)\b/.test(recovery)) return { kind: 'run', text: recovery }
  const reads = kinds.map((kind) => ({ kind, read: readAs(line, kind, above, defaults) }))
  for (const { kind, read } of reads) {
    const item = read.prescription?.parts[0]?.items[0]
    if (item !== undefined && (kind !== 'prep' || isLikelyPrep(item))) return { kind, text: printItem(item) }
  }
  for (const { kind, read } of reads) {
    const problem = read.problems.find(({ suggestion }) => suggestion !== null)
    const isMeal = namesFood.test(line) || /^ *(?:before|between|after)\b/i.test(line)
    const isLikely = kind !== 'prep' && (kind !== 'fuel' || isMeal)
    if (problem?.suggestion && isLikely) return { kind, text: problem.suggestion }
  }
  return null
}

/** Any words are an item of prep; only an amount makes it likely, and kilometres are run. */
function isLikelyPrep(item: Item): boolean {
  if (!('amount' in item) || item.amount === null || /\d/.test(item.name)) return false
  return item.amount.kind !== 'distance' || item.amount.length.unit === 'm'
}

/** One line in a part of its own. */
function readAs(line: string, kind: PartKind, above: readonly string[], defaults: ReadingDefaults): Read {
  return readDay(linesOf([...above, kind, line].join('\n')), defaults)
}
