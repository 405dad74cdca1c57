import { isCalendarDate } from '../units/calendarDate.ts'
import { metersOf, printLength } from '../units/length.ts'
import { inSentence } from '../units/lists.ts'
import { wordsFor } from '../units/words.ts'
import { exerciseKey } from './exercise.ts'
import { hastyAnswer, namesFood } from './hasty.ts'
import type { Diagnostic, Line } from './lines.ts'
import type { PartKind, Prescription } from './model.ts'
import { implausibleTime, warnOfMass } from './plausible.ts'
import { printedLines } from './print.ts'
import { isReadable, readLine, strictSyntaxOf } from './readLine.ts'
import { lapMetersOf } from './step.ts'
import {
  type Building,
  bare,
  type HeaderNode,
  isSound,
  type PrepNode,
  type TextNode,
  type UnknownHeading,
} from './syntax.ts'
import { isRounds } from './together.ts'
import { anyPartKind, type LineRule, partKinds, plainEffortWords } from './words.ts'

/* Recognises other spellings of part lines and headers, and lines in the wrong place. */

const otherWords: Record<PartKind, RegExp> = {
  prep: /^(?:warm[- ]?up|mobility|activation|prehab|stretching|preparation)$/,
  run: /^(?:running|track|runs|main(?: set| part)?|intervals|workout|cool[- ]?down)$/,
  cross: /^(?:bike|biking|cycling|ride|swim|swimming|row|rowing|rower|erg|ski)$/,
  lift: /^(?:lifting|lifts|strength|weights|gym|legs|push|pull|upper|lower|core|conditioning|accessories)$/,
  fuel: /^(?:food|nutrition|meals?|eat|eating|fuell?ing)$/,
}

/** How the items of a part are parsed. */
export const ruleOf = {
  prep: 'prepItem',
  run: 'runItem',
  cross: 'runItem',
  lift: 'liftItem',
  fuel: 'fuelItem',
} as const satisfies Record<PartKind, LineRule>

/** The kinds whose items are told apart: those of a cross part read as a run's, and nearly any words as prep. */
const readableKinds = ['run', 'lift', 'fuel'] as const

function kindReading(text: string): PartKind | undefined {
  return readableKinds.find((kind) => isReadable(text, ruleOf[kind]))
}

/** Also decorated: `**Run**`, `run - track`, `Run (track)`. */
const kindAndName = new RegExp(
  `^[ *_=~]*(${partKinds.join('|')})(?: *[*_=~.;-]+)?(?:(?: +| *\\()(\\p{L}.*?))?[ *_=~)]*$`,
  'iu',
)

/** A longer text after the kind of a part is not a name. */
const mostNameWords = 3

/** A part's kind with its name but no colon, `run track`, or with its item, `lift squat 3 x 5`. */
function missingColon(text: string): UnknownHeading | null {
  const [, word = '', rest = ''] = kindAndName.exec(text) ?? []
  if (word === '') return null
  const kind = word.toLowerCase() as PartKind
  if (rest === '') return { kind, name: null, item: null }
  const isName = rest.split(' ').length <= mostNameWords && !isItem(kind, rest)
  return { kind, name: isName ? rest : null, item: isName ? null : rest }
}

/** The headers in the order in which messages name them, with what they are called by mistake. The grammar has a rule
 * for each. */
const knownHeaders: Record<string, { others: RegExp; example: string }> = {
  date: { others: /^(?:day|when)$/i, example: 'date: 2026-11-26' },
  units: { others: /^unit$/i, example: 'units: km kg' },
  goal: { others: /^(?:race|target)$/i, example: 'goal: 10 km in 39:30' },
  athlete: { others: /^(?:weight|body ?weight)$/i, example: 'athlete: 70 kg' },
  bar: { others: /^barbell$/i, example: 'bar: 20 kg' },
  lap: { others: /^laps$/i, example: 'lap: 400 m' },
  max: { others: /^(?:1rm|maxes|best)$/i, example: 'max: squat 140 kg' },
  note: { others: /^(?:notes|comment)$/i, example: 'note: windy' },
}
export const headerNames = Object.keys(knownHeaders)

export const beginsHeader = new RegExp(`^\\s*(?:${headerNames.join('|')})\\s*:`, 'i')

const headerWithoutColon = new RegExp(`^ *(${headerNames.join('|')}) `, 'i')

function otherHeader(word: string): string | undefined {
  return headerNames.find((name) => knownHeaders[name]?.others.test(word))
}

