import { namedFor } from './exercise.ts'
import { stepsIn } from './expandRun.ts'
import {
  beginsHeader,
  type Headers,
  isItem,
  machineIn,
  noHeaders,
  readHeaders,
  ruleOf,
  strayMessage,
  unknownHeadingOf,
  workIn,
} from './headers.ts'
import {
  type Diagnostic,
  errorAt,
  type Line,
  lineOf,
  mostDiagnostics,
  otherLine,
  type RawLine,
  withoutListMark,
} from './lines.ts'
import type { Amount, Part, PartKind, Prescription, Recovery } from './model.ts'
import { exercisesOf, maximumFor } from './planned.ts'
import { paceInOtherUnit } from './plausible.ts'
import { type Item, mostCharacters, printAmount, printItem } from './print.ts'
import { itemText, readItem, unknownHeadingAnswer } from './readItem.ts'
import { diagnosticOf, isReadable, strictSyntaxOf, trainingMax } from './readLine.ts'
import { lapMetersOf } from './step.ts'
import type { Building, Pace, PartNode, Place, UnknownHeading } from './syntax.ts'
import { answerTogether, beginTogether, continues, type Together } from './together.ts'
import { anyPartKind } from './words.ts'

export interface ReadingDefaults {
  /** Units for a file without `units:`. */
  units?: Prescription['units']
  /** Known one-repetition maxima besides the file's, asked for only by a load in percent. */
  readonly maxima?: readonly { name: string; kg: number }[]
}

/** Where the reader is in the file. */
type State =
  /** Above the first part. `strays`: lines that need a heading above them; only the first is reported. */
  | { kind: 'headers'; lines: Line[]; strays: number }
  | { kind: 'part'; part: OpenPart }
  /** Below an unknown heading: lines are skipped until a part begins. */
  | { kind: 'skipping'; strays: number }
  /** Past a limit, or past a hundred problems: the rest of the file is ignored. */
  | { kind: 'stopped' }

interface OpenPart {
  kind: PartKind
  name: string | null
  line: Line
  /** Lines meant as items, readable or not. */
  tried: number
  items: { line: Line; item: Item }[]
  /** Exercises done in turn that are being collected from several lines. */
  together: Together | null
}

/** A day while its lines are being read. */
class Day {
  state: State = { kind: 'headers', lines: [], strays: 0 }
  title: Line | null = null
  headers: Headers
  maximaLines: { line: Line; name: string }[] = []
  paces: { line: Line; pace: Pace }[] = []
  parts: OpenPart[] = []
  problems: Diagnostic[] = []
  errors = 0
  items = 0
  steps = 0
  readonly building: Building

  constructor(defaults: ReadingDefaults) {
    const { units = { distance: 'km', mass: 'kg' } } = defaults
    this.headers = noHeaders(units)
    this.building = {
      units,
      goal: null,
      lapMeters: lapMetersOf(this.headers),
      // The exercises below are not known yet.
      maximumKgOf: (name) =>
        maximumFor(name, { ...this.headers, parts: [] }, defaults.maxima ?? [])?.kg ?? null,
      part: { kind: 'run', name: null },
      found: [],
      report(at, message, { fixed } = { fixed: false }) {
        this.found.push({ at, message, fixed })
      },
      warn(at, message) {
        this.found.push({ at, message, isWarning: true })
      },
      paces: [],
    }
  }
}

export type Read = { prescription: Prescription | null; problems: Diagnostic[] }

/** Reads a day in the notation line by line, to its end or to the hundred-and-first problem. */
export function readDay(lines: Iterable<RawLine>, defaults: ReadingDefaults): Read {
  const day = new Day(defaults)
  for (const raw of lines) {
    takeRaw(day, raw)
    if (day.state.kind === 'stopped') break
  }
  finish(day)
  const problems = day.problems.sort((a, b) => a.line - b.line || a.column - b.column)
  return { prescription: day.errors > 0 ? null : prescriptionOf(day), problems }
}

function prescriptionOf({ title, headers, parts }: Day): Prescription {
  return { title: title?.shown.trim() ?? '', ...headers, parts: parts.map(closedPart) }
}

function closedPart({ kind, name, items }: OpenPart): Part {
  return { kind, name, items: items.map(({ item }) => item) } as Part
}

