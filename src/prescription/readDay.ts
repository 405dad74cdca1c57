import { exerciseKey } from './exerciseKey.ts'
import type { Prescription } from './model.ts'
import { type Day, newDay, prescriptionOf, type ReadingDefaults } from './openDay.ts'
import { type OpenPart, problemAt } from './openPart.ts'
import { anyPartKind } from './partKinds.ts'
import { mostProblems, type Problem } from './problem.ts'
import { linesOf } from './split.ts'
import { takeRaw } from './takeLine.ts'
import { closeHeaders, closePart } from './takePart.ts'

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
