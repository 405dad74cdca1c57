import { isClearCost, type LiftDay, type RunCost, runCost, runCostText } from '../figures/longTerm.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { LiftedLoad } from '../session/result.ts'
import { loadText } from '../summary/loadText.ts'
import { kilogramsOfLoad } from '../summary/performed.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { dayAfter, daysBetween } from '../units/calendarDate.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { barLines, chartLines, type Trend, trendOf, withGaps } from './chart.ts'
import type { HistoryUnits } from './history.ts'
import {
  type DoneSession,
  dateText,
  dayWithin,
  type IsoWeek,
  isIn,
  isoWeeksOf,
  type SetDone,
  type Span,
  spanText,
  weekText,
} from './weeks.ts'

/** The kinds of estimates: fresh or after a run, from unbroken or from cluster sets. Lines join only estimates of one
 * kind. */
const estimateKinds = ['fresh', 'afterRun', 'cluster', 'clusterAfterRun'] as const
export type EstimateKind = (typeof estimateKinds)[number]

/** The best estimate of a session. */
export interface EstimatePoint {
  session: string
  date: string
  kg: number
  lowKg: number | null
  highKg: number | null
  /** No effort was typed, so the maximum may be higher. */
  atLeast: boolean
  kind: EstimateKind
  formula: string | null
}

/** The heaviest unbroken set of this many repetitions, unless one with more was as heavy. */
interface BestSet {
  reps: number
  kg: number
  load: LiftedLoad
  date: string
  session: string
}

/** The heaviest cluster set of these groups. */
interface BestCluster {
  groups: number[]
  kg: number
  load: LiftedLoad
  date: string
  session: string
}

interface LiftWeek extends Omit<IsoWeek, 'sunday'> {
  sessions: number
  sets: number
  reps: number
  tonnageKg: number
}

export interface LiftProgress {
  /** As last written. */
  name: string
  from: string
  to: string
  estimates: EstimatePoint[]
  /** One for each kind with enough estimates that are not "at least". */
  trends: { kind: EstimateKind; trend: Trend }[]
  /** The difference that running beforehand makes, over the 26 weeks up to `to`; null if it cannot be told. */
  runCost: RunCost | null
  weeks: LiftWeek[]
  /** Of all sessions up to `to`, more repetitions first, each on its earliest date. */
  bestSets: BestSet[]
  bestClusters: BestCluster[]
}

/** Takes sets, newest first, and keeps only the best ones, because thirty years have tens of thousands. */
interface BestSets {
  add(set: SetDone, date: string, session: string): void
  /** The unbroken sets that no other beats in both load and repetitions, more repetitions first; each on
   * its earliest date. */
  sets(): BestSet[]
  /** The heaviest cluster set of each list of groups, on its earliest date; most repetitions first. */
  clusters(): BestCluster[]
}

