import { groups } from 'd3-array'
import { longGapDays } from '../figures/advice.ts'
import { percentBasis } from '../figures/volume.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { Prescription } from '../prescription/model.ts'
import { type LastLoad, namesFromLastTime, type SourcedMaxima } from '../prescription/planned.ts'
import { kilogramsOfLoad } from '../session/load.ts'
import type { Digest } from '../summary/model.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import type { DoneSession } from './weeks.ts'

/* What earlier sessions say about the loads of a day. */

type Lifted = Pick<DoneSession, 'date'> & Pick<Digest, 'lifts'>

interface Estimate {
  name: string
  kg: number
  atLeast: boolean
  daysAgo: number
  /** YYYY-MM-DD */
  date: string
}

/** The estimated maxima of each exercise up to a day, without those too old for `percentBasis`.
 * @param entries sessions of any days; later ones are ignored */
function estimatesUpTo(date: string, entries: readonly Lifted[]): Estimate[][] {
  const oldest = dayAfter(date, -100)
  const recent = entries.filter((entry) => entry.date >= oldest && entry.date <= date)
  const estimates = recent.flatMap((entry): Estimate[] => {
    const when = { date: entry.date, daysAgo: daysBetween(entry.date, date) }
    return entry.lifts.flatMap(({ figures: { name, oneRepMax } }) =>
      oneRepMax === null ? [] : [{ name, kg: oneRepMax.kg, atLeast: oneRepMax.atLeast, ...when }],
    )
  })
  return groups(estimates, ({ name }) => exerciseKey(name)).map(([, ofExercise]) => ofExercise)
}

/** `estimate of 24 Nov`, `mean of 3 estimates to 24 Nov`.
 * @param from newest first
 * @param dates a date-fns format */
function basisText(from: readonly [Estimate, ...Estimate[]], dates: string): string {
  const what = from.length === 1 ? 'estimate of' : `mean of ${from.length} estimates to`
  return `${what} ${printDate(from[0].date, dates)}`
}

/** The maxima that percentages refer to on a day whose file names none: for each exercise the weighted mean of its
 * last three estimates within 42 days, without "at least" ones, and how that came about.
 * @param entries sessions of any days; later ones are ignored
 * @param date local, YYYY-MM-DD
 * @param dates a date-fns format for the date of the newest estimate */
export function maximaOn(
  entries: readonly Lifted[],
  date: string,
  dates = 'd MMM yyyy',
): SourcedMaxima[number][] {
  return estimatesUpTo(date, entries).flatMap((ofExercise) => {
    // The estimate of an assisted lift may be 0 kg or less.
    const basis = percentBasis(ofExercise.filter(({ kg }) => kg > 0))
    if (basis === null) return []
    const { kg, from } = basis
    return [{ name: from[0].name, kg, basis: basisText(from, dates) }]
  })
}

/** The loads that the "last" loads of a day build on: for each exercise the heaviest completed load of the newest
 * session with one. This program's own rule.
 * @param entries newest first; read only if the day has such loads
 * @param date local, YYYY-MM-DD; later sessions are ignored */
export function lastLoadsOf(
  prescription: Prescription,
  entries: () => readonly Pick<DoneSession, 'date' | 'lifted'>[],
  date: string,
): LastLoad[] {
  const names = namesFromLastTime(prescription)
  if (names.length === 0) return []
  const earlier = entries().filter((entry) => entry.date <= date)
  return names.flatMap((name) => {
    for (const entry of earlier) {
      const lift = entry.lifted(exerciseKey(name))
      const done = (lift?.sets ?? []).filter(({ failed, isShort, reps }) => !failed && !isShort && reps !== 0)
      const loads = done.flatMap(({ load }) => load ?? [])
      const [heaviest] = loads.sort((a, b) => (kilogramsOfLoad(b) ?? 0) - (kilogramsOfLoad(a) ?? 0))
      if (lift === null || heaviest === undefined) continue
      const isMissed = lift.sets.some(({ failed, isShort }) => failed || isShort)
      const isKept = lift.hurt || isMissed || daysBetween(entry.date, date) > longGapDays
      return [{ name, date: entry.date, load: heaviest, isKept }]
    }
    return []
  })
}
