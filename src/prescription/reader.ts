import { metersOf } from '../units/length.ts'
import { unsafeAt } from '../validate/unsafe.ts'
import { exerciseKey } from './exercise.ts'
import { readHeaders } from './headers.ts'
import { headerNames, isItem, strayMessage } from './headings.ts'
import { type Line, lineOf, linesOf, type RawLine, shownOf } from './lines.ts'
import type { LiftItem, Part, Prescription, RunItem, Work } from './model.ts'
import {
  closedPart,
  type Day,
  newDay,
  type OpenPart,
  prescriptionOf,
  problemAt,
  problemsOfPart,
  type ReadingDefaults,
  readItem,
} from './openDay.ts'
import { anyPartKind, type PartKind, partKinds } from './partKinds.ts'
import { mostCharacters, printItem } from './print.ts'
import { mostProblems, type Problem } from './problem.ts'
import { problemOf, strictSyntaxOf } from './readLine.ts'
import type { LineKind, PartNode } from './syntax.ts'
import { type UnknownHeading, unknownHeadingOf, unknownHeadingProblem, workIn } from './unknownHeading.ts'

/** Reads a day in the notation, line by line, to its end or to the hundred-and-first problem. */
export function readDay(
  text: string,
  bytes: Uint8Array | null,
  defaults: ReadingDefaults,
): { prescription: Prescription | null; problems: Problem[] } {
  const day = newDay(defaults)
  let looked = 0
  let errors = 0
  for (const raw of linesOf(text, bytes)) {
    takeRaw(day, raw)
    // Warnings are no reason to stop: what follows them belongs to the day.
    for (; looked < day.problems.length; looked++) if (day.problems[looked]?.severity === 'error') errors++
    if (day.isOver || errors > mostProblems) break
  }
  if (!day.isOver && errors <= mostProblems) finish(day)
  const problems = day.problems.sort((a, b) => a.line - b.line || a.column - b.column)
  if (problems.some((problem) => problem.severity === 'error')) return { prescription: null, problems }
  return { prescription: prescriptionOf(day), problems }
}

function finish(day: Day): void {
  closeHeaders(day)
  closePart(day)
  const { title } = day
  if (title === null) {
    const message =
      'there is nothing in this file: the first line is the title of the day, and parts follow it'
    day.problems.push({ line: 1, column: 1, length: 1, message, text: '', instead: null, severity: 'error' })
  } else if (day.parts.length === 0 && !day.isStray && !day.isUnread && title.text !== '')
    day.problems.push(
      problemAt(title, `this day has no parts: write ${anyPartKind} on a line below, and items below that`),
    )
  const names = new Set(day.parts.flatMap((part) => part.items.flatMap(({ item }) => namesIn(item))))
  for (const { line, name } of day.maximaLines)
    if (!names.has(exerciseKey(name)))
      day.problems.push(problemAt(line, `no exercise of this day is called ${name}`, 'warning'))
}

function namesIn(item: OpenPart['items'][number]['item']): string[] {
  return 'exercises' in item ? item.exercises.map(({ name }) => exerciseKey(name)) : []
}

export const mostItems = 1000
const mostSteps = 20_000
const mostHeaders = 1000

