import { sum } from 'd3-array'
import { printMass } from '../units/mass.ts'
import { intervalsIn } from './checkRun.ts'
import { namedFor } from './exercise.ts'
import { stepsIn } from './expandRun.ts'
import { beginsHeader, type Headers, headerMessage, noHeaders, readHeaders } from './headers.ts'
import { afterKind, beginsPart, homeOf, isItem, type MeantPart, unknownHeadingOf } from './headings.ts'
import {
  type Diagnostic,
  errorAt,
  type Line,
  lineOf,
  mostDiagnostics,
  otherLine,
  withoutListMark,
} from './lines.ts'
import type { Amount, Exercise, Part, PartKind, Prescription, Recovery } from './model.ts'
import { barFor, exercisesOf, plannedMass, type SourcedMaxima } from './planned.ts'
import { paceInOtherUnit } from './plausible.ts'
import { type Item, mostCharacters, partName, printAmount, printItem } from './print.ts'
import { firstDifference, itemText, readItem } from './readItem.ts'
import { diagnosticOf, isReadable, strictlyRead, trainingMax, trainingMaxMessage } from './readLine.ts'
import { lapMetersOf } from './step.ts'
import { answerTogether, beginTogether, continues, type Together } from './together.ts'
import { anyPartKind } from './words.ts'
import { type Context, marksOf, placeOf, wholeOf } from './written.ts'

export interface ReadingDefaults {
  /** Units for a file without `units:`. */
  units?: Prescription['units']
  /** Known one-repetition maxima besides the file's, asked for only by a load in percent. */
  readonly maxima?: SourcedMaxima
}

export type Read = { prescription: Prescription | null; problems: Diagnostic[] }

/** What is wrong with a day. */
class Problems {
  readonly found: Diagnostic[] = []
  errors = 0
  /** Past a hundred errors, or past a limit, the rest of the file is ignored. */
  isFull = false

  /** Warnings do not end the reading: the lines after them belong to the day. */
  add(...problems: Diagnostic[]): void {
    this.found.push(...problems)
    this.errors += problems.filter(({ severity }) => severity === 'error').length
    this.isFull ||= this.errors > mostDiagnostics
  }

  refuse(line: Line, message: string, suggestion: string | null = null): void {
    this.add(diagnosticOf(line, { at: wholeOf(line.text), message, suggestion }))
  }

  warn(line: Line, message: string): void {
    this.add(diagnosticOf(line, { at: wholeOf(line.text), message, isWarning: true }))
  }
}

/** Reads a day in the notation: finds its headers and parts, then reads them line by line, to the end or to the
 * hundred-and-first problem. */
export function readDay(lines: Iterable<Line | Diagnostic>, defaults: ReadingDefaults): Read {
  const problems = new Problems()
  const { title, strays, ...outline } = outlineOf(lines, problems)
  const { units = { distance: 'km', mass: 'kg' } } = defaults
  const none = contextOf(noHeaders(units), defaults)
  const { headers, lines: written, ...read } = readHeaders(problems.isFull ? [] : outline.headers, none)
  problems.add(...read.problems)
  const day: Day = { problems, context: contextOf(headers, defaults), lines: written, steps: 0 }
  answerStrays(day, strays)
  const parts = outline.parts.flatMap((part) => (problems.isFull ? [] : [readPart(day, part)]))
  const prescription: Prescription = { title: title?.shown.trim() ?? '', ...headers, parts }
  if (title === null) {
    const message = `this file holds no day: write a title on the first line, and ${anyPartKind} below it`
    problems.add(errorAt(1, 1, message))
  } else if (outline.parts.length === 0 && problems.errors === 0)
    problems.refuse(
      title,
      `this day has no parts: write ${anyPartKind} on a line below, and items below that`,
    )
  if (!problems.isFull) {
    checkTrainingMax(day, prescription)
    checkPaces(day, prescription)
    checkNames(day, prescription)
  }
  const found = problems.found.sort((a, b) => a.line - b.line || a.column - b.column)
  return { prescription: problems.errors > 0 ? null : prescription, problems: found }
}

export type Head = Pick<Prescription, 'title' | 'date'>