/** The message for a line before the first part that is neither header nor part; `isNowhere`: it needs a heading,
 * which is reported once. */
export function strayMessage(text: string): { message: string; isNowhere: boolean } {
  const [, word = '', rest = ''] = /^ *([\p{L}\p{N} ]{1,40}?) *: *(.*)$/u.exec(text) ?? []
  const said = (message: string) => ({ message, isNowhere: false })
  const nowhere = (message: string) => ({
    message: `this line needs a heading above it: ${message}`,
    isNowhere: true,
  })
  if (/^(?:tm|training[ -]?max)$/i.test(word))
    return said(
      'max: is the whole maximum, not a training max: divide by its share and write max: squat 140 kg',
    )
  const bare = headerWithoutColon.exec(text)?.[1]?.toLowerCase()
  const example = knownHeaders[otherHeader(word) ?? bare ?? '']?.example
  if (example !== undefined) {
    const what = bare === undefined ? `no header is called ${word}` : 'a header has a colon'
    return said(`${what}; write it such as ${example}`)
  }
  const home = homeOf(text)
  if (home !== null) return nowhere(`write ${home.kind} on the line above${home.also}`)
  if (word !== '' && !/\d/.test(rest))
    return said(`no header is called ${word}: there are ${inSentence(headerNames, 'and')}`)
  return nowhere(anyPartKind)
}

/** A meal in another part, as its line is written. */
function mealIn(text: string): string | null {
  if (!namesFood.test(text)) return null
  return (
    hastyAnswer(text, 'fuelItem', (line) => (isReadable(line, 'fuelItem') ? line : null))?.suggestion ?? null
  )
}

/** `3 sets of 8 squats`, but not `6 sets of 400 m`. */
const setsOfExercise = /^ *\d+ *sets?\b(?! *(?:of|x) *[\d.:]+ *(?:k?m|mi|yd|s|sec|min)\b)/i

/** `5x5 squat`: a count, a number without a unit, and a word that does not occur in runs. */
const setsThenName = new RegExp(
  `^ *\\d+ *x *\\d+ +(?!(?:${wordsFor('m', 'km', 'mi', 'yd', 'lap', 's', 'min', 'h')}|${plainEffortWords.join('|')}|hr|at|in|all|warm|cool|race|trial|jog|walk|stand|rest|with|w|x)\\b)\\p{L}{2}`,
  'iu',
)

/** Nearly any words are an item of prep, so only these are taken for one. */
const warmsUp = /^ *(?:warm(?:ing)?[ -]?up|cool(?:ing)?[ -]?down|stretch(?:ing|es)?|mobility)\b/i

/** The kind of part that a line belongs to, and how it is written there if that is not the line itself; null for any
 * other line.
 * @param current the kind of the part that it is in */
function homeOf(text: string, current?: PartKind): { kind: PartKind; also: string } | null {
  const meal = current === 'fuel' ? null : mealIn(text)
  if (meal !== null) return { kind: 'fuel', also: `, and then: ${meal}` }
  if (current !== 'lift' && current !== 'prep' && isRounds(text))
    return { kind: 'lift', also: ', and the exercises on one line: 3 rounds: 10 push-up, 8 row @ 40 kg' }
  const rule = current && ruleOf[current]
  if (rule === 'runItem' && (setsThenName.test(text) || setsOfExercise.test(text)))
    return { kind: 'lift', also: ', and the name of the exercise first' }
  if (current === 'lift' && warmsUp.test(text) && isReadable(text.replace(/,.*/, ''), 'prepItem'))
    return { kind: 'prep', also: '' }
  const kind = readableKinds.find((each) => ruleOf[each] !== rule && isReadable(text, ruleOf[each]))
  return kind === undefined ? null : { kind, also: '' }
}

/** The message for a line that belongs to another kind of part; null for any other line. */
export function misplacedMessage(text: string, kind: PartKind): string | null {
  if (kind === 'lift' && /^ *(?:rest +\d[\d:]* *\p{L}*|\d[\d:]* *\p{L}* +rest) *$/iu.test(text))
    return 'a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'
  const home = homeOf(text, kind)
  return (
    home && `this reads as an item of a ${home.kind} part: write ${home.kind} on a line above it${home.also}`
  )
}