/** Takes the next line of a file into the day. */
export function takeRaw(day: Day, raw: RawLine): void {
  if ('problem' in raw) {
    day.problems.push(raw.problem)
    if (day.title === null) day.title = lineOf('', raw.number)
    countAsTried(day)
    return
  }
  const isBlank = raw.raw.length < mostCharacters && raw.raw.trim() === ''
  if (isBlank) return
  const bad = unfitOf(raw.raw, raw.number)
  if (bad !== null) day.problems.push(bad)
  if (/^[ \t\u00A0]{0,500}#/.test(raw.raw)) return
  if (bad !== null) {
    if (day.title === null) day.title = lineOf('', raw.number)
    countAsTried(day)
    return
  }
  takeLine(day, lineOf(raw.raw, raw.number))
}

function takeLine(day: Day, line: Line): void {
  const kind = lineKindOf(line, day)
  if (day.title === null) {
    day.title = line
    if (kind.kind === 'item') return
    day.problems.push(
      problemAt(
        line,
        `the first line is the title, and this reads as a ${kind.kind}: write a title above it`,
      ),
    )
  }
  const part = day.parts.at(-1)
  if (kind.kind === 'part') takePart(day, line, kind.part)
  else if (day.isUnread && kind.kind === 'item') takeUnread(day, line)
  else if (part === undefined && !day.isUnread && kind.kind === 'header') takeHeader(day, line)
  else if (part === undefined && kind.kind === 'item') takeStray(day, line)
  else if (part !== undefined && kind.kind === 'item') takeItem(day, part, line)
  else day.problems.push(problemAt(line, 'a header stands before the first part: move it up there'))
}

/** How the line of a part or of a header begins. */
const beginsOtherwise = new RegExp(
  `^ *(?:${[...partKinds, ...headerNames].join('|')})(?![\\p{L}\\p{N}])`,
  'iu',
)

function lineKindOf(line: Line, day: Day): LineKind {
  if (!beginsOtherwise.test(line.text)) return { kind: 'item' }
  return strictSyntaxOf(line.text, 'lineKind', day.building.units) as LineKind
}

function takeHeader(day: Day, line: Line): void {
  day.headerLines.push(line)
  if (day.headerLines.length > mostHeaders) stop(day, line, `a day has at most ${mostHeaders} headers`)
}

/** Before the first part: another word for a part, or a line that stands nowhere. Said once. */
function takeStray(day: Day, line: Line): void {
  const strange = unknownHeadingOf(line.text, day.building, true)
  if (strange !== null) {
    takeStrange(day, line, strange)
    return
  }
  if (day.isStray && !line.text.includes(':') && !beginsOtherwise.test(line.text)) return
  const { message, isNowhere } = strayMessage(line.text, day.building.units)
  if (!isNowhere || !day.isStray) day.problems.push(problemAt(line, message))
  day.isStray ||= isNowhere
}

/** The line of a part that is none: said, each time. */
function takeStrange(day: Day, line: Line, strange: UnknownHeading): void {
  openUnread(day)
  day.problems.push(unknownHeadingProblem(line, strange, day))
}

/** Below such a line only the next one of its kind is looked for. */
function takeUnread(day: Day, line: Line): void {
  const strange = unknownHeadingOf(line.text, day.building, true)
  if (strange !== null) takeStrange(day, line, strange)
}

function takeItem(day: Day, part: OpenPart, line: Line): void {
  const work = part.kind === 'prep' ? workIn(line.text, day.building) : null
  if (work !== null) {
    takeStrange(day, line, work)
    return
  }
  let strange: UnknownHeading | null = null
  const elsewhere = () => {
    if (part.items.length > 0 || part.tried > 0) strange = unknownHeadingOf(line.text, day.building, true)
    return strange === null ? null : ''
  }
  const read = readItem(part, line, day.building, elsewhere)
  if (strange !== null) {
    takeStrange(day, line, strange)
    return
  }
  day.problems.push(...read.problems)
  part.tried++
  if (read.value === null) return
  if ([...printItem(read.value)].length + 2 > mostCharacters)
    day.problems.push(
      problemAt(line, `written out, this line is longer than ${mostCharacters} characters: make two of it`),
    )
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

/* Where one part of a day is over and the next begins. */

export const mostParts = 100

/** Takes the line that begins a part. */
export function takePart(day: Day, line: Line, node: PartNode): void {
  const { name } = node
  if (name?.wrong) day.problems.push(problemOf(line, { ...name.wrong, severity: 'error' }, null))
  const current = day.parts.at(-1)
  if (name !== null && isItem(node, day.building.units)) {
    const item = line.text.slice(...name.at).trim()
    if (current?.kind === 'prep') {
      current.tried++
      const written = `${node.kind} ${item}`
      const message = `a colon begins a part, and this reads as an item of prep; write: ${written}`
      day.problems.push({ ...problemAt(line, message), instead: written })
      return
    }
    day.problems.push(
      problemAt(line, `an item stands on a line of its own: write ${node.kind}, and below it ${item}`),
    )
    openPart(day, line, node.kind, null)
    countAsTried(day)
    return
  }
  openPart(day, line, node.kind, name?.name ?? null)
}

/** Begins a part; the one before it is over, and so are the headers. */
export function openPart(day: Day, line: Line, kind: PartKind, name: string | null): void {
  closeHeaders(day)
  closePart(day)
  day.isStray = false
  day.isUnread = false
  if (day.parts.length === mostParts) {
    stop(day, line, `a day has at most ${mostParts} parts`)
    return
  }
  day.parts.push({ kind, name, line, tried: 0, items: [] })
  day.building.part = { kind, name }
}

/** Reads the headers, once no more can come. */
export function closeHeaders(day: Day): void {
  if (day.headers !== null) return
  const { headers, maxima, problems } = readHeaders(day.headerLines, day.building)
  day.headers = headers
  day.maximaLines = maxima
  day.problems.push(...problems)
  day.building.goal = headers.goal
  if (headers.lap !== null) day.building.lapMeters = metersOf(headers.lap)
}

/** Says what can only be said of a part when it is over. */
export function closePart(day: Day): void {
  const part = day.parts.at(-1)
  if (part !== undefined && !day.isUnread) day.problems.push(...problemsOfPart(part))
}

/** Begins what is no part: nothing below it is read until a part begins, and nothing is said of it. */
export function openUnread(day: Day): void {
  closeHeaders(day)
  closePart(day)
  day.isUnread = true
}

/** A part whose line could not be read is not an empty part. */
export function countAsTried(day: Day): void {
  const part = day.parts.at(-1)
  if (part !== undefined) part.tried++
}

/** Nothing below this line is read any more. */
export function stop(day: Day, line: Line, message: string): void {
  day.problems.push(problemAt(line, message))
  day.isOver = true
}

/** What makes a line one that is not read at all. */
export function unfitOf(raw: string, number: number): Problem | null {
  const place = unsafeAt(raw)
  if (place >= 0) {
    const code = (raw.codePointAt(place) ?? 0).toString(16).toUpperCase().padStart(4, '0')
    const message = `the character U+${code} is not allowed in a prescription: take it out`
    const column = [...raw.slice(0, place)].length + 1
    return {
      line: number,
      column,
      length: 1,
      message,
      text: shownOf(raw).trimEnd(),
      instead: null,
      severity: 'error',
    }
  }
  if (raw.length <= mostCharacters) return null
  const count = [...raw].length
  if (count <= mostCharacters) return null
  const message = `this line has ${count} characters: break it up, a line has at most ${mostCharacters}`
  const text = shownOf(raw.slice(0, 2 * mostCharacters))
  return {
    line: number,
    column: mostCharacters + 1,
    length: 1,
    message,
    text,
    instead: null,
    severity: 'error',
  }
}

/** How many efforts and recoveries a part has when it is laid out, counted without laying it out.
 * @param lapMeters metres of a lap */
export function stepsIn(part: Part, lapMeters: number): number {
  switch (part.kind) {
    case 'run':
    case 'cross':
      return part.items.reduce((sum, item) => sum + stepsOfRun(item.step, lapMeters), 0)
    case 'lift':
      return part.items.reduce((sum, item) => sum + setsIn(item), 0)
    default:
      return part.items.length
  }
}

function stepsOfRun(step: RunItem['step'], lapMeters: number): number {
  return step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, step.split)
}

function stepsOfWork(work: Work, lapMeters: number, split: Work['split']): number {
  const own = work.split ?? split
  const times = work.times ?? 1
  const recoveries = work.recovery === null ? 0 : work.times === null ? 1 : times - 1
  const { body } = work
  if (body.kind === 'group')
    return (
      times *
        body.steps.reduce(
          (sum, step) => sum + (step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, own)),
          0,
        ) +
      recoveries
    )
  const efforts = body.amounts.map((amount) =>
    amount.kind === 'time' || own === null
      ? 1
      : Math.max(1, Math.ceil(metersOf(amount.length, lapMeters) / metersOf(own, lapMeters) - 1e-9)),
  )
  const betweenRungs = work.recovery === null ? 0 : body.amounts.length - 1
  return times * (efforts.reduce((sum, each) => sum + each, 0) + betweenRungs) + recoveries
}

function setsIn(item: LiftItem): number {
  return item.exercises.reduce((sum, exercise) => sum + exercise.sets.length, 0)
}