/** The title, empty without one, and the date of a day. */
export function headOf(lines: Iterable<Line | Diagnostic>): Head {
  const { title, headers } = outlineOf(lines, new Problems())
  const dates = headers.filter(({ text }) => /^ *date/i.test(text))
  const context = contextOf(noHeaders({ distance: 'km', mass: 'kg' }), {})
  return { title: title?.shown.trim() ?? '', date: readHeaders(dates, context).headers.date }
}

/* What is where in the file. */

interface OutlinedPart {
  kind: PartKind
  name: string | null
  line: Line
  lines: Line[]
  /** A line of it is refused already. */
  isBroken: boolean
}

interface Outline {
  title: Line | null
  headers: Line[]
  /** Above the first part, and not headers. */
  strays: Line[]
  parts: OutlinedPart[]
}

export const mostParts = 100
export const mostItems = 1000
const mostHeaders = 1000

function outlineOf(lines: Iterable<Line | Diagnostic>, problems: Problems): Outline {
  const outline: Outline = { title: null, headers: [], strays: [], parts: [] }
  for (const line of lines) {
    if ('message' in line) {
      const part = outline.parts.at(-1)
      if (part) part.isBroken = true
      outline.title ??= lineOf('', line.line)
      problems.add(line)
    } else if (!otherLine.test(line.shown)) {
      takeLine(outline, withoutListMark(line), problems)
      const passed = passedLimit(outline)
      if (passed !== null) {
        problems.refuse(line, `a day has at most ${passed}`)
        outline.parts.splice(mostParts)
        break
      }
    }
    if (problems.isFull) break
  }
  return outline
}

function passedLimit({ headers, strays, parts }: Outline): string | null {
  if (headers.length > mostHeaders) return `${mostHeaders} headers`
  if (parts.length > mostParts) return `${mostParts} parts`
  return strays.length + sum(parts, ({ lines }) => lines.length) > mostItems ? `${mostItems} items` : null
}

function takeLine(outline: Outline, line: Line, problems: Problems): void {
  const isHeader = beginsHeader.test(line.text)
  const part = partOn(line)
  if (outline.title === null) {
    outline.title = line
    if (!isHeader && part === null) return
    const kind = isHeader ? 'header' : 'part'
    problems.refuse(line, `the first line is the title, and this reads as a ${kind}: write a title above it`)
  }
  const current = outline.parts.at(-1)
  const unknown = part === null && !isHeader ? meantPart(line, current) : null
  if (part !== null) takePart(outline, line, part, problems)
  else if (unknown !== null) {
    const heading = partName(unknown)
    const message = `a part is ${anyPartKind}, on a line of its own: write \`${heading}\``
    problems.refuse(line, message, heading)
    outline.parts.push({ ...unknown, line, lines: [], isBroken: true })
  } else if (!isHeader) (current?.lines ?? outline.strays).push(line)
  else if (current === undefined) outline.headers.push(line)
  else problems.refuse(line, 'a header is written above the first part: move it up there')
}

/** The part that an unknown heading means; null for any other line. In a prep part the same words can be an item. */
function meantPart({ text }: Line, current: OutlinedPart | undefined): MeantPart | null {
  if (current?.kind === 'prep') return null
  const meant = unknownHeadingOf(text)
  // `row` above its sets is a lift, and `track` below `run` no second heading.
  if (current?.kind === 'lift' && meant?.kind === 'cross') return null
  return current?.lines.length === 0 && meant?.kind === current.kind ? null : meant
}

function partOn({ text }: Line): MeantPart | null {
  return beginsPart.test(text) ? strictlyRead(text, 'part') : null
}

function takePart({ title, parts }: Outline, line: Line, part: MeantPart, problems: Problems): void {
  const { kind, name } = part
  problems.add(...marksOf(part).map((mark) => diagnosticOf(line, mark)))
  const item = name !== null && isItem(kind, name) ? line.text.slice(...placeOf(part, 'name')).trim() : null
  const current = parts.at(-1)
  if (item !== null && current?.kind === 'prep') {
    current.isBroken = true
    const written = `${kind} ${item}`
    const message = `a colon begins a part, and this reads as an item of prep; write: ${written}`
    problems.refuse(line, message, written)
    return
  }
  if (item !== null) problems.refuse(line, itemBelow(kind, item))
  parts.push({
    kind,
    name: item === null ? name : null,
    line,
    lines: [],
    isBroken: item !== null || line === title,
  })
}

function itemBelow(kind: PartKind, item: string): string {
  return `an item is written on a line of its own: write ${kind}, and below it ${item}`
}

