import { differenceInCalendarDays, format, parseISO } from 'date-fns'
import { percentBasis } from '../figures/volume.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { SummaryContext } from '../summary/estimate.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { IndexEntry, SessionStart } from './model.ts'
import { bodyMassOn, type Settings } from './settings.ts'

/** Raised whenever the rows of the index get another form or a figure in them another meaning. */
const version = 7

/** What a session's figures need besides the session: the chosen equation and the body mass that held on its date. */
export function contextOn(settings: Settings, date: string): SummaryContext {
  const mass = bodyMassOn(settings, date)
  return {
    equation: settings.formula,
    bodyMassKg: mass === null ? null : kilogramsOf(mass),
    hrMax: settings.hrMax,
  }
}

/** A name for all that a session's figures in the index depend on besides its file; under another name they are
 * computed again. Only the body mass of its day counts, so that a new one leaves the other days as they are.
 * @param date of the session, YYYY-MM-DD */
export function basisOf(settings: Settings, date: string): string {
  const masses = JSON.stringify(bodyMassOn(settings, date))
  // FNV-1a, 32 bits: a name, no protection.
  let hash = 0x811c9dc5
  for (let index = 0; index < masses.length; index += 1) {
    hash = Math.imul(hash ^ masses.charCodeAt(index), 0x01000193) >>> 0
  }
  return `${version}-${settings.formula}-${hash.toString(36)}`
}

/** What loads by percent are of on a day, where the file itself names no maximum: for each exercise the weighted
 * mean of the last three estimates of 42 days that are not "at least", and where it is from.
 * @param entries sessions of any days; later ones count for nothing
 * @param date local, YYYY-MM-DD */
export function maximaOn(entries: readonly IndexEntry[], date: string): SessionStart['maxima'] {
  const estimates = new Map<
    string,
    { name: string; kg: number; atLeast: boolean; daysAgo: number; date: string }[]
  >()
  for (const entry of entries) {
    const daysAgo = differenceInCalendarDays(parseISO(date), parseISO(entry.date))
    // Older sessions are not even read; what is too old to the day is for percentBasis to say.
    if (daysAgo < 0 || daysAgo > 100) continue
    for (const { figures } of entry.lifts) {
      const { name, oneRepMax } = figures
      if (oneRepMax === null || oneRepMax.kg <= 0) continue
      const { kg, atLeast } = oneRepMax
      const key = exerciseKey(name)
      estimates.set(key, [...(estimates.get(key) ?? []), { name, kg, atLeast, daysAgo, date: entry.date }])
    }
  }
  return [...estimates.values()].flatMap((ofExercise) => {
    const basis = percentBasis(ofExercise)
    const [newest, ...others] = basis?.from ?? []
    if (basis === null || newest === undefined) return []
    const date = format(parseISO(newest.date), 'd MMM yyyy')
    const from =
      others.length === 0 ? `estimate of ${date}` : `mean of ${basis.from.length} estimates to ${date}`
    return [{ name: newest.name, kg: basis.kg, basis: from }]
  })
}
