import { metersOf } from '../units/length.ts'
import { isItem } from './headings.ts'
import type { Line } from './line.ts'
import type { Day } from './openDay.ts'
import { problemAt, problemsOfPart } from './openPart.ts'
import type { PartKind } from './partKinds.ts'
import { readHeaders } from './readHeaders.ts'
import { problemOf } from './readLine.ts'
import type { PartNode } from './syntax.ts'

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
