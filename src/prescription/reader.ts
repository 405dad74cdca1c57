import { metersOf } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import { liftLineOf } from './buildLift.ts'
import { fuelLineOf, prepLineOf } from './buildPrepFuel.ts'
import { runStepOf } from './buildRun.ts'
import { type Diagnostic, errorAt, mostDiagnostics } from './diagnostic.ts'
import { exerciseKey, namedFor } from './exercise.ts'
import { stepsIn } from './expandRun.ts'
import {
  beginsHeader,
  type Headers,
  isItem,
  machineIn,
  misplacedMessage,
  noHeaders,
  readHeaders,
  ruleOf,
  strayMessage,
  type UnknownHeading,
  unknownHeadingOf,
  workIn,
} from './headers.ts'
import { anyPartKind } from './kinds.ts'
import { type Line, lineOf, type RawLine, unfitOf } from './lines.ts'
import type { Amount, Part, PartKind, Prescription, Recovery } from './model.ts'
import { paceInOtherUnit } from './plausible.ts'
import { type Item, mostCharacters, printAmount, printItem } from './print.ts'
import { diagnosticOf, isReadable, readLine, strictSyntaxOf, trainingMax } from './readLine.ts'
import type { Building, Pace, PartNode, RecoveryNode, WorkNode } from './syntax.ts'
import { answerTogether, beginTogether, continues, type Together } from './together.ts'

export interface ReadingDefaults {
  /** Units for a file without `units:`. */
  units?: Prescription['units']
  /** Known one-repetition maxima besides the file's. */
  maxima?: readonly { name: string; kg: number }[]
}

/** Where the reader is in the file. */
type State =
  /** Above the first part. `strays`: lines that need a heading above them; only the first is reported. */
  | { kind: 'headers'; lines: Line[]; strays: number }
  | { kind: 'part'; part: OpenPart }
  /** Below an unknown heading: lines are skipped until a part begins. */
  | { kind: 'skipping'; lines: number }
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
interface Day {
  state: State
  building: Building
  title: Line | null
  headers: Headers | null
  maximaLines: { line: Line; name: string }[]
  paces: { line: Line; pace: Pace }[]
  parts: OpenPart[]
  problems: Diagnostic[]
  errors: number
  items: number
  steps: number
}

export type Read = { prescription: Prescription | null; problems: Diagnostic[] }

/** Reads a day in the notation line by line, to its end or to the hundred-and-first problem. */
export function readDay(lines: Iterable<RawLine>, defaults: ReadingDefaults): Read {
  const day = newDay(defaults)
  for (const raw of lines) {
    takeRaw(day, raw)
    if (day.state.kind === 'stopped') break
  }
  if (day.state.kind !== 'stopped') finish(day)
  const problems = day.problems.sort((a, b) => a.line - b.line || a.column - b.column)
  return { prescription: day.errors > 0 ? null : prescriptionOf(day), problems }
}

function newDay(defaults: ReadingDefaults): Day {
  const known = defaults.maxima ?? []
  const day: Day = {
    state: { kind: 'headers', lines: [], strays: 0 },
    building: {
      units: defaults.units ?? { distance: 'km', mass: 'kg' },
      goal: null,
      lapMeters: 400,
      writtenMaximumKgOf(name) {
        // The exercises below are not known yet.
        const written = namedFor(day.headers?.maxima ?? [], name, [name])
        return written === undefined ? null : kilogramsOf(written.mass)
      },
      maximumKgOf(name) {
        const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(name)
        return this.writtenMaximumKgOf(name) ?? known.find(isSame)?.kg ?? null
      },
      part: { kind: 'run', name: null },
      found: [],
      paces: [],
    },
    title: null,
    headers: null,
    maximaLines: [],
    paces: [],
    parts: [],
    problems: [],
    errors: 0,
    items: 0,
    steps: 0,
  }
  return day
}

function prescriptionOf(day: Day): Prescription {
  const headers = day.headers ?? noHeaders(day.building.units)
  return { title: day.title?.shown.trim() ?? '', ...headers, parts: day.parts.map(closedPart) }
}

