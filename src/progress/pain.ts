import { placeKey } from '../session/pain.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import { dayWithin, spanText } from './weeks.ts'

/** A place that hurt, on each day that it was noted, oldest first. */
export interface PainPlace {
  place: string
  days: { session: string; date: string; levels: (number | null)[]; runMeters: number; exercises: string[] }[]
}

export interface PainProgress extends Span {
  /** The most frequently noted first. */
  places: PainPlace[]
}

/** What was noted of pain, place by place, with what was done that day. Facts: no threshold and no forecast.
 * @param sessions newest first */
export function painProgress(sessions: readonly DoneSession[], span: Span): PainProgress {
  const places = new Map<string, PainPlace>()
  for (const { id, date, brief } of sessions.toReversed()) {
    if (!isIn(span, date)) continue
    for (const pain of brief.pain) {
      const known = places.get(placeKey(pain)) ?? { place: pain.place, days: [] }
      places.set(placeKey(pain), known)
      const last = known.days.at(-1)
      if (last?.session === id) last.levels.push(pain.level)
      else
        known.days.push({
          session: id,
          date,
          levels: [pain.level],
          runMeters: brief.runMeters,
          exercises: brief.exercises,
        })
    }
  }
  return { ...span, places: [...places.values()].sort((a, b) => b.days.length - a.days.length) }
}

/** @param columns at least 40 */
export function painLines({ places, ...span }: PainProgress, unit: 'km' | 'mi', columns: number): string[] {
  const head = wrapped(`pain: ${spanText(span)}`, 0, columns)
  if (places.length === 0) return [...head, 'no pain is noted in these weeks']
  const lines = places.flatMap(({ place, days }) =>
    wrapped(`${plainOf(place)}: ${days.map((day) => dayPhrase(day, span, unit)).join('; ')}`, 2, columns),
  )
  const note = 'from 0 to 10 where a number was typed; in brackets what was done that day'
  return [...head, '', ...lines, '', ...wrapped(note, 0, columns)]
}

function dayPhrase(
  { date, levels, runMeters, exercises }: PainPlace['days'][number],
  span: Span,
  unit: 'km' | 'mi',
): string {
  const typed = levels.filter((level) => level !== null)
  const done = [...(runMeters > 0 ? [`run ${formatMeters(runMeters, unit)}`] : []), ...exercises.map(plainOf)]
  const level = typed.length === 0 ? '' : ` ${typed.join(', ')}`
  return `${dayWithin(span, date)}${level}${done.length === 0 ? '' : ` (${done.join(', ')})`}`
}
