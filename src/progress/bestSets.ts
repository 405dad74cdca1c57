import { kilogramsOfLoad } from '../summary/performed.ts'
import type { SetDone } from './doneSession.ts'
import type { BestCluster, BestSet } from './liftModel.ts'

/** Takes sets, newest first, and keeps the best of them. Thirty years hold tens of thousands: nothing is kept
 * of a set that is beaten. */
export interface BestSets {
  add(set: SetDone, date: string, session: string): void
  /** The unbroken sets that no other beats in load and repetitions at once, more repetitions first; each as
   * early as it was done. */
  sets(): BestSet[]
  /** The heaviest cluster set of each list of groups, as early as it was done; most repetitions first. */
  clusters(): BestCluster[]
}

/** Source: Common practice. */
export function bestSets(): BestSets {
  const unbroken = new Map<number, BestSet>()
  const clusters: BestCluster[] = []
  return {
    add({ reps, groups, load }, date, session) {
      const kg = kilogramsOfLoad(load)
      if (load === null || kg === null || reps === null || reps === 0) return
      if (groups === null) {
        const known = unbroken.get(reps)
        if (known === undefined || kg >= known.kg) unbroken.set(reps, { reps, kg, load, date, session })
        return
      }
      const place = clusters.findIndex((cluster) => isSame(cluster.groups, groups))
      const known = clusters[place]
      const best = { groups, kg, load, date, session }
      if (known === undefined) clusters.push(best)
      else if (kg >= known.kg) clusters[place] = best
    },
    sets() {
      const best: BestSet[] = []
      for (const set of [...unbroken.values()].sort((a, b) => b.reps - a.reps)) {
        if (set.kg > (best.at(-1)?.kg ?? Number.NEGATIVE_INFINITY)) best.push(set)
      }
      return best
    },
    clusters: () => clusters.toSorted((a, b) => count(b.groups) - count(a.groups) || b.kg - a.kg),
  }
}

function isSame(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((group, index) => group === other[index])
}

function count(groups: readonly number[]): number {
  return groups.reduce((sum, group) => sum + group, 0)
}