function closedPart(part: OpenPart): Part {
  return { kind: part.kind, name: part.name, items: part.items.map(({ item }) => item) } as Part
}

// ---- problems --------------------------------------------------------------------------------

/** Warnings do not stop the reader: the lines after them belong to the day. */
function add(day: Day, ...problems: Diagnostic[]): void {
  day.problems.push(...problems)
  day.errors += problems.filter(({ severity }) => severity === 'error').length
  if (day.errors > mostDiagnostics) day.state = { kind: 'stopped' }
}

/** A problem of a whole line. */
function diagnosticAt(line: Line, message: string, severity: Diagnostic['severity'] = 'error'): Diagnostic {
  return diagnosticOf(line, { at: [0, line.text.length], message, fixed: false, severity })
}

function stop(day: Day, line: Line, message: string): void {
  add(day, diagnosticAt(line, message))
  day.state = { kind: 'stopped' }
}

// ---- from state to state ---------------------------------------------------------------------

/** Ends the headers or the open part, and reports what can be reported only then. */
function leave(day: Day): void {
  const { state } = day
  if (state.kind === 'part') {
    endTogether(day, state.part)
    add(day, ...problemsOfPart(state.part))
  }
  if (state.kind !== 'headers') return
  const { headers, maxima, problems } = readHeaders(state.lines, day.building)
  day.headers = headers
  day.maximaLines = maxima
  day.building.goal = headers.goal
  if (headers.lap !== null) day.building.lapMeters = metersOf(headers.lap)
  add(day, ...problems)
}

export const mostParts = 100

function enterPart(day: Day, line: Line, kind: PartKind, name: string | null): OpenPart {
  leave(day)
  const part: OpenPart = { kind, name, line, tried: 0, items: [], together: null }
  if (day.state.kind === 'stopped') return part
  if (day.parts.length === mostParts) {
    stop(day, line, `a day has at most ${mostParts} parts`)
    return part
  }
  day.parts.push(part)
  day.building.part = { kind, name }
  day.state = { kind: 'part', part }
  return part
}

function skip(day: Day): void {
  if (day.state.kind === 'skipping') return
  leave(day)
  if (day.state.kind !== 'stopped') day.state = { kind: 'skipping', lines: 0 }
}

function finish(day: Day): void {
  const { state, title } = day
  leave(day)
  if (title === null) {
    const message = `this file holds no day: write a title on the first line, and ${anyPartKind} below it`
    add(day, errorAt(1, 1, message))
  } else if (state.kind === 'headers' && state.strays === 0 && title.text !== '')
    add(
      day,
      diagnosticAt(
        title,
        `this day has no parts: write ${anyPartKind} on a line below, and items below that`,
      ),
    )
  checkTrainingMax(day)
  checkPaces(day)
  const names = day.parts.flatMap((part) => part.items.flatMap(({ item }) => namesIn(item)))
  for (const { line, name } of day.maximaLines)
    if (names.every((each) => namedFor([{ name }], each, names) === undefined))
      add(day, diagnosticAt(line, `no exercise of this day is called ${name}`, 'warning'))
}

function namesIn(item: Item): string[] {
  return 'exercises' in item ? item.exercises.map(({ name }) => name) : []
}

/** Warns of a pace that would match the day's other paces in the other unit. */
function checkPaces(day: Day): void {
  // A day of intervals has a handful of paces; in a longer list every pace matches some other.
  if (day.paces.length > mostPaces) return
  for (const { line, pace } of day.paces) {
    const others = day.paces.filter((each) => each.pace !== pace).map((each) => each.pace)
    const message = paceInOtherUnit(pace, others, day.building.units.distance)
    if (message !== null)
      add(day, diagnosticOf(line, { at: pace.at, message, fixed: false, severity: 'warning' }))
  }
}

