import { ascending, groups, max, sort } from 'd3-array'
import type { TypedMorning } from '../plan/morning.ts'
import { hasSign, isSign, needsADoctor, type Pain, placeKey, signsIn } from '../session/pain.ts'
import { isLegLift } from '../summary/hard.ts'
import { doctorPhrase } from '../summary/notes.ts'
import { plainOf } from '../summary/plain.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import { formatMeters } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import { pageOf } from './chart.ts'
import { type DoneSession, dayWithin, isIn, type Span, spanText } from './weeks.ts'

type PainSession = Pick<DoneSession, 'id' | 'date' | 'begun' | 'brief'>

/** A pain and when it was noted; `at` in ms, `session` null on a morning. */
export interface PastPain extends Pain {
  date: string
  at: number
  session: PainSession | null
}

/** Days for which a pain is asked about, and counts for the next session. */
const recentDays = 14

/** Whether a pain was noted in the 14 days up to a day. */
export function isRecent({ date }: Pick<PastPain, 'date'>, day: string): boolean {
  return date <= day && date >= dayAfter(day, -recentDays)
}

/** The pains of sessions and of mornings, oldest first. A number typed in the morning is a pain if it is for one
 * side, a joint or a tendon (`neverSoreness`), if the word pain comes with it, if it is a sign that needs a doctor,
 * if the place hurt in the 14 days before, or if it is at least 5 for the back or both shoulders. Otherwise it is
 * soreness, as in `legs 3`.
 * Source: this program's own rule. */
export function allPains(sessions: readonly PainSession[], mornings: readonly TypedMorning[]): PastPain[] {
  const ofSessions = sessions.flatMap((session) =>
    session.brief.pain.map((pain) => ({ ...pain, date: session.date, at: session.begun, session })),
  )
  const places = new Map<string, PlaceHistory>()
  return [...ofSessions, ...ofMornings(mornings)]
    .sort((a, b) => ascending(a.date, b.date) || a.at - b.at)
    .filter((noted) => {
      const key = placeKey(noted)
      const known = places.get(key)
      if (noted.session === null && !isPain(noted, known)) return false
      if (noted.level !== 0) places.set(key, { hurtOn: noted.date, isOver: false })
      else if (known !== undefined) places.set(key, { ...known, isOver: true })
      return true
    })
    .map((noted) => {
      // `left calf pain 3` of a morning is `left calf: pain 3`.
      return noted.session === null && noted.level !== null ? { ...noted, place: placeKey(noted) } : noted
    })
}

/** The last date on which a place hurt, and whether a 0 has ended it since. */
interface PlaceHistory {
  hurtOn: string
  isOver: boolean
}

/** Whether a number typed in the morning is a pain. A 0 is one if it ends a pain, however old. */
function isPain({ place, level, date }: PastPain, known: PlaceHistory | undefined): boolean {
  if (level === 0) return known?.isOver === false
  const isStill = known !== undefined && date <= dayAfter(known.hurtOn, recentDays)
  const isTooMuch = level !== null && level >= leastPain && oftenSore.test(place)
  return isStill || isTooMuch || level === null || neverSoreness.test(place) || needsADoctor({ place, level })
}

/** Training makes muscles sore, on both sides, but not joints and tendons. */
const neverSoreness =
  /\b(?:pains?|left|right|knees?|ankles?|achilles|shins?|heels?|foot|feet|toes?|hips?|groin|shoulder|neck|spine|elbows?|wrists?|hands?|fingers?|thumbs?|tendons?|joints?|plantar)\b/

/** The muscles of the back and of both shoulders get sore too, but rarely this sore. */
const oftenSore = /\b(?:back|shoulders)\b/
const leastPain = 5

/** Collects every number, and every sign in a note that needs a doctor. Typing a number again for the same morning
 * replaces it; a later note leaves the signs of an earlier one. */
function ofMornings(mornings: readonly TypedMorning[]): PastPain[] {
  const pains = new Map<string, PastPain>()
  // In the order of typing, since what was typed last decides.
  const put = (key: string, pain: PastPain) => {
    pains.delete(key)
    pains.set(key, pain)
  }
  for (const { date, at, values } of mornings) {
    const noted = { date, at: Date.parse(at), session: null }
    // Before the numbers of the same line: a 0 among them ends a sign.
    for (const place of signsIn(values.note ?? ''))
      put(`${date} "${place}"`, { place, level: null, ...noted })
    for (const { place, level } of values.soreness ?? []) {
      const key = `${date} ${placeKey({ place })}`
      const before = pains.get(key)?.place ?? place
      // A correction need not say again that it is a pain.
      put(key, { place: neverSoreness.test(before) ? before : place, level, ...noted })
    }
  }
  return [...pains.values()]
}

