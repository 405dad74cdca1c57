import { formatDate } from 'date-fns/format'
import type { Logbook } from '../logbook/model.ts'
import { type DoneDay, dueOf } from '../progress/rotation.ts'

/** Which kind of day comes next by the rotation of the settings: `due: push (legs on 24 Nov)`; null without one. */
export function dueText(logbook: Logbook, rotation: readonly string[]): string | null {
  if (rotation.length === 0) return null
  const due = dueOf(rotation, doneDays(logbook))
  if (!due) return null
  return due.last === null
    ? `due: ${due.kind}`
    : `due: ${due.kind} (${due.last.kind} on ${dateText(due.last.date)})`
}

function* doneDays(logbook: Logbook): Generator<DoneDay> {
  for (const { date, day } of logbook.digest())
    yield { date, title: day.summary.session.title, parts: day.summary.parts }
}

function dateText(date: string): string {
  return formatDate(new Date(`${date}T12:00:00`), 'd MMM')
}