/** Source: Common practice. */
function bestSets(): BestSets {
  const unbroken = new Map<number, BestSet>()
  const clusters: BestCluster[] = []
  return {
    add({ reps, groups, load }, date, session) {
      if (load === null || !reps) return
      const kg = kilogramsOfLoad(load)
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

/** Metres of hard running before a lift: that of its own session if it was lifted after a run there, and that of earlier
 * sessions of the day; null for a fresh one. An easy run hours before leaves a lift fresh. This program's own rule.
 * @param sessions newest first; @param at the lift's session among them */
function hardMetersBefore(
  sessions: readonly DoneSession[],
  at: number,
  { afterRun }: { afterRun: boolean },
): number | null {
  const session = sessions[at]
  let meters = 0
  for (let before = at + 1; sessions[before]?.date === session?.date; before += 1)
    meters += sessions[before]?.hardRunMeters ?? 0
  if (afterRun) return meters + (session?.hardRunMeters ?? 0)
  return meters > 0 ? meters : null
}

/** How a lift has developed: its estimates with their ranges and a straight line for each kind, sets and
 * tonnage by week within the span, the best sets of all time up to its end.
 * @param sessions newest first
 * @param name in any spelling; see `exerciseKey` */
export function liftProgress(sessions: readonly DoneSession[], name: string, span: Span): LiftProgress {
  const key = exerciseKey(name)
  const estimates: EstimatePoint[] = []
  const best = bestSets()
  const weeks = isoWeeksOf(span).map(emptyWeek)
  let written: string | null = null
  for (const [at, session] of sessions.entries()) {
    const { id, date } = session
    if (date > span.to || session.lifted(key) === null) continue
    const done = session.lifted(key)
    if (done === null) continue
    const lifted = done.figures
    written ??= lifted.name
    for (const set of done.sets) best.add(set, date, id)
    if (!isIn(span, date)) continue
    const week = weeks.findLast(({ monday }) => monday <= date)
    if (week !== undefined) {
      week.sessions += 1
      week.sets += lifted.sets
      week.reps += lifted.reps
      week.tonnageKg += lifted.tonnageKg
    }
    const { oneRepMax } = lifted
    if (oneRepMax === null) continue
    const { kg, lowKg, highKg, atLeast, formula, cluster } = oneRepMax
    const kind = kindOf(cluster, hardMetersBefore(sessions, at, oneRepMax) !== null)
    estimates.push({ session: id, date, kg, lowKg, highKg, atLeast, kind, formula })
  }
  estimates.reverse()
  return {
    name: written ?? name,
    ...span,
    estimates,
    trends: trendsOf(estimates),
    runCost: runCostOf(sessions, key, span.to),
    weeks,
    bestSets: best.sets(),
    bestClusters: best.clusters(),
  }
}

const costWeeks = 26

/** How much running lowers a lift, over the 26 weeks up to a date.
 * @param sessions newest first; @param key of `exerciseKey` */
export function runCostOf(sessions: readonly DoneSession[], key: string, to: string): RunCost | null {
  const span = { from: dayAfter(to, -costWeeks * 7), to }
  const days = sessions.flatMap((session, at): LiftDay[] => {
    if (!isIn(span, session.date) || session.lifted(key) === null) return []
    const oneRepMax = session.lifted(key)?.figures.oneRepMax
    if (!oneRepMax || oneRepMax.atLeast || oneRepMax.kg <= 0) return []
    const { kg, cluster } = oneRepMax
    const hard = hardMetersBefore(sessions, at, oneRepMax)
    const day = -daysBetween(session.date, to)
    return [{ day, kg, cluster, hardKmBefore: hard === null ? null : hard / 1000 }]
  })
  return runCost(days)
}

function emptyWeek({ week, monday }: IsoWeek): LiftWeek {
  return { week, monday, sessions: 0, sets: 0, reps: 0, tonnageKg: 0 }
}

function kindOf(cluster: boolean, afterRun: boolean): EstimateKind {
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

export const estimateMarks: Record<EstimateKind, { mark: string; words: string }> = {
  fresh: { mark: 'o', words: 'unbroken, fresh' },
  afterRun: { mark: 'r', words: 'unbroken, after a run' },
  cluster: { mark: 'c', words: 'cluster, fresh' },
  clusterAfterRun: { mark: 'x', words: 'cluster, after a run' },
}
/** For an estimate that is "at least". */
const atLeastMark = '^'
const chartRows = 14

/** The unit that was asked for; else that of the best sets, if they have one in common; else that of the settings. */
export function unitOfLift(
  { bestSets, bestClusters }: Pick<LiftProgress, 'bestSets' | 'bestClusters'>,
  { mass, convert = false }: HistoryUnits,
): MassUnit {
  const [unit = mass, ...others] = new Set([...bestSets, ...bestClusters].map(({ load }) => load.unit))
  return convert || others.length > 0 ? mass : unit
}

/** A lift over the weeks: the chart, the straight lines, the best sets, the weeks.
 * @param columns at least 40 */
export function liftLines(lift: LiftProgress, units: HistoryUnits, columns: number): string[] {
  const unit = unitOfLift(lift, units)
  return withGaps([
    wrapped(`${plainOf(lift.name)}: ${spanText(lift)}`, 0, columns),
    estimateBlock(lift, unit, columns),
    trendBlock(lift, unit, columns),
    costBlock(lift, unit, columns),
    bestBlock(lift, units.convert ? unit : null, columns),
    weekBlock(lift, unit, columns),
  ])
}

function estimateBlock(lift: LiftProgress, unit: MassUnit, columns: number): string[] {
  const { estimates, trends, from, to } = lift
  if (estimates.length === 0) return ['no set in these weeks says what one repetition would be']
  const printed = (kg: number | null) => (kg === null ? null : massIn({ value: kg, unit: 'kg' }, unit))
  const points = estimates.map(({ date, kg, lowKg, highKg, atLeast, kind }) => ({
    date,
    value: printed(kg) ?? 0,
    mark: atLeast ? atLeastMark : estimateMarks[kind].mark,
    low: printed(lowKg),
    high: atLeast ? null : printed(highKg),
  }))
  const lines = trends
    .filter(({ trend }) => trend.isClear)
    .map(({ trend: { first, last } }) => ({
      from: { date: first.date, value: printed(first.value) ?? 0 },
      to: { date: last.date, value: printed(last.value) ?? 0 },
    }))
  const kinds = estimateKinds.filter((kind) => estimates.some((each) => each.kind === kind && !each.atLeast))
  const legend = [
    ...kinds.map((kind) => `${estimateMarks[kind].mark} ${estimateMarks[kind].words}`),
    ...(estimates.some(({ atLeast }) => atLeast) ? [`${atLeastMark} at least (no effort of 7+)`] : []),
    '| range',
    ...(lines.length > 0 ? ['. straight line'] : []),
  ]
  return [
    ...wrapped('estimated maximum for one repetition, by session', 0, columns),
    ...chartLines({ unit, from, to, points, lines, print: String }, columns, chartRows),
    ...wrapped(legend.join('; '), 0, columns, 0),
  ]
}

function trendBlock({ trends, estimates }: LiftProgress, unit: MassUnit, columns: number): string[] {
  if (estimates.length === 0) return []
  if (trends.length === 0)
    return wrapped('too few estimates of one kind for a straight line (4 over 21 days make one)', 0, columns)
  return [
    ...wrapped('straight lines, each through estimates of one kind; what was, not what will be', 0, columns),
    ...trends.flatMap(({ kind, trend }) =>
      wrapped(trendText(estimateMarks[kind].words, trend, unit), 2, columns),
    ),
  ]
}

/** `estimated maximum after running: about 88 kg (93 fresh)`
 * @param cost kilograms */
export function afterRunText(
  { freshKg, afterRunKg }: Pick<RunCost, 'freshKg' | 'afterRunKg'>,
  unit: MassUnit,
): string {
  const text = (kg: number) => massIn({ value: kg, unit: 'kg' }, unit).toFixed(0)
  return `estimated maximum after running: about ${text(afterRunKg)} ${unit} (${text(freshKg)} fresh)`
}

/** The difference that running beforehand makes. */
function costBlock({ name, runCost: cost }: LiftProgress, unit: MassUnit, columns: number): string[] {
  if (cost === null) return []
  const lines = wrapped(runCostText(plainOf(name), cost), 0, columns)
  if (!isClearCost(cost)) return lines
  return [...lines, ...wrapped(afterRunText(cost, unit), 0, columns)]
}

function trendText(words: string, trend: Trend, unit: MassUnit): string {
  if (!trend.isClear) return `${words}: no change that can be told from noise (${trend.count} estimates)`
  const text = (kg: number) => massIn({ value: kg, unit: 'kg' }, unit).toFixed(1)
  const signed = (kg: number) => {
    const slope = massIn({ value: kg, unit: 'kg' }, unit)
    return `${slope < 0 ? '-' : '+'}${Math.abs(slope).toFixed(2)}`
  }
  const end = ({ date, value }: Trend['first']) =>
    `${text(value)} ${unit} on ${dayWithin({ from: trend.first.date, to: trend.last.date }, date)}`
  return `${words}: ${signed(trend.perWeek)} (${signed(trend.perWeekLow)} to ${signed(trend.perWeekHigh)}) ${unit} a week (${trend.count} estimates, interval of 95 %), from ${end(trend.first)} to ${end(trend.last)}; they are ${text(trend.scatter)} ${unit} off it`
}

/** @param unit for the loads; null keeps each load's own */
function bestBlock(
  { bestSets, bestClusters }: LiftProgress,
  unit: MassUnit | null,
  columns: number,
): string[] {
  const rows = [
    ...bestSets.map(({ reps, load, date }) => ({ what: String(reps), load, date })),
    ...bestClusters.map(({ groups, load, date }) => ({ what: `(${groups.join('+')})`, load, date })),
  ]
  if (rows.length === 0) return []
  const width = Math.max(...rows.map(({ what }) => what.length))
  return [
    ...wrapped('best sets by repetitions, of all sessions; in brackets: cluster sets', 0, columns),
    ...rows.map(
      ({ what, load, date }) => `  ${what.padStart(width)} x ${loadText(load, unit)}, ${dateText(date)}`,
    ),
  ]
}

function weekBlock({ weeks }: LiftProgress, unit: MassUnit, columns: number): string[] {
  // A plank has no repetitions, a push-up no load.
  const hasReps = weeks.some(({ reps }) => reps > 0)
  const hasTonnage = weeks.some(({ tonnageKg }) => tonnageKg > 0)
  const rows = weeks.map(({ sets, reps, tonnageKg, ...week }) => ({
    label: weekText(week, columns),
    text: [
      `${String(sets).padStart(2)} ${sets === 1 ? 'set ' : 'sets'}`,
      ...(hasReps ? [`${String(reps).padStart(3)} reps`] : []),
      ...(hasTonnage ? [amount(tonnageKg, unit)] : []),
    ].join(' '),
    segments: [{ value: hasTonnage ? tonnageKg : hasReps ? reps : sets, mark: '=' }],
  }))
  const said = ['sets', ...(hasReps ? ['repetitions'] : []), ...(hasTonnage ? [`tonnage in ${unit}`] : [])]
  const head = `by week from Monday: ${said.join(', ')}`
  return [...wrapped(head, 0, columns), ...barLines(rows, columns)]
}

function amount(kg: number, unit: MassUnit): string {
  return massIn({ value: kg, unit: 'kg' }, unit).toFixed(0).padStart(6)
}
