import type { LiftedLoad } from '../session/result.ts'
import type { IsoWeek } from './isoWeeks.ts'
import type { Trend } from './trend.ts'

/** Estimates are of one kind only when they were made alike: those after a run in the same session are no
 * fresh ones, and those from cluster sets none from unbroken sets. They are never joined. */
export const estimateKinds = ['fresh', 'afterRun', 'cluster', 'clusterAfterRun'] as const
export type EstimateKind = (typeof estimateKinds)[number]

/** The best estimate of a session. */
export interface EstimatePoint {
  session: string
  date: string
  kg: number
  lowKg: number | null
  highKg: number | null
  /** Without an effort typed nothing says that it was all. */
  atLeast: boolean
  kind: EstimateKind
  formula: string | null
}

/** The heaviest unbroken set of so many repetitions, where none with more was as heavy. */
export interface BestSet {
  reps: number
  kg: number
  load: LiftedLoad
  date: string
  session: string
}

/** The heaviest cluster set of these groups. */
export interface BestCluster {
  groups: number[]
  kg: number
  load: LiftedLoad
  date: string
  session: string
}

export interface LiftWeek extends Omit<IsoWeek, 'sunday'> {
  sessions: number
  sets: number
  reps: number
  tonnageKg: number
}

export interface LiftProgress {
  /** As it was written last. */
  name: string
  from: string
  to: string
  estimates: EstimatePoint[]
  /** Of each kind that has enough estimates which are not "at least". */
  trends: { kind: EstimateKind; trend: Trend }[]
  weeks: LiftWeek[]
  /** Of all sessions up to `to`, more repetitions first, each as early as it was done. */
  bestSets: BestSet[]
  bestClusters: BestCluster[]
}
