import { secondsPerKm } from '../figures/splits.ts'
import type { BestSplit } from './runModel.ts'
import type { RunSession } from './runProgress.ts'

/** Nobody compares what is shorter. Metres; invented. */
const shortest = 100
/** Distances are the same to the nearest metre. */
const grain = 1

type Timed = Pick<BestSplit, 'meters' | 'seconds' | 'of' | 'date' | 'session'>

/** The fastest over each distance that was recorded as a split, a repeat or a whole continuous piece, shorter
 * first; of equals the earliest. What was run within a longer piece and not recorded by itself is not known.
 * @param sessions newest first */
export function bestSplitsOf(sessions: readonly RunSession[]): BestSplit[] {
  const best = new Map<number, BestSplit>()
  for (const session of sessions.toReversed()) {
    for (const timed of timedOf(session)) {
      const key = Math.round(timed.meters / grain)
      const known = best.get(key)
      const count = (known?.count ?? 0) + 1
      const isFaster = known === undefined || timed.seconds < known.seconds
      const fastest = isFaster
        ? { ...timed, secondsPerKm: secondsPerKm(timed.meters, timed.seconds), count }
        : { ...known, count }
      best.set(key, fastest)
    }
  }
  return [...best.values()].sort((a, b) => a.meters - b.meters)
}

function timedOf({ id, date, figures, kinds }: RunSession): Timed[] {
  return figures.items.flatMap((item, index) => {
    const { repeats, gaps } = kinds[index] ?? { repeats: false, gaps: [] }
    const count = item.splits.length
    const of = repeats ? 'repeat' : count > 1 ? 'split' : 'piece'
    const each = item.splits.map(({ meters, seconds }) => ({ meters, seconds, of }) as const)
    // What was recorded is one stretch where nothing within it is missing.
    const isOne = gaps.every((gap) => gap === 0 || gap === count)
    const whole =
      of === 'split' && isOne ? [{ meters: item.meters, seconds: item.seconds, of: 'piece' as const }] : []
    return [...each, ...whole].flatMap(({ meters, seconds, of }) =>
      meters === null || seconds === null || meters < shortest
        ? []
        : [{ meters, seconds, of, date, session: id }],
    )
  })
}