/* Problems. */

/** Warnings do not stop the reader: the lines after them belong to the day. */
function add(day: Day, ...problems: Diagnostic[]): void {
  day.problems.push(...problems)
  day.errors += problems.filter(({ severity }) => severity === 'error').length
  if (day.errors > mostDiagnostics) day.state = { kind: 'stopped' }
}

function refuse(day: Day, line: Line, message: string, suggestion: string | null = null): void {
  add(day, diagnosticOf(line, { at: wholeOf(line), message, suggestion }))
}

function warnOf(day: Day, line: Line, message: string, at = wholeOf(line)): void {
  add(day, diagnosticOf(line, { at, message, isWarning: true }))
}

function wholeOf({ text }: Line): Place {
  return [0, text.length]
}

function stop(day: Day, line: Line, message: string): void {
  refuse(day, line, message)
  day.state = { kind: 'stopped' }
}

/* From state to state. */

/** Ends the headers or the open part, and reports what can be reported only then. */
function leave(day: Day): void {
  const { state } = day
  if (state.kind === 'part') {
    endTogether(day, state.part)
    checkPart(day, state.part)
  }
  if (state.kind !== 'headers') return
  const { headers, maxima, problems } = readHeaders(state.lines, day.building)
  day.headers = headers
  day.maximaLines = maxima
  day.building.goal = headers.goal
  day.building.lapMeters = lapMetersOf(headers)
  add(day, ...problems)
}

export const mostParts = 100

/** @param tried lines that were meant as items of the part, but not taken */
function enterPart(day: Day, line: Line, kind: PartKind, name: string | null, tried = 0): void {
  leave(day)
  if (day.state.kind === 'stopped') return
  if (day.parts.length === mostParts) {
    stop(day, line, `a day has at most ${mostParts} parts`)
    return
  }
  const part: OpenPart = { kind, name, line, tried, items: [], together: null }
  day.parts.push(part)
  day.building.part = { kind, name }
  day.state = { kind: 'part', part }
}

function finish(day: Day): void {
  const { state, title } = day
  if (state.kind === 'stopped') return
  leave(day)
  if (title === null) {
    const message = `this file holds no day: write a title on the first line, and ${anyPartKind} below it`
    add(day, errorAt(1, 1, message))
  } else if (state.kind === 'headers' && state.strays === 0 && title.text !== '')
    refuse(day, title, `this day has no parts: write ${anyPartKind} on a line below, and items below that`)
  checkTrainingMax(day)
  checkPaces(day)
  const names = exercisesOf(prescriptionOf(day)).map((each) => each.name)
  for (const { line, name } of day.maximaLines)
    if (!names.some((each) => namedFor([{ name }], each, names)))
      warnOf(day, line, `no exercise of this day is called ${name}`)
}

/** Warns of a pace that would match the day's other paces in the other unit. */
function checkPaces(day: Day): void {
  // A day of intervals has a handful of paces; in a longer list every pace matches some other.
  if (day.paces.length > mostPaces) return
  for (const { line, pace } of day.paces) {
    const others = day.paces.filter((each) => each.pace !== pace).map((each) => each.pace)
    const message = paceInOtherUnit(pace, others, day.building.units.distance)
    if (message !== null) warnOf(day, line, message, pace.at)
  }
}

/** A note or a title that says "of TM" makes every percentage of the day a percentage of a reduced maximum. */
function checkTrainingMax(day: Day): void {
  const texts = [day.title?.shown ?? '', ...day.headers.notes, ...day.parts.map(({ name }) => name ?? '')]
  if (!texts.some((text) => trainingMax.test(text))) return
  const isPercent = ({ item }: OpenPart['items'][number]) =>
    'exercises' in item &&
    item.exercises.some(({ sets }) => sets.some(({ load }) => load?.kind === 'percent'))
  const first = day.parts.flatMap(({ items }) => items).find(isPercent)
  if (first === undefined) return
  refuse(
    day,
    first.line,
    'a percentage is of the whole maximum, and this day speaks of a training max: multiply each by its share (85% of a training max of 90% is written 76.5%) and remove the words',
  )
}

/* Line by line. */

