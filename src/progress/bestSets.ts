import type { LiftedLoad } from '../session/result.ts'
import type { SetDone } from './doneSession.ts'
import type { BestCluster, BestSet } from './liftModel.ts'

/** A set with a load and the day on which it was done. */
export interface DatedSet extends SetDone {
  load: LiftedLoad
  /** Both of a pair; with the body what was added. */
  kg: number
  date: string
  session: string
}

/** The unbroken sets that no other beats in load and repetitions at once, more repetitions first; each as
 * early as it was done.
 * @param sets oldest first
 * Source: Common practice. */
export function bestSetsOf(sets: readonly DatedSet[]): BestSet[] {
  const heaviest = new Map<number, DatedSet>()
  for (const set of sets) {
    if (set.groups !== null || set.reps === null || set.reps === 0) continue
    const known = heaviest.get(set.reps)
    if (known === undefined || set.kg > known.kg) heaviest.set(set.reps, set)
  }
  const best: BestSet[] = []
  for (const [reps, set] of [...heaviest].sort(([a], [b]) => b - a)) {
    const { kg, load, date, session } = set
    if (kg > (best.at(-1)?.kg ?? Number.NEGATIVE_INFINITY)) best.push({ reps, kg, load, date, session })
  }
  return best
}

/** The heaviest cluster set of each list of groups, as early as it was done; those of most repetitions first.
 * @param sets oldest first
 * Source: Common practice. */
export function bestClustersOf(sets: readonly DatedSet[]): BestCluster[] {
  const heaviest = new Map<string, BestCluster>()
  for (const { groups, reps, kg, load, date, session } of sets) {
    if (groups === null || reps === 0) continue
    const key = groups.join('+')
    const known = heaviest.get(key)
    if (known === undefined || kg > known.kg) heaviest.set(key, { groups, kg, load, date, session })
  }
  const count = ({ groups }: BestCluster) => groups.reduce((sum, group) => sum + group, 0)
  return [...heaviest.values()].sort((a, b) => count(b) - count(a) || b.kg - a.kg)
}