/** Whether the name of a part is really an item that needs its own line. */
export function isItem(kind: PartKind, name: string): boolean {
  if (kind !== 'prep') return isReadable(name, ruleOf[kind])
  const item = strictSyntaxOf(name, 'prepItem') as PrepNode | null
  return item !== null && item.amount !== null && (item.amount.kind !== 'reps' || item.count !== null)
}

/* Lines that start a part with an unknown heading: `Main: 6 x 500 m`, `Strength`. */

/** Up to four words, and the text after their colon. */
const headingLine = /^ *(\p{L}[\p{L}\p{N}-]*(?: [\p{L}\p{N}-]+){0,3}) *(?:: *(.*))?$/u

/** The part meant by an unknown heading; null for any other line. A word that means no part begins one too, with a
 * colon and an item after it. */
export function unknownHeadingOf(text: string): UnknownHeading | null {
  const known = missingColon(text) ?? otherHeadingOf(text)
  if (known !== null) return known
  const [, word = '', after] = headingLine.exec(text) ?? []
  if (after === undefined || otherHeader(word) !== undefined) return null
  // `hill sprints 8x10s:` is work, not a name.
  if (after === '') return /\d *x *\d/i.test(word) ? null : { kind: 'run', name: word, item: null }
  const kind = kindReading(after)
  return kind === undefined || kindReading(text) !== undefined ? null : withItem(word, after, kind)
}

/** The part meant by a heading of another word. */
function otherHeadingOf(text: string): UnknownHeading | null {
  const [, word = '', after = ''] = headingLine.exec(text) ?? []
  const name = word.toLowerCase()
  const kind = partKinds.find((each) => otherWords[each].test(name))
  if (kind === undefined) return null
  const hasItem = /\d/.test(after) || isReadable(after, ruleOf[kind])
  return hasItem ? withItem(word, after, kindOf(after, kind)) : { kind, name: after || name, item: null }
}

/** Finds work under the heading of another part; in a prep part nearly every other line is an item. */
export function workIn(text: string): UnknownHeading | null {
  if (!text.includes(':') || kindAndName.test(text)) return null
  const found = otherHeadingOf(text)
  if (found === null || found.kind === 'prep' || found.item === null) return null
  return onlyAmount.test(found.item) || !isReadable(found.item, ruleOf[found.kind]) ? null : found
}

const machine = /(?<!["\p{L}]|\bin a )(?:bike|cycling|ride|row|rower|rowing|erg|ski|swim)(?!["\p{L}])/iu

/** Takes the machine out of a line of running or of a cross part that has it among the figures: `2000 m row @ 1:50`;
 * null for any other line. */
export function machineIn(text: string): { name: string; item: string } | null {
  // After a comma, words are a note.
  const found = machine.exec(text.replace(/,.*/, ''))
  if (found === null || text.includes('"') || isReadable(text, 'runItem')) return null
  const [name] = found
  const around = [text.slice(0, found.index), text.slice(found.index + name.length)]
  const item = around
    .map((each) => each.replace(/^[ :,]+|[ :,]+$/g, ''))
    .join(' ')
    .trim()
  return { name: name.toLowerCase(), item }
}

/** Splits heading and item; a warm-up of some minutes is one prep item of that name. */
function withItem(word: string, after: string, kind: PartKind): UnknownHeading {
  const name = word.trim().toLowerCase()
  const isOnly = kind === 'prep' && onlyAmount.test(after)
  return isOnly ? { kind, name: null, item: `${name} ${after}` } : { kind, name, item: after }
}

/** The kind of part that an item belongs to, if not the one that the heading means. */
function kindOf(item: string, kind: PartKind): PartKind {
  const isRun = isReadable(item, 'runItem')
  if (kind === 'prep')
    return isRun && (!onlyAmount.test(item) || /\d *(?:km|mi)\b/i.test(item)) ? 'run' : kind
  if (isReadable(item, ruleOf[kind])) return kind
  return isRun ? 'run' : isReadable(item, 'liftItem') ? 'lift' : kind
}

/** `10 min`: an amount that any kind of item may have. */
const onlyAmount = /^[\d:.]+ *\p{L}*$/u

export type Headers = Omit<Prescription, 'title' | 'parts'>

export function noHeaders(units: Headers['units']): Headers {
  return { date: null, units, goal: null, athlete: null, bar: null, lap: null, maxima: [], notes: [] }
}

