import { stepsIn } from './countSteps.ts'
import { headerNames, strayMessage } from './headings.ts'
import { type Line, lineOf } from './line.ts'
import type { Day } from './openDay.ts'
import { closedPart, type OpenPart, problemAt, readItem } from './openPart.ts'
import { partKinds } from './partKinds.ts'
import { mostCharacters, printItem } from './print.ts'
import { strictSyntaxOf } from './readLine.ts'
import type { RawLine } from './split.ts'
import { type UnknownHeading, unknownHeadingOf, unknownHeadingProblem, workIn } from './strangePart.ts'
import type { LineKind } from './syntax.ts'
import { countAsTried, openUnread, stop, takePart } from './takePart.ts'
import { unfitOf } from './unfit.ts'

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
