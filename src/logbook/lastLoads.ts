import { exerciseKey } from '../prescription/exercise.ts'
import type { Prescription } from '../prescription/model.ts'
import { type LastLoad, namesFromLastTime } from '../prescription/plan.ts'
import { kilogramsOfLoad } from '../summary/performed.ts'
import type { IndexEntry } from './model.ts'

/** The loads from which the day's "last" loads start: for each exercise the heaviest completed load of the newest
 * session that has one. This program's own rule.
 * @param entries read only if the day has such loads
 * @param date local, YYYY-MM-DD; later sessions are ignored */
export function lastLoadsOf(
  prescription: Prescription,
  entries: () => readonly IndexEntry[],
  date: string,
): LastLoad[] {
  const names = namesFromLastTime(prescription)
  if (names.length === 0) return []
  const earlier = entries()
    .filter((entry) => entry.date <= date)
    .sort((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : (b.started ?? 0) - (a.started ?? 0)))
  return names.flatMap((name) => {
    for (const entry of earlier) {
      const lift = entry.lifted(exerciseKey(name))
      const done = (lift?.sets ?? []).filter(({ failed, reps }) => !failed && reps !== 0)
      const loads = done.flatMap(({ load }) => load ?? [])
      const [heaviest] = loads.sort((a, b) => (kilogramsOfLoad(b) ?? 0) - (kilogramsOfLoad(a) ?? 0))
      if (lift === null || heaviest === undefined) continue
      const isKept = lift.hurt || lift.sets.some(({ failed }) => failed)
      return [{ name, date: entry.date, load: heaviest, isKept }]
    }
    return []
  })
}