/** A place that hurt, with each session or morning in which it was noted, oldest first. */
export type PainPlace = ReturnType<typeof painProgress>['places'][number]

/** The noted pains, the most frequently noted place first, with what was done in the session. Facts only: no threshold
 * and no forecast.
 * @param pains oldest first */
export function painProgress(pains: readonly PastPain[], span: Span) {
  const within = pains.filter(({ date }) => isIn(span, date))
  const places = groups(within, placeKey).map(([, ofPlace]) => ({
    place: ofPlace[0]!.place,
    days: groups(ofPlace, ({ session, date }) => session?.id ?? date).map(([, noted]) => {
      const { session, date } = noted[0]!
      return {
        // Null on a morning.
        session: session?.id ?? null,
        date,
        levels: noted.map(({ level }) => level),
        runMeters: session?.brief.runMeters ?? 0,
        exercises: session?.brief.exercises ?? [],
      }
    }),
  }))
  return { ...span, places: places.sort((a, b) => b.days.length - a.days.length) }
}

/** The pains of a week, and the signs from before it that need a doctor and had not ended. They count as long as
 * `isRecent` says.
 * @param pains oldest first */
export function painsOfWeek(pains: readonly PastPain[], week: Span, today: string): PainPlace[] {
  const until = week.to < today ? week.to : today
  const before = pains.filter((pain) => pain.date < week.from && isSign(pain) && isRecent(pain, until))
  const within = pains.filter(({ date }) => isIn(week, date))
  return painProgress([...standingPains(before), ...within], { ...week, from: '' }).places
}

const doctorFirst = ', see a doctor first'

export type RecentPain = ReturnType<typeof recentPains>[number]

/** The places that hurt in the 14 days before a day, with their notes, `4 on Tuesday, 3 on Thursday`: signs that need a
 * doctor, then the most frequently noted. One whose last level is 0 is over.
 * @param pains oldest first
 * @param today local date
 * Source: this program's own rule. */
export function recentPains(pains: readonly PastPain[], today: string) {
  const { places } = painProgress(pains, { from: dayAfter(today, -recentDays), to: today })
  const standing = places.filter(({ days }) => days.at(-1)?.levels.at(-1) !== 0)
  return sort(standing, (place) => Number(!isSign(place))).map(({ place, days }) => {
    const dates = datesText(days, 'noted ', (date) => dayName(date, today))
    return { place, text: isSign({ place }) ? `${dates}${doctorFirst}` : dates }
  })
}

/** `4 on Tuesday, 3 on Thursday`, the worst level of each date.
 * @param without in place of a level that was not typed */
function datesText(days: PainPlace['days'], without: string, nameOf: (date: string) => string): string {
  return groups(days, ({ date }) => date)
    .map(([date, ofDate]) => {
      const worst = max(
        ofDate.flatMap(({ levels }) => levels),
        (level) => level,
      )
      return `${worst === undefined ? without : `${worst} `}${nameOf(date)}`
    })
    .join(', ')
}

/** `today`, `on Tuesday` within the last six days, else `on 12 Nov`. */
function dayName(date: string, today: string): string {
  const days = daysBetween(date, today)
  return days === 0 ? 'today' : `on ${printDate(date, days < 7 ? 'EEEE' : 'd MMM')}`
}

export function painLines(
  { places, ...span }: ReturnType<typeof painProgress>,
  unit: DistanceUnit,
  columns: number,
): string[] {
  const head = `pain: ${spanText(span)}`
  if (places.length === 0) return pageOf([[head, 'no pain noted in these weeks']], columns)
  const lines = places.map(
    ({ place, days }) => `  ${plainOf(place)}: ${days.map((day) => dayPhrase(day, span, unit)).join('; ')}`,
  )
  const note = 'from 0 to 10 where a number was typed; in brackets what was done in that session'
  return pageOf([[head], lines, [note]], columns)
}

function dayPhrase(
  { session, date, levels, runMeters, exercises }: PainPlace['days'][number],
  span: Span,
  unit: DistanceUnit,
): string {
  const typed = levels.filter((level) => level !== null)
  const done = joined(', ', [
    session === null && 'morning',
    runMeters > 0 && `run ${formatMeters(runMeters, unit)}`,
    ...exercises.map(plainOf),
  ])
  const level = typed.length === 0 ? '' : ` ${typed.join(', ')}`
  return `${dayWithin(span, date)}${level}${done === '' ? '' : ` (${done})`}`
}

/** `Pain: left calf 4 on Tue 24, 3 on Thu 26; right elbow on Thu 26.`, the worst of each day, after the advice to
 * see a doctor where a sign needs one; null without a pain. */