/** Reads the header lines of a file: units first, since they decide the units of the others' bare numbers. */
export function readHeaders(
  lines: readonly Line[],
  building: Building,
): { headers: Headers; maxima: { line: Line; name: string }[]; problems: Diagnostic[] } {
  const headers = noHeaders(building.units)
  const maxima: { line: Line; name: string }[] = []
  const problems: Diagnostic[] = []
  const first = new Map<string, Line>()
  const isUnits = (line: Line) => /^ *units/i.test(line.text)
  for (const line of [...lines.filter(isUnits), ...lines.filter((each) => !isUnits(each))]) {
    const build = (node: HeaderNode) => {
      checkOnce(node, line, first, building)
      return headerOf(node, headers, building)
    }
    const read = readLine(line, 'header', building, build, (taken) => printHeader(taken, building))
    if (read.value?.units) building.units = read.value.units
    for (const { name } of read.value?.maxima ?? []) maxima.push({ line, name })
    Object.assign(headers, merged(headers, read.value ?? {}))
    problems.push(...read.problems)
  }
  return { headers, maxima, problems }
}

function merged(headers: Headers, taken: Partial<Headers>): Headers {
  return {
    ...headers,
    ...taken,
    ...(headers.bars || taken.bars ? { bars: [...(headers.bars ?? []), ...(taken.bars ?? [])] } : {}),
    maxima: [...headers.maxima, ...(taken.maxima ?? [])],
    notes: [...headers.notes, ...(taken.notes ?? [])],
  }
}

/** One header as it should be written. */
function printHeader(taken: Partial<Headers>, { units }: Building): string {
  const lines = printedLines({ title: '', parts: [], ...noHeaders(units), ...taken })
  const isAsked = (text: string) => text !== '' && (taken.units !== undefined || !text.startsWith('units:'))
  return lines.find((line) => isAsked(line.text))?.text ?? ''
}

/** Checks that a header occurs once, apart from notes. A suggested line, which is built as well, is no second one.
 * @param first the line of each header so far */
function checkOnce(node: HeaderNode, line: Line, first: Map<string, Line>, building: Building): void {
  if (node.header === 'note') return
  const name = node.header === 'max' || node.header === 'bar' ? node.name : null
  const key = name === null ? node.header : `${node.header} ${exerciseKey(name.value)}`
  const said =
    name === null ? node.header : `a ${node.header} ${node.header === 'max' ? 'of' : 'for'} ${name.value}`
  if (!first.has(key)) first.set(key, line)
  if (first.get(key) !== line) building.report(node.at, `${said} is given twice: remove one`)
}

function headerOf(node: HeaderNode, headers: Headers, building: Building): Partial<Headers> {
  switch (node.header) {
    case 'date':
      return { date: dateOf(node.value, building) }
    case 'units':
      return { units: bare(node.value) }
    case 'goal':
      return { goal: goalOf(node, headers, building) }
    case 'athlete':
    case 'bar':
      warnOfMass(node.header, node.value, building)
      if (node.header === 'bar' && node.name !== null)
        return { bars: [{ name: node.name.value, mass: bare(node.value) }] }
      return { [node.header]: bare(node.value) }
    case 'lap':
      return { lap: bare(node.value) }
    case 'max':
      warnOfMass('load', node.value, building)
      return { maxima: [{ name: node.name.value, mass: bare(node.value) }] }
    case 'note':
      return { notes: [node.text] }
  }
}

function dateOf(node: TextNode, building: Building): string {
  const text = node.value
  if (!isSound(node) || isCalendarDate(text)) return text
  const [, year = '', month = '', day = ''] = /^(\d+)-(\d+)-(\d+)$/.exec(text) ?? []
  const padded = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  const isShort = padded !== text && isCalendarDate(padded)
  building.report(
    node.at,
    isShort
      ? `a date has four digits of the year and two each of month and day: write ${padded}`
      : `there is no ${text} in the calendar: a date is written year-month-day, such as 2026-11-26`,
    { fixed: isShort },
  )
  return isShort ? padded : '2000-01-01'
}

function goalOf(
  node: HeaderNode & { header: 'goal' },
  headers: Headers,
  building: Building,
): Headers['goal'] {
  const length = bare(node.length)
  const on = node.on === null ? null : dateOf(node.on, building)
  let { seconds } = node.time
  if (isSound(node.length) && isSound(node.time)) {
    const lap = lapMetersOf(headers)
    const found = implausibleTime(printLength(length), metersOf(length, lap), seconds, 'run')
    if (found !== null) building.report(node.time.at, found.message, { fixed: found.meant !== null })
    seconds = found?.meant ?? seconds
  }
  return { length, seconds, on }
}