export const mostItems = 1000
const mostSteps = 20_000
const mostHeaders = 1000
const mostPaces = 50

function takeRaw(day: Day, raw: RawLine): void {
  if ('raw' in raw) {
    if (!otherLine.test(raw.raw)) takeLine(day, withoutListMark(lineOf(raw.raw, raw.number)))
    return
  }
  // A part with an unreadable line does not count as empty.
  if (day.state.kind === 'part') day.state.part.tried++
  day.title ??= lineOf('', raw.number)
  add(day, raw.problem)
}

function takeLine(day: Day, line: Line): void {
  const isHeader = beginsHeader.test(line.text)
  const part = partOn(line)
  if (day.title === null) {
    day.title = line
    if (!isHeader && part === null) return
    const kind = isHeader ? 'header' : 'part'
    refuse(day, line, `the first line is the title, and this reads as a ${kind}: write a title above it`)
  }
  const { state } = day
  if (part !== null) takePart(day, line, part)
  else if (!isHeader) {
    if (state.kind === 'part') takeItem(day, state.part, line)
    else if (state.kind !== 'stopped') takeStray(day, state, line)
  } else if (state.kind !== 'headers')
    refuse(day, line, 'a header is written above the first part: move it up there')
  else if (state.lines.push(line) > mostHeaders) stop(day, line, `a day has at most ${mostHeaders} headers`)
}

function partOn({ text }: Line): PartNode | null {
  return strictSyntaxOf(text, 'part') as PartNode | null
}

/** A line above the first part that is neither a header nor a part, or one below an unknown heading. */
function takeStray(day: Day, state: State & { kind: 'headers' | 'skipping' }, line: Line): void {
  const unknown = unknownHeadingOf(line.text)
  if (unknown !== null) takeUnknownHeading(day, line, unknown)
  if (state.kind === 'headers') {
    if (unknown !== null) return
    const { message, isNowhere } = strayMessage(line.text)
    if (state.strays === 0 || !isNowhere) refuse(day, line, message)
    if (!isNowhere) return
  }
  if (++state.strays > mostDiagnostics && day.state.kind !== 'stopped')
    stop(day, line, `more than ${mostDiagnostics} lines above this one need a heading; reading ends here`)
}

/** Below an unknown heading, only the next heading is looked for. */
function takeUnknownHeading(day: Day, line: Line, unknown: UnknownHeading): void {
  if (day.state.kind !== 'skipping') {
    leave(day)
    if (day.state.kind !== 'stopped') day.state = { kind: 'skipping', strays: 0 }
  }
  const { message, suggestion } = unknownHeadingAnswer(line, unknown, day.building)
  refuse(day, line, message, suggestion)
}

/** Takes a line alone, or collects it with those of exercises done in turn. */
function takeItem(day: Day, part: OpenPart, line: Line): void {
  if (part.together !== null && continues(part.together, line)) {
    part.together.others.push(line)
    return
  }
  endTogether(day, part)
  // The first of the collected lines may have been an unknown heading.
  if (day.state.kind === 'skipping') {
    takeStray(day, day.state, line)
    return
  }
  const begun = part.kind === 'lift' ? beginTogether(line) : null
  const isWhole = begun?.kind === 'below a heading' && isReadable(line.text, 'liftItem')
  if (begun === null || isWhole) takeAlone(day, part, line)
  else part.together = begun
}

/** Answers the collected lines with the one line to write instead. */
function endTogether(day: Day, part: OpenPart): void {
  const { together } = part
  if (together === null) return
  part.together = null
  const { first, others } = together
  if (others.length === 0) {
    takeAlone(day, part, first)
    return
  }
  part.tried += 1 + others.length
  const { message, line } = answerTogether(together)
  const suggestion = line === null ? null : itemText(first, part, line, day.building)
  const instead = `instead of these ${others.length + 1} lines write`
  const example = line === null ? '' : ', as in: bench press 3 x 8 @ 60 kg + row 3 x 10 @ 40 kg, rest 1:30'
  const advice = suggestion === null ? example : `; ${instead}: ${suggestion}`
  refuse(day, first, message + advice, suggestion)
}