/** A note or a title that says "of TM" makes every percentage of the day a percentage of a reduced maximum. */
function checkTrainingMax(day: Day): void {
  const texts = [
    day.title?.shown ?? '',
    ...(day.headers?.notes ?? []),
    ...day.parts.map(({ name }) => name ?? ''),
  ]
  if (!texts.some((text) => trainingMax.test(text))) return
  for (const { line, item } of day.parts.flatMap(({ items }) => items)) {
    if (
      !('exercises' in item) ||
      !item.exercises.some(({ sets }) => sets.some(({ load }) => load?.kind === 'percent'))
    )
      continue
    const message =
      'a percentage is of the whole maximum, and this day speaks of a training max: multiply each by its share (85% of a training max of 90% is written 76.5%) and leave the words out'
    add(day, diagnosticAt(line, message))
    return
  }
}

// ---- line by line ----------------------------------------------------------------------------

export const mostItems = 1000
const mostSteps = 20_000
const mostHeaders = 1000
const mostPaces = 50

function takeRaw(day: Day, raw: RawLine): void {
  if ('problem' in raw) {
    takeUnreadable(day, raw.problem, raw.number)
    return
  }
  const isBlank = raw.raw.length < mostCharacters && raw.raw.trim() === ''
  if (isBlank) return
  const bad = unfitOf(raw.raw, raw.number)
  const isComment = /^[ \t\u00A0]{0,500}#/.test(raw.raw)
  if (bad !== null && isComment) add(day, bad)
  else if (bad !== null) takeUnreadable(day, bad, raw.number)
  else if (!isComment) takeLine(day, lineOf(raw.raw, raw.number))
}

/** A part with an unreadable line does not count as empty. */
function takeUnreadable(day: Day, problem: Diagnostic, number: number): void {
  if (day.state.kind === 'part') day.state.part.tried++
  day.title ??= lineOf('', number)
  add(day, problem)
}

function takeLine(day: Day, line: Line): void {
  const kind = lineKindOf(line, day)
  if (day.title === null) {
    day.title = line
    if (kind.kind === 'item') return
    add(
      day,
      diagnosticAt(
        line,
        `the first line is the title, and this reads as a ${kind.kind}: write a title above it`,
      ),
    )
  }
  if (kind.kind === 'part') {
    takePart(day, line, kind.part)
    return
  }
  const isHeader = kind.kind === 'header'
  const { state } = day
  switch (state.kind) {
    case 'headers':
      if (!isHeader) takeStray(day, state, line)
      else if (state.lines.push(line) > mostHeaders)
        stop(day, line, `a day has at most ${mostHeaders} headers`)
      return
    case 'part':
    case 'skipping':
      if (isHeader) add(day, diagnosticAt(line, 'a header is written above the first part: move it up there'))
      else if (state.kind === 'part') takeItem(day, state.part, line)
      else takeSkipped(day, state, line)
      return
    case 'stopped':
      return
  }
}

type LineKind = { kind: 'header' } | { kind: 'part'; part: PartNode } | { kind: 'item' }

function lineKindOf({ text }: Line, { building }: Day): LineKind {
  if (beginsHeader.test(text)) return { kind: 'header' }
  const part = strictSyntaxOf(text, 'part', building.units) as PartNode | null
  return part === null ? { kind: 'item' } : { kind: 'part', part }
}

/** A line above the first part that is neither a header nor a part. */
function takeStray(day: Day, state: State & { kind: 'headers' }, line: Line): void {
  const unknown = unknownHeadingOf(line.text, day.building.units, true)
  if (unknown !== null) {
    takeUnknownHeading(day, line, unknown)
    return
  }
  const { message, isNowhere } = strayMessage(line.text, day.building)
  if (state.strays === 0 || !isNowhere) add(day, diagnosticAt(line, message))
  if (isNowhere) state.strays++
  stopAfter(day, line, state.strays)
}

/** Below an unknown heading, look only for the next heading. */
function takeSkipped(day: Day, state: State & { kind: 'skipping' }, line: Line): void {
  const unknown = unknownHeadingOf(line.text, day.building.units, true)
  if (unknown !== null) takeUnknownHeading(day, line, unknown)
  state.lines++
  stopAfter(day, line, state.lines)
}

