import { groups } from 'd3-array'
import { longerGapDays, longGapDays } from '../figures/advice.ts'
import { percentBasis } from '../figures/volume.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { Prescription } from '../prescription/model.ts'
import { type LastLoad, namesFromLastTime, type SourcedMaxima } from '../prescription/planned.ts'
import { kilogramsOfLoad } from '../session/load.ts'
import type { IndexedFigures } from '../summary/model.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import { isRecent, type PastPain, painCovering, standingPains } from './pain.ts'
import type { DoneSession } from './weeks.ts'

/* What earlier sessions say about the loads of a day. */

type Lifted = Pick<DoneSession, 'date'> & Pick<IndexedFigures, 'lifts'>

/** The maxima that percentages refer to on a day whose file names none: for each exercise the weighted mean of its
 * last three estimates within 42 days, without "at least" ones, and how that came about: `estimate of 24 Nov`, `mean of
 * 3 estimates to 24 Nov`.
 * @param entries sessions of any days; later ones are ignored
 * @param date local, YYYY-MM-DD
 * @param dates a date-fns format for the date of the newest estimate */
export function maximaOn(
  entries: readonly Lifted[],
  date: string,
  dates = 'd MMM yyyy',
): SourcedMaxima[number][] {
  const oldest = dayAfter(date, -100)
  const recent = entries.filter((entry) => entry.date >= oldest && entry.date <= date)
  const estimates = recent.flatMap((entry) =>
    entry.lifts.flatMap(({ figures: { name, oneRepMax } }) => {
      // That of an assisted lift may be 0 kg or less.
      if (oneRepMax === null || oneRepMax.kg <= 0) return []
      const { kg, atLeast } = oneRepMax
      return [{ name, kg, atLeast, date: entry.date, daysAgo: daysBetween(entry.date, date) }]
    }),
  )
  return groups(estimates, ({ name }) => exerciseKey(name)).flatMap(([, ofExercise]) => {
    const basis = percentBasis(ofExercise)
    if (basis === null) return []
    const { kg, from } = basis
    const what = from.length === 1 ? 'estimate of' : `mean of ${from.length} estimates to`
    return [{ name: from[0].name, kg, basis: `${what} ${printDate(from[0].date, dates)}` }]
  })
}

/** The loads that the "last" loads of a day build on: for each exercise the heaviest completed load of the newest
 * session with one. Nothing is added after a set that hurt or failed in it or since, after weeks away, or while a pain
 * covers the lift; a load of more than eight weeks ago does not count. This program's own rule.
 * @param days the sessions, newest first, and the pains, oldest first; read only if the day has such loads
 * @param date local, YYYY-MM-DD; later sessions and pains are ignored */
export function lastLoadsOf(
  prescription: Prescription,
  days: {
    readonly entries: readonly Pick<DoneSession, 'date' | 'lifted'>[]
    readonly pains: readonly PastPain[]
  },
  date: string,
): LastLoad[] {
  const names = namesFromLastTime(prescription)
  if (names.length === 0) return []
  const earlier = days.entries.filter((entry) => entry.date <= date)
  const recent = standingPains(days.pains.filter((pain) => isRecent(pain, date)))
  return names.flatMap((name) => {
    let isMissed = false
    for (const entry of earlier) {
      const lift = entry.lifted(exerciseKey(name))
      if (lift === null) continue
      // What was lifted months ago is no load to come back to.
      const days = daysBetween(entry.date, date)
      if (days > longerGapDays) break
      isMissed ||= lift.hurt || lift.sets.some(({ failed, isShort }) => failed || isShort)
      const done = lift.sets.filter(({ failed, isShort, reps }) => !failed && !isShort && reps !== 0)
      const loads = done.flatMap(({ load }) => load ?? [])
      const [heaviest] = loads.sort((a, b) => (kilogramsOfLoad(b) ?? 0) - (kilogramsOfLoad(a) ?? 0))
      if (heaviest === undefined) continue
      const isPair = heaviest.kind === 'mass' && heaviest.pair
      const isCovered = painCovering(recent, { name, isPair }) !== undefined
      const isKept = isMissed || isCovered || days > longGapDays
      return [{ name, date: entry.date, load: heaviest, isKept }]
    }
    return []
  })
}