export function painsText(places: readonly PainPlace[]): string | null {
  if (places.length === 0) return null
  const onDay = (date: string) => `on ${printDate(date, 'EEE d')}`
  const texts = places.map(({ place, days }) => `${plainOf(place)} ${datesText(days, '', onDay)}`)
  const doctor = doctorPhrase(
    places.map(({ place, days }) => ({ place, level: days.at(-1)?.levels.at(-1) ?? null })),
  )
  return `${doctor === '' ? '' : `${plainOf(doctor)}. `}Pain: ${texts.join('; ')}.`
}

/** A pain. `on` is the date of another session, or of the morning, that noted it; without one, the session in
 * question noted it. */
export interface DatedPain extends Pain {
  on?: string
}

/** `left calf: pain 4 on Tue 24 Nov` */
export function painFact(pain: DatedPain): string {
  const { place, level, on } = pain
  const bare = hasSign(place) ? `noted: ${place}` : `pain: ${place}`
  const text = level === null ? bare : `${place}: pain ${level}`
  return on === undefined ? text : `${text} on ${printDate(on, 'EEE d MMM')}`
}

/** Why a pain leaves a line unchanged.
 * @param what the lines, if there are several: `running and leg lifts` */
export function painReason(pain: DatedPain, what = ''): string {
  return `${painFact(pain)} -> ${what === '' ? '' : `${what} `}unchanged${needsADoctor(pain) ? doctorFirst : ''}`
}

/** The pains that still count, the last one of each place unless its level is 0. Signs that need a doctor come first.
 * @param pains oldest first */
export function standingPains<Each extends Pain>(pains: readonly Each[]): Each[] {
  const byPlace = [...new Map(pains.map((pain) => [placeKey(pain), pain])).values()]
  return sort(
    byPlace.filter(({ level }) => level !== 0),
    (pain) => Number(!needsADoctor(pain)),
  )
}

const armWords =
  /shoulder|rotator|supraspinatus|\bac[- ]?joint|collar-? ?bone|clavicle|scapula|\bpec(?:s|torals?)?\b|\bdelt(?:s|oids?)?\b|\btrap(?:s|ezius)?\b|\blat(?:s|issimus)?\b|arm\b|arms\b|elbow|wrist|hand|palm|knuckle|finger|thumb|\bbiceps?\b(?! femoris)|\btriceps?\b(?! surae)/i

/** Hurt by running and by every lift, lying ones too. */
const trunkWords = /\b(?:neck|ribs?|rib-? ?cage|sternum|breast-? ?bone)\b/i

const heldInTheHands =
  /deadlift|\brdl\b|romanian|clean|snatch|front squat|overhead|zercher|sled|carry|carries|farmer|suitcase|swing|dumbbell|kettlebell|goblet|\bdb\b|\bkb\b|\brow|hang|pull-? ?up|chin-? ?up/i

const seatedOrLying = /bench|floor press|chest press|seated|lying|incline|decline|pulldown|pullover|skull/i

/** A lift's name, and whether its load is a pair, one in each hand. */
interface LiftNamed {
  name: string
  isPair: boolean
}

/** Whether a pain is a reason not to change a lift. Shoulder, arm and wrist affect every lift of the upper body and
 * every lift held in the hands; any other place, known or not, affects every lift but seated or lying ones of the
 * upper body; neck, ribs and a warning sign affect everything. This program's own rule. */
function isCoveredByPain(pain: Pain, { name, isPair }: LiftNamed): boolean {
  if (needsADoctor(pain) || trunkWords.test(pain.place)) return true
  const isLegs = isLegLift(name)
  if (armWords.test(pain.place)) return !isLegs || isPair || heldInTheHands.test(name)
  return isLegs || !seatedOrLying.test(name)
}

/** The pain that leaves a lift unchanged. Of several, a sign that needs a doctor comes first; then, for an upper-body
 * lift, a pain in the shoulder, arm or wrist. This program's own rule. */
export function painCovering(pains: readonly DatedPain[], lift: LiftNamed): DatedPain | undefined {
  const covering = pains.filter((each) => isCoveredByPain(each, lift))
  const ofTheArm = isLegLift(lift.name) ? undefined : covering.find(({ place }) => armWords.test(place))
  return covering.find(needsADoctor) ?? ofTheArm ?? covering[0]
}

/** Whether a pain is a reason not to run faster: any is, except in the shoulder, arm or wrist. This program's own
 * rule. */
export function isRunCoveredByPain(pain: Pain): boolean {
  return !armWords.test(pain.place) || needsADoctor(pain)
}

/** `left calf: pain 4, 5 weeks since the last time`. A pain is no reason to go back to the old load after weeks away.
 * This program's own rule. */
export function sinceText(days: number, pain: DatedPain | undefined, last = 'time'): string {
  return `${pain ? `${painFact(pain)}, ` : ''}${Math.floor(days / 7)} weeks since the last ${last}`
}
