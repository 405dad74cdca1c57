import { differenceInCalendarDays, format, parseISO, subDays } from 'date-fns'
import { isWarning, needsADoctor, type Pain, painsAndSigns, placeKey } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'
import { doctorPhrase } from '../summary/phrases.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { type DoneSession, dayWithin, isIn, type Span, spanText } from './weeks.ts'

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
      const last = days.at(-1)!
      return last.levels.at(-1) !== 0 && !isOver(placeKey({ place }), last.session)
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

/** `Pain: left calf 4 on Tue 24, 3 on Thu 26; right elbow on Thu 26.`, the worst of each day; null without a pain. */
export function painsText(places: readonly PainPlace[]): string | null {
  if (places.length === 0) return null
  const texts = places.map(({ place, days }) => {
    const dates = [...new Set(days.map(({ date }) => date))]
    const said = dates.map((date) => {
      const typed = days.filter((day) => day.date === date).flatMap(({ levels }) => levels)
      const known = typed.filter((level) => level !== null)
      const worst = known.length === 0 ? '' : `${Math.max(...known)} `
      return `${worst}on ${format(parseISO(date), 'EEE d')}`
    })
    return `${plainOf(place)} ${said.join(', ')}`
  })
  const doctor = doctorPhrase(
    places.map(({ place, days }) => ({ place, level: days.at(-1)?.levels.at(-1) ?? null })),
  )
  return `Pain: ${texts.join('; ')}.${doctor === '' ? '' : ` ${plainOf(doctor)}.`}`
}

/** A pain, and the other session it was noted in; without one, it belongs to the session that is asked about. */
export interface DatedPain extends Pain {
  on?: { date: string; begun: number }
}

/** `left calf: pain 4 on Tue 24 Nov` */
export function painFact(pain: DatedPain): string {
  const { place, level, on } = pain
  const bare = isWarning(place, false) ? `noted: ${place}` : `pain: ${place}`
  const text = level === null ? bare : `${place}: pain ${level}`
  return on === undefined ? text : `${text} on ${format(parseISO(on.date), 'EEE d MMM')}`
}

/** Why a line affected by a pain stays as it is.
 * @param what the lines, if it says it for several of them: `running and leg lifts` */
export function painReason(pain: DatedPain, what = ''): string {
  return `${painFact(pain)} -> ${what === '' ? '' : `${what} `}unchanged${needsADoctor(pain) ? ', see a doctor first' : ''}`
}

/** The pains that count, one for each place: the last one typed, unless a level of 0 ended it.
 * @param before those of the sessions before it; @param after those of the sessions after it; oldest first
 * @param isOver whether it was ended elsewhere, on a morning */
export function painsOf(
  state: SessionState,
  before: readonly DatedPain[] = [],
  after: readonly DatedPain[] = [],
  isOver: (pain: DatedPain) => boolean = () => false,
): DatedPain[] {
  const all: DatedPain[] = [...before, ...painsAndSigns(state), ...after]
  const byPlace = [...new Map(all.map((pain) => [placeKey(pain), pain])).values()]
  return byPlace.filter((pain) => pain.level !== 0 && !isOver(pain))
}

const armWords =
  /shoulder|rotator|\bac joint|collarbone|\bpecs?\b|\bdelts?\b|deltoid|\btraps?\b|\blats?\b|arm\b|arms\b|elbow|wrist|hand|finger|thumb|biceps(?! femoris)|triceps(?! surae)/i

const heldInTheHands =
  /deadlift|\brdl\b|romanian|clean|snatch|front squat|overhead|zercher|sled|carry|carries|farmer|suitcase|swing|dumbbell|kettlebell|goblet|\bdb\b|\bkb\b|\brow|hang|pull-? ?up|chin-? ?up/i

const seatedOrLying = /bench|floor press|chest press|seated|lying|incline|decline|pulldown|pullover|skull/i

/** Whether a pain is a reason not to change a lift. Shoulder, arm and wrist affect every lift of the upper body and
 * every lift held in the hands; any other place, known or not, affects every lift but seated or lying ones of the
 * upper body; a warning sign affects everything. This program's own rule. */
function isCoveredByPain(pain: Pain, exercise: string): boolean {
  if (needsADoctor(pain)) return true
  const isLegs = isLegLift(exercise)
  if (armWords.test(pain.place)) return !isLegs || heldInTheHands.test(exercise)
  return isLegs || !seatedOrLying.test(exercise)
}

/** The pain for which a lift stays as it is: of several, a sign that needs a doctor, else for a lift of the upper body
 * that of shoulder, arm or wrist. This program's own rule. */
export function painCovering(pains: readonly DatedPain[], exercise: string): DatedPain | undefined {
  const covering = pains.filter((each) => isCoveredByPain(each, exercise))
  const ofTheArm = isLegLift(exercise) ? undefined : covering.find(({ place }) => armWords.test(place))
  return covering.find(needsADoctor) ?? ofTheArm ?? covering[0]
}

/** Whether a pain is a reason not to run faster: any but of shoulder, arm or wrist. This program's own rule. */
export function isRunCoveredByPain(pain: Pain): boolean {
  return !armWords.test(pain.place) || needsADoctor(pain)
}

/** How long it is since the last time, after what hurts: a pain is no reason to take up the old load after weeks away.
 * This program's own rule. */
export function sinceText(days: number, pain: DatedPain | undefined, last: 'time' | 'run' = 'time'): string {
  return `${pain ? `${painFact(pain)}, ` : ''}${Math.floor(days / 7)} weeks since the last ${last}`
}