function stopAfter(day: Day, line: Line, lines: number): void {
  if (lines > mostDiagnostics && day.state.kind !== 'stopped')
    stop(day, line, `more than ${mostDiagnostics} lines above this one need a heading; reading ends here`)
}

function takeUnknownHeading(day: Day, line: Line, unknown: UnknownHeading): void {
  skip(day)
  add(day, unknownHeadingProblem(line, unknown, day.building))
}

/** Collects the lines of exercises done in turn. @returns whether the line was one of them */
function takeTogether(day: Day, part: OpenPart, line: Line): boolean {
  if (part.kind !== 'lift') return false
  if (part.together !== null && continues(part.together, line)) {
    part.together.others.push(line)
    return true
  }
  endTogether(day, part)
  const begun = beginTogether(line)
  if (
    begun === null ||
    (begun.kind === 'below a heading' && isReadable(line.text, 'liftItem', day.building.units))
  )
    return false
  part.together = begun
  return true
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
  const place = `instead of these ${others.length + 1} lines write`
  const example = line === null ? '' : ', as in: bench press 3 x 8 @ 60 kg + row 3 x 10 @ 40 kg, rest 1:30'
  add(day, {
    ...diagnosticAt(
      first,
      suggestion === null ? `${message}${example}` : `${message}; ${place}: ${suggestion}`,
    ),
    suggestion,
  })
}

function takeItem(day: Day, part: OpenPart, line: Line): void {
  if (!takeTogether(day, part, line)) takeAlone(day, part, line)
}

function takeAlone(day: Day, part: OpenPart, line: Line): void {
  if (takeMachine(day, part, line)) return
  const work = part.kind === 'prep' ? workIn(line.text, day.building) : null
  if (work !== null) {
    takeUnknownHeading(day, line, work)
    return
  }
  let unknown: UnknownHeading | null = null
  const elsewhere = () => {
    if (part.items.length > 0 || part.tried > 0)
      unknown = unknownHeadingOf(line.text, day.building.units, true)
    return unknown === null ? null : ''
  }
  day.building.paces = []
  const read = readItem(part.kind, line, day.building, elsewhere)
  if (unknown !== null) {
    takeUnknownHeading(day, line, unknown)
    return
  }
  part.tried++
  add(day, ...read.problems)
  if (read.value === null) return
  const written = lineOf(printItem(read.value), line.number)
  const kind = lineKindOf(written, day)
  // `- run`: without its list mark the item would be read as a part.
  if (kind.kind !== 'item')
    add(day, diagnosticAt(line, `without its mark this line is a ${kind.kind}: give the item another name`))
  if ([...written.shown].length + 2 > mostCharacters)
    add(
      day,
      diagnosticAt(
        line,
        `written out, this line is longer than ${mostCharacters} characters: make two of it`,
      ),
    )
  if (part.kind === 'run') day.paces.push(...day.building.paces.map((pace) => ({ line, pace })))
  part.items.push({ line, item: read.value })
  day.items++
  day.steps += stepsIn(closedPart({ ...part, items: part.items.slice(-1) }), day.building.lapMeters)
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
  const found = machineIn(line.text, day.building.units)
  if (found === null) return false
  const { name, item } = found
  const cross = { kind: 'cross', name } as const
  const suggestion = itemText(line, cross, `${item}, "${name}"`, day.building)
  if (suggestion === null) return false
  part.tried++
  if (part.kind === 'run') add(day, unknownHeadingProblem(line, { ...cross, item }, day.building))
  else {
    const message = `words of your own come last, in quotes; write: ${suggestion}`
    add(day, { ...diagnosticAt(line, message), suggestion })
  }
  return true
}

