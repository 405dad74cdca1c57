import { differenceInCalendarDays, format, parseISO, subDays } from 'date-fns'
import { placeKey } from '../session/pain.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import { dayWithin, spanText } from './weeks.ts'

/** A place that hurt, with each day on which it was noted, oldest first. */
export interface PainPlace {
  place: string
  days: { session: string; date: string; levels: (number | null)[]; runMeters: number; exercises: string[] }[]
}

export interface PainProgress extends Span {
  /** The most frequently noted first. */
  places: PainPlace[]
}

/** The noted pains, place by place, with what was done that day. Facts only: no threshold and no forecast.
 * @param sessions newest first */
export function painProgress(
  sessions: readonly Pick<DoneSession, 'id' | 'date' | 'brief'>[],
  span: Span,
): PainProgress {
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

/** A place that hurt lately, and its notes: `4 on Tuesday, 3 on Thursday`. */
export interface RecentPain {
  place: string
  text: string
}

/** Days for which a pain is asked about, and counts for the next session. */
export const recentDays = 14

/** The places that hurt in the 14 days before a day, the most frequently noted first. One whose last level is 0 is
 * over.
 * @param sessions newest first
 * @param today local date
 * @param isOver whether a morning ended a place after the session in which it was last noted
 * Source: this program's own rule. */
export function recentPains(
  sessions: readonly Pick<DoneSession, 'id' | 'date' | 'brief'>[],
  today: string,
  isOver: (place: string, session: string) => boolean = () => false,
): RecentPain[] {
  const from = format(subDays(parseISO(today), recentDays), 'yyyy-MM-dd')
  const { places } = painProgress(sessions, { from, to: today })
  return places
    .filter(({ place, days }) => {
      const last = days.at(-1)
      return last !== undefined && last.levels.at(-1) !== 0 && !isOver(placeKey({ place }), last.session)
    })
    .map(({ place, days }) => ({
      place,
      text: days
        .map(({ date, levels }) => `${levels.at(-1) ?? 'noted'} on ${dayName(date, today)}`)
        .join(', '),
    }))
}

/** The weekday within the last six days, else the date. */
function dayName(date: string, today: string): string {
  const day = parseISO(date)
  return format(day, differenceInCalendarDays(parseISO(today), day) < 7 ? 'EEEE' : 'd MMM')
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