/* Reads what is where. */

const mostSteps = 20_000

/** A day while its parts are read. */
interface Day {
  problems: Problems
  context: Context
  /** Of every item, maximum and named bar. */
  lines: Map<object, Line>
  steps: number
}

function contextOf(headers: Headers, defaults: ReadingDefaults): Context {
  return {
    units: headers.units,
    goal: headers.goal,
    lapMeters: lapMetersOf(headers),
    knownLoad(load, name) {
      if (load.kind !== 'percent') return load
      // The exercises below are not known yet.
      return plannedMass(load, name, { ...headers, parts: [] }, defaults.maxima ?? []) ?? load
    },
    part: { kind: 'run', name: null },
    found: [],
    report(at, message, { fixed } = { fixed: false }) {
      this.found.push({ at, message, fixed })
    },
    warn(at, message) {
      this.found.push({ at, message, isWarning: true })
    },
    doubt(at, message) {
      this.found.push({ at, message, isWarning: true, isDoubt: true })
    },
  }
}

/** Answers lines above the first part that are not headers. Of those that need a heading above them, the first is
 * reported. */
function answerStrays({ problems }: Day, lines: readonly Line[]): void {
  let isTold = false
  for (const line of lines.slice(0, mostDiagnostics)) {
    const begun = afterKind(line.text)
    const home = homeOf(line.text) ?? unknownHeadingOf(line.text.replace(/:.*/, ''))?.kind ?? null
    const header = home === null ? headerMessage(line.text) : null
    if (header !== null) problems.refuse(line, header)
    else if (begun !== null) problems.refuse(line, itemBelow(begun.kind, begun.rest))
    else if (!isTold) {
      const advice = home === null ? anyPartKind : `write ${home} on the line above`
      problems.refuse(line, `this line needs a heading above it: ${advice}`)
      isTold = true
    }
  }
}

function readPart(day: Day, part: OutlinedPart): Part {
  const { problems } = day
  const { kind, name } = part
  const items: Item[] = []
  let isWhole = !part.isBroken
  const context = { ...day.context, part }
  let index = 0
  while (index < part.lines.length && !problems.isFull) {
    const line = part.lines[index] as Line
    const together = kind === 'lift' ? togetherFrom(part.lines.slice(index)) : null
    index += 1 + (together?.others.length ?? 0)
    if (together !== null) answerGroup(day, together, context)
    const read = together === null ? readItem(kind, line, context) : null
    problems.add(...(read?.problems ?? []))
    isWhole &&= read !== null && read.value !== null
    if (read === null || read.value === null) continue
    const item = read.value
    items.push(item)
    day.lines.set(item, line)
    const unfit = unprintable(item, context)
    if (unfit !== null) problems.refuse(line, unfit)
    day.steps += stepsIn({ kind, name, items: [item] } as Part, context.lapMeters)
    if (day.steps <= mostSteps) continue
    const many = `more than ${mostSteps} efforts and recoveries, the most there can be`
    problems.refuse(line, `with this item the day has ${many}`)
    problems.isFull = true
  }
  if (part.lines.length === 0 && !part.isBroken) {
    const message = `this ${kind} part has no items: write one below it, or remove the part`
    problems.refuse(part.line, name !== null && /\d/.test(name) ? itemBelow(kind, name) : message)
  }
  if (isWhole) checkEnds(day, items)
  return { kind, name, items } as Part
}

/** The lines of exercises done in turn at the beginning of some lines; null for a line alone. */
function togetherFrom([first, ...below]: readonly Line[]): Together | null {
  const begun = first ? beginTogether(first) : null
  if (begun === null || (begun.kind === 'below a heading' && isReadable(begun.first.text, 'liftItem')))
    return null
  for (const line of below) {
    if (!continues(begun, line)) break
    begun.others.push(line)
  }
  return begun.others.length === 0 ? null : begun
}

/** Answers lines of exercises done in turn with the one line to write instead. */
function answerGroup(day: Day, together: Together, context: Context): void {
  const { first, others } = together
  const { message, line } = answerTogether(together)
  const suggestion = line === null ? null : itemText(first, line, context)
  const instead = `instead of these ${others.length + 1} lines write`
  const example = line === null ? '' : ', as in: bench press 3 x 8 @ 60 kg + row 3 x 10 @ 40 kg, rest 1:30'
  const advice = suggestion === null ? example : `; ${instead}: ${suggestion}`
  day.problems.refuse(first, message + advice, suggestion)
}