function takeAlone(day: Day, part: OpenPart, line: Line): void {
  const { building } = day
  if (takeMachine(day, part, line)) return
  const work = part.kind === 'prep' ? workIn(line.text) : null
  if (work !== null) {
    takeUnknownHeading(day, line, work)
    return
  }
  building.paces = []
  const read = readItem(part, line, building)
  if (read.heading) {
    takeUnknownHeading(day, line, read.heading)
    return
  }
  part.tried++
  add(day, ...read.problems)
  if (read.value === null) return
  const written = lineOf(printItem(read.value), line.number)
  const other = beginsHeader.test(written.text) ? 'header' : partOn(written) === null ? null : 'part'
  // `- run`: without its list mark the item would be read as a part.
  if (other !== null)
    refuse(day, line, `without its mark this line is a ${other}: give the item another name`)
  if ([...written.shown].length + 2 > mostCharacters)
    refuse(day, line, `written out, this line is longer than ${mostCharacters} characters: make two of it`)
  if (part.kind === 'run') day.paces.push(...building.paces.map((pace) => ({ line, pace })))
  part.items.push({ line, item: read.value })
  day.items++
  day.steps += stepsIn(closedPart({ ...part, items: part.items.slice(-1) }), building.lapMeters)
  if (day.items > mostItems) stop(day, line, `a day has at most ${mostItems} items`)
  else if (day.steps > mostSteps)
    stop(
      day,
      line,
      `with this item the day has more than ${mostSteps} efforts and recoveries, the most there can be`,
    )
}

/** Answers a line that has a machine among its figures; running belongs to another part.
 * @returns whether the line was one */
function takeMachine(day: Day, part: OpenPart, line: Line): boolean {
  if (ruleOf[part.kind] !== 'runItem') return false
  const found = machineIn(line.text)
  if (found === null) return false
  const { name, item } = found
  const cross = { kind: 'cross', name } as const
  const suggestion = itemText(line, cross, `${item}, "${name}"`, day.building)
  if (suggestion === null) return false
  part.tried++
  const answer =
    part.kind === 'run'
      ? unknownHeadingAnswer(line, { ...cross, item }, day.building)
      : { message: `words of your own come last, in quotes; write: ${suggestion}`, suggestion }
  refuse(day, line, answer.message, answer.suggestion)
  return true
}

function takePart(day: Day, line: Line, node: PartNode): void {
  const { name } = node
  if (name?.wrong) add(day, diagnosticOf(line, name.wrong))
  if (name === null || !isItem(node.kind, name.value)) {
    enterPart(day, line, node.kind, name?.value ?? null)
    return
  }
  const item = line.text.slice(...name.at).trim()
  const { state } = day
  if (state.kind === 'part' && state.part.kind === 'prep') {
    state.part.tried++
    const written = `${node.kind} ${item}`
    const message = `a colon begins a part, and this reads as an item of prep; write: ${written}`
    refuse(day, line, message, written)
    return
  }
  refuse(day, line, `an item is written on a line of its own: write ${node.kind}, and below it ${item}`)
  enterPart(day, line, node.kind, null, 1)
}

function checkPart(day: Day, { kind, line, tried, items }: OpenPart): void {
  if (tried === 0) refuse(day, line, `this ${kind} part has no items: write one below it, or remove the part`)
  if (items.length < tried) return
  const ends = items.length > 1 ? [items[0], items.at(-1)] : [items[0]]
  for (const [index, end] of ends.entries()) {
    if (end === undefined || !('step' in end.item) || end.item.step.kind !== 'recovery') continue
    const where = index === 0 ? 'at the start' : 'at the end'
    const instead = insteadOf(end.item.step)
    const advice = instead === null ? 'remove it' : `write ${instead}`
    refuse(
      day,
      end.line,
      `a recovery is written between two items, not ${where} of a part: ${advice}`,
      instead,
    )
  }
}

/** The run to write instead of a recovery; null where there is none. */
function insteadOf({ move, amount }: Recovery): string | null {
  if (amount.kind === 'way' || amount.kind === 'same' || move === 'stand' || move === 'rest') return null
  const plain: Amount = amount.kind === 'distanceIn' ? { kind: 'distance', length: amount.length } : amount
  return `${printAmount(plain)} easy${move === 'walk' ? ', "walk"' : ''}`
}
