import { layOut } from '../prescription/layOut.ts'
import type { Part, Prescription } from '../prescription/model.ts'
import { printedLines, printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { SessionEvent } from '../session/model.ts'
import { recordedEvent } from '../session/press.ts'
import { liftItems, nameOf, runItems } from './importItems.ts'
import type { SetRow, SplitRow } from './importRows.ts'

export type ImportedRow = SetRow | SplitRow

/** One session as a table tells it. */
export interface ImportedDay {
  date: string
  prescription: Prescription
  /** Behind the start. */
  events: SessionEvent[]
  results: number
}

/** The sessions that rows belong to, in the order of their first rows. */
export function sessionsIn(rows: readonly ImportedRow[]): ImportedRow[][] {
  const sessions = new Map<string, ImportedRow[]>()
  for (const row of rows) sessions.set(row.session, [...(sessions.get(row.session) ?? []), row])
  return [...sessions.values()]
}

/** The rows of one session as a day on which all was done as prescribed: what was meant is not in the table. A
 * string says why they are none.
 * @param rows at least one */
export function dayOf(rows: readonly ImportedRow[], units: Prescription['units']): ImportedDay | string {
  const [first] = rows as [ImportedRow]
  const otherDate = rows.find((row) => row.date !== first.date)
  if (otherDate !== undefined)
    return `the session ${first.session} has the dates ${first.date} and ${otherDate.date}, but a session has one`
  const parts = partsOf(rows)
  const what = first.kind === 'set' ? 'Sets' : 'Running'
  const day: Prescription = {
    title: first.title ?? `${what} of ${first.date}`,
    date: first.date,
    units,
    goal: null,
    athlete: null,
    bar: null,
    lap: null,
    maxima: [],
    notes: [],
    parts: parts.map(({ part }) => part),
  }
  const prescription = placed(day)
  const reading = readPrescription(printPrescription(prescription))
  if (!('prescription' in reading)) {
    const [problem] = reading.problems
    return `it cannot be written as a day: ${problem?.message ?? ''} ("${problem?.text.trim() ?? ''}")`
  }
  const ordered = parts.flatMap((each) => each.rows)
  return { date: first.date, prescription, events: eventsOf(prescription, ordered), results: rows.length }
}

function partsOf(rows: readonly ImportedRow[]): { part: Part; rows: ImportedRow[] }[] {
  const byName = new Map<string, ImportedRow[]>()
  for (const row of rows) byName.set(row.part ?? '', [...(byName.get(row.part ?? '') ?? []), row])
  return [...byName].map(([text, own]) => {
    const [, kind, rest] = /^(lift|run|cross)\b\s*:?\s*(.*)$/is.exec(text) ?? []
    const name = nameOf(rest ?? text)
    const sets = own.filter((row): row is SetRow => row.kind === 'set')
    if (sets.length > 0) return { part: { kind: 'lift', name, items: liftItems(sets) }, rows: own }
    const splits = own.filter((row): row is SplitRow => row.kind === 'split')
    const isCross = kind?.toLowerCase() === 'cross'
    return { part: { kind: isCross ? 'cross' : 'run', name, items: runItems(splits) }, rows: own }
  })
}

/** Each item on the line on which it stands when the day is printed. */
function placed(day: Prescription): Prescription {
  const copy = structuredClone(day)
  printedLines(day).forEach(({ part, item }, index) => {
    const found = part === null || item === null ? undefined : copy.parts[part]?.items[item]
    if (found) found.line = index + 1
  })
  return copy
}

const unknown = { at: null, up: null }

/** Each row on the step that was made of it, then the ends of the parts and of the session. */
function eventsOf(prescription: Prescription, rows: readonly ImportedRow[]): SessionEvent[] {
  const left = [...rows]
  const parts = layOut(prescription, () => [])
  const done = parts.flatMap((part, index): SessionEvent[] => {
    const steps = part.items.flatMap((item) => item.steps)
    const recorded = steps.flatMap((step) => {
      const row = left.shift()
      if (row?.kind === 'set') return [recordedEvent(step.id, { kind: 'set', result: row.result }, unknown)]
      if (row?.kind === 'split')
        return [recordedEvent(step.id, { kind: 'piece', result: row.result }, unknown)]
      return []
    })
    return [...recorded, { type: 'partClosed', ...unknown, part: index, effort: null, minutes: null }]
  })
  return [...done, { type: 'sessionFinished', ...unknown }]
}