/** Why an item would not be read again as it is printed; null if it would be the same item. */
function unprintable(item: Item, context: Context): string | null {
  const printed = withoutListMark(lineOf(printItem(item), item.line))
  const isHeader = beginsHeader.test(printed.text)
  // `- run`: without its list mark the item would be read as a part.
  if (isHeader || partOn(printed) !== null)
    return `without its mark this line is a ${isHeader ? 'header' : 'part'}: give the item another name`
  if ([...printed.shown].length + 2 > mostCharacters)
    return `written out, this line is longer than ${mostCharacters} characters: make two of it`
  if (printed.text === item.text) return null
  const { value, problems } = readItem(context.part.kind, printed, context)
  if (value !== null && firstDifference(item, value, ['items', 0]) === null) return null
  const [why] = value === null ? problems : []
  const message = why?.message ?? 'that would be another item, so word it differently'
  return `this would be printed as ${printed.shown.trim()}; ${message}`
}

/* Checks what is read. */

function checkEnds({ problems, lines }: Day, items: readonly Item[]): void {
  for (const end of new Set([items[0], items.at(-1)])) {
    if (end === undefined || !('step' in end) || end.step.kind !== 'recovery') continue
    const where = end === items[0] ? 'at the start' : 'at the end'
    const instead = insteadOf(end.step)
    const advice = instead === null ? 'remove it' : `write ${instead}`
    const message = `a recovery is written between two items, not ${where} of a part: ${advice}`
    problems.refuse(lines.get(end) as Line, message, instead)
  }
}

/** The run to write instead of a recovery; null where there is none. */
function insteadOf({ move, amount }: Recovery): string | null {
  if (amount.kind === 'way' || amount.kind === 'same' || move === 'stand' || move === 'rest') return null
  const plain: Amount = amount.kind === 'distanceIn' ? { kind: 'distance', length: amount.length } : amount
  return `${printAmount(plain)} easy${move === 'walk' ? ', "walk"' : ''}`
}

/** A note or a title that says "of TM" makes every percentage of the day a percentage of a reduced maximum. */
function checkTrainingMax({ problems, lines }: Day, prescription: Prescription): void {
  const { title, notes, parts } = prescription
  const names = parts.map(({ name }) => name ?? '')
  if (![title, ...notes, ...names].some((text) => trainingMax.test(text))) return
  const isPercent = (exercise: Exercise) => exercise.sets.some(({ load }) => load?.kind === 'percent')
  const first = parts
    .flatMap((part) => (part.kind === 'lift' ? part.items : []))
    .find(({ exercises }) => exercises.some(isPercent))
  if (first !== undefined) problems.refuse(lines.get(first) as Line, trainingMaxMessage)
}

/** In a longer list every pace matches some other. */
const mostPaces = 50

/** Warns of a pace that would match the day's other paces in the other unit. */
function checkPaces({ problems, context, lines }: Day, { parts }: Prescription): void {
  const items = parts.flatMap((part) => (part.kind === 'run' ? part.items : []))
  const paces = items.flatMap((item) =>
    intervalsIn(item.step).flatMap(({ target }) => (target?.kind === 'pace' ? [{ item, pace: target }] : [])),
  )
  if (paces.length > mostPaces) return
  const all = paces.map(({ pace }) => pace)
  for (const { item, pace } of paces) {
    const message = paceInOtherUnit(pace, all, context.units.distance)
    if (message !== null) problems.warn(lines.get(item) as Line, message)
  }
}

/** Warns of a maximum, or a bar, that no exercise of the day uses. */
function checkNames({ problems, lines }: Day, prescription: Prescription): void {
  const { maxima, bars = [] } = prescription
  const names = exercisesOf(prescription).map((each) => each.name)
  for (const maximum of maxima)
    if (!names.some((each) => namedFor([maximum], each, names)))
      problems.warn(lines.get(maximum) as Line, `no exercise of this day is called ${maximum.name}`)
  for (const bar of bars)
    if (!names.some((each) => barFor({ bar: null, bars: [bar] }, each))) {
      const forAll = `for the bar of every exercise write bar: ${printMass(bar.mass)}`
      problems.warn(lines.get(bar) as Line, `no exercise of this day begins with ${bar.name}; ${forAll}`)
    }
}
