import { exerciseKey } from '../prescription/exercise.ts'
import type { DoneSession } from './doneSession.ts'

export interface HistoryFilter {
  /** Local dates, both in it; null for open ends. */
  from: string | null
  to: string | null
  /** Only sessions in which this exercise was lifted, in any spelling. */
  lift: string | null
  /** Only sessions that have these words in their title, their parts, their lines or their notes. */
  text: string | null
}

/** A session as the history shows it. */
export interface HistoryRow {
  id: string
  date: string
  title: string
  finished: boolean
  runMeters: number
  crossMeters: number
  exercises: string[]
  sets: number
  tonnageKg: number
  minutes: number | null
  effortMinutes: number | null
  /** Of each part that has one, 0 to 10, in their order. */
  efforts: { kind: string; name: string | null; effort: number }[]
}

interface Listed extends DoneSession {
  finished: boolean
  readonly day: {
    summary: {
      running: { items: { text: string }[] }
      cross: { items: { text: string }[] }
      notes: string[]
    }
  }
}

/** The sessions that a filter lets through, in their order, one at a time: thirty years of them are not held. */
export function* historyOf(sessions: readonly Listed[], filter: HistoryFilter): Generator<HistoryRow> {
  const key = filter.lift === null ? null : exerciseKey(filter.lift)
  const words = filter.text === null ? null : plainOf(filter.text)
  for (const session of sessions) {
    const { date } = session
    if ((filter.from !== null && date < filter.from) || (filter.to !== null && date > filter.to)) continue
    if (key !== null && !session.hasLifted(key)) continue
    const { brief } = session
    if (words === null || hasWords(session, brief, words)) yield rowOf(session, brief)
  }
}

function rowOf({ id, date, finished }: Listed, brief: DoneSession['brief']): HistoryRow {
  const { title, runMeters, crossMeters, exercises, sets, tonnageKg, minutes, effortMinutes } = brief
  const efforts: HistoryRow['efforts'] = []
  for (const { kind, name, effort } of brief.parts) if (effort !== null) efforts.push({ kind, name, effort })
  return {
    id,
    date,
    title,
    finished,
    runMeters,
    crossMeters,
    exercises,
    sets,
    tonnageKg,
    minutes,
    effortMinutes,
    efforts,
  }
}

/** The lines and notes are read only where the title and the names do not have the words already. */
function hasWords(session: Listed, brief: DoneSession['brief'], words: string): boolean {
  const has = (text: string | null) => text !== null && plainOf(text).includes(words)
  if (has(brief.title) || brief.exercises.some(has) || brief.parts.some(({ name }) => has(name))) return true
  const { running, cross, notes } = session.day.summary
  return notes.some(has) || [...running.items, ...cross.items].some(({ text }) => has(text))
}

/** Case and runs of spaces make no difference. */
function plainOf(text: string): string {
  return text.toLowerCase().replace(/\s+/g, ' ').trim()
}