function takePart(day: Day, line: Line, node: PartNode): void {
  const { name } = node
  if (name?.wrong) add(day, diagnosticOf(line, { ...name.wrong, severity: 'error' }))
  if (name === null || !isItem(node.kind, name.value, day.building.units)) {
    enterPart(day, line, node.kind, name?.value ?? null)
    return
  }
  const item = line.text.slice(...name.at).trim()
  const { state } = day
  if (state.kind === 'part' && state.part.kind === 'prep') {
    state.part.tried++
    const written = `${node.kind} ${item}`
    const message = `a colon begins a part, and this reads as an item of prep; write: ${written}`
    add(day, { ...diagnosticAt(line, message), suggestion: written })
    return
  }
  add(
    day,
    diagnosticAt(line, `an item is written on a line of its own: write ${node.kind}, and below it ${item}`),
  )
  enterPart(day, line, node.kind, null).tried++
}

// ---- items -----------------------------------------------------------------------------------

function readItem(
  kind: PartKind,
  line: Line,
  building: Building,
  elsewhere: () => string | null,
): { value: Item | null; problems: Diagnostic[] } {
  const rule = ruleOf[kind]
  const build = (node: never) => ({
    line: line.number,
    text: line.written,
    ...builders[rule](node, building),
  })
  const other = () => elsewhere() ?? misplacedMessage(line.text, kind, building.units)
  return readLine(line, rule, building, build, printItem, other)
}

const builders = {
  prepItem: prepLineOf,
  runItem: (node: WorkNode | RecoveryNode, building: Building) => ({ step: runStepOf(node, building) }),
  liftItem: liftLineOf,
  fuelItem: fuelLineOf,
}

/** Reports what can be reported only at the end of a part. */
function problemsOfPart(part: OpenPart): Diagnostic[] {
  if (part.tried === 0) {
    const message = `this ${part.kind} part has no items: write one below it, or leave the part out`
    return [diagnosticAt(part.line, message)]
  }
  const ends = [part.items[0], part.items.length > 1 ? part.items.at(-1) : undefined]
  return ends.flatMap((end, index) => {
    if (end === undefined || part.items.length < part.tried) return []
    if (!('step' in end.item) || end.item.step.kind !== 'recovery') return []
    const where = index === 0 ? 'at the start' : 'at the end'
    return [
      diagnosticAt(
        end.line,
        `a recovery is written between two items, not ${where} of a part: ${insteadOf(end.item.step)}`,
      ),
    ]
  })
}

function insteadOf({ move, amount }: Recovery): string {
  if (amount.kind === 'way' || amount.kind === 'same' || move === 'stand' || move === 'rest')
    return 'leave it out'
  const plain: Amount = amount.kind === 'distanceIn' ? { kind: 'distance', length: amount.length } : amount
  return `write ${printAmount(plain)} easy${move === 'walk' ? ', "walk"' : ''}`
}

const itemExamples: Record<PartKind, string> = {
  prep: 'foam roll 3:00',
  run: '5 km easy',
  cross: '20 min easy',
  lift: 'squat 3 x 8',
  fuel: 'before: carbs 75 g',
}

/** Says how to write an unknown heading: the part, and below it the item. */
function unknownHeadingProblem(line: Line, part: UnknownHeading, building: Building): Diagnostic {
  const heading = part.name === null ? part.kind : `${part.kind}: ${part.name}`
  const message = `a part is ${anyPartKind}, on a line of its own: write \`${heading}\``
  if (part.item === null) return { ...diagnosticAt(line, message), suggestion: heading }
  const item = itemText(line, part, part.item, building)
  return item === null
    ? diagnosticAt(line, `${message} and its items below it, such as \`  ${itemExamples[part.kind]}\``)
    : { ...diagnosticAt(line, `${message} and below it \`  ${item}\``), suggestion: `${heading}\n  ${item}` }
}

/** Writes the item in the notation, as read or as suggested; null if neither is possible. */
function itemText(
  line: Line,
  part: Pick<OpenPart, 'kind' | 'name'>,
  item: string,
  building: Building,
): string | null {
  const { kind, name } = part
  const own = lineOf(item, line.number)
  const read = readItem(kind, own, { ...building, part: { kind, name } }, () => null)
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}
