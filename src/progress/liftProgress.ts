import { exerciseKey } from '../prescription/exercise.ts'
import { bestSets } from './bestSets.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import { type IsoWeek, isoWeeksOf } from './isoWeeks.ts'
import {
  type EstimateKind,
  type EstimatePoint,
  estimateKinds,
  type LiftProgress,
  type LiftWeek,
} from './liftModel.ts'
import { trendOf } from './trend.ts'

/** How a lift has gone: its estimates with their ranges and a straight line for each kind of them, sets and
 * tonnage by week within the span, the best sets of all time up to its end.
 * @param sessions those with the lift alone are enough; newest first
 * @param name in any spelling; see `exerciseKey` */
export function liftProgress(sessions: readonly DoneSession[], name: string, span: Span): LiftProgress {
  const key = exerciseKey(name)
  const estimates: EstimatePoint[] = []
  const best = bestSets()
  const weeks = isoWeeksOf(span).map(emptyWeek)
  const weekOf = new Map<string, LiftWeek>()
  let written: string | null = null
  for (const session of sessions) {
    const { id, date } = session
    if (date > span.to) continue
    const done = session.lifted(key)
    if (done === null) continue
    const lifted = done.figures
    written ??= lifted.name
    for (const set of done.sets) best.add(set, date, id)
    if (!isIn(span, date)) continue
    const week = weekOf.get(date) ?? weeks.findLast(({ monday }) => monday <= date)
    if (week !== undefined) {
      weekOf.set(date, week)
      week.sessions += 1
      week.sets += lifted.sets
      week.reps += lifted.reps
      week.tonnageKg += lifted.tonnageKg
    }
    const { oneRepMax } = lifted
    if (oneRepMax === null) continue
    const { kg, lowKg, highKg, atLeast, formula } = oneRepMax
    estimates.push({ session: id, date, kg, lowKg, highKg, atLeast, kind: kindOf(oneRepMax), formula })
  }
  estimates.reverse()
  return {
    name: written ?? name,
    ...span,
    estimates,
    trends: trendsOf(estimates),
    weeks,
    bestSets: best.sets(),
    bestClusters: best.clusters(),
  }
}

function emptyWeek({ week, monday }: IsoWeek): LiftWeek {
  return { week, monday, sessions: 0, sets: 0, reps: 0, tonnageKg: 0 }
}

function kindOf({ cluster, afterRun }: { cluster: boolean; afterRun: boolean }): EstimateKind {
  if (cluster) return afterRun ? 'clusterAfterRun' : 'cluster'
  return afterRun ? 'afterRun' : 'fresh'
}

function trendsOf(estimates: readonly EstimatePoint[]): LiftProgress['trends'] {
  return estimateKinds.flatMap((kind) => {
    const points = estimates.filter((each) => each.kind === kind && !each.atLeast)
    const trend = trendOf(points.map(({ date, kg }) => ({ date, value: kg })))
    return trend === null ? [] : [{ kind, trend }]
  })
}
