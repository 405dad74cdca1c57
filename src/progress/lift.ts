import { greatest, groups as groupsBy, sort, sum } from 'd3-array'
import { isClearCost, runCost, runCostText } from '../figures/longTerm.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { kilogramsOfLoad, loadText } from '../session/load.ts'
import type { SetDone } from '../summary/model.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { dayAfter, daysBetween } from '../units/calendarDate.ts'
import { counted, signed } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import { kilogramsIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { barLines, chartLines, type Picture, pageOf, slopeText, type Trend, trendOf } from './chart.ts'
import type { HistoryUnits } from './history.ts'
import {
  assumedMeters,
  type DoneSession,
  dateText,
  dayWithin,
  inWeeks,
  isIn,
  type Span,
  spanText,
  weekText,
} from './weeks.ts'

/** The kinds of estimates: fresh or after a run, from unbroken or from cluster sets. A straight line goes through
 * estimates of one kind only, and not through those that are "at least". */
export const estimateMarks = {
  fresh: { mark: 'o', words: 'unbroken, fresh' },
  afterRun: { mark: 'r', words: 'unbroken, after a run' },
  cluster: { mark: 'c', words: 'cluster, fresh' },
  clusterAfterRun: { mark: 'x', words: 'cluster, after a run' },
  atLeast: { mark: '^', words: 'at least (no effort of 7+, or over 10 reps)' },
}
type EstimateKind = keyof typeof estimateMarks
const estimateKinds = Object.keys(estimateMarks) as EstimateKind[]

interface BestSet extends Pick<SetDone, 'reps' | 'groups' | 'seconds' | 'meters' | 'load'> {
  date: string
  session: string
}

export type LiftProgress = ReturnType<typeof liftProgress>

/** In the order in which the best sets are listed. */
const setKinds = ['reps', 'hold', 'carry', 'cluster', 'bare reps', 'bare hold', 'bare carry']

function setKindOf({ reps, groups, seconds, load }: BestSet): string {
  if (groups !== null) return 'cluster'
  const kind = reps !== null ? 'reps' : seconds !== null ? 'hold' : 'carry'
  return load === null ? `bare ${kind}` : kind
}

/** The unbroken sets, holds and carries with a load that no other of their kind beats in both load and length; then, for
 * each list of groups, the heaviest cluster set; then the longest of each kind without a load. Longer ones come first.
 * @param sets newest first
 * Source: Common practice. */
function bestSetsOf(sets: readonly BestSet[]): BestSet[] {
  const lengthOf = ({ reps, seconds, meters }: BestSet) => reps ?? seconds ?? meters ?? 0
  const sizeOf = (set: BestSet) => kilogramsOfLoad(set.load) ?? lengthOf(set)
  const known = sets.filter((set) => lengthOf(set) > 0 && (set.load !== null || set.groups === null))
  const alike = groupsBy(known, (set) =>
    [setKindOf(set), set.groups ?? (set.load === null ? '' : lengthOf(set))].join(' '),
  )
  const best = alike.map(([, ofOne]) => greatest(ofOne.toReversed(), sizeOf)!)
  const ordered = sort(
    best,
    (set) => setKinds.indexOf(setKindOf(set)),
    (set) => -lengthOf(set),
    (set) => -sizeOf(set),
  )
  return ordered.filter((set, at) => {
    const kind = setKindOf(set)
    // Those before it are longer.
    const longer = ordered.slice(0, at).filter((before) => setKindOf(before) === kind)
    return kind === 'cluster' || longer.every((before) => sizeOf(before) < sizeOf(set))
  })
}

/** Metres of hard running before a lift, in earlier sessions of the day and, if it followed a run there, in its own;
 * null for a fresh lift. An easy run hours earlier leaves a lift fresh, and running without a distance counts as if at
 * easy pace. This program's own rule.
 * @param sessions newest first; @param at the index of the lift's session */
function hardMetersBefore(
  sessions: readonly DoneSession[],
  at: number,
  { afterRun }: { afterRun: boolean },
): number | null {
  const [session, ...before] = sessions.slice(at).filter(({ date }) => date === sessions[at]?.date)
  const hard = afterRun && session ? [session, ...before] : before
  const meters = sum(hard, ({ day }) => day.hardMeters + assumedMeters(day.hardSeconds))
  return afterRun || meters > 0 ? meters : null
}

/** The sessions of a span with an estimate of a lift.
 * @param sessions newest first, including those before the span; @param key of `exerciseKey` */
function estimatedIn(sessions: readonly DoneSession[], key: string, span: Span) {
  return sessions.flatMap((session, at) => {
    const { id, date } = session
    const lifted = isIn(span, date) ? session.lifted(key) : null
    const oneRepMax = lifted?.figures.oneRepMax
    if (!lifted || !oneRepMax) return []
    const hardMeters = hardMetersBefore(sessions, at, oneRepMax)
    const isPair = lifted.sets.some(({ load }) => load?.kind === 'mass' && load.pair)
    return [{ session: id, date, oneRepMax, bodyKg: lifted.bodyKg, isPair, hardMeters }]
  })
}

/** The estimates of a lift within the span, oldest first, and a straight line for each kind with enough of them.
 * @param sessions newest first
 * @param name in any spelling; see `exerciseKey` */
export function estimatesOf(sessions: readonly DoneSession[], name: string, span: Span) {
  const estimates = estimatedIn(sessions, exerciseKey(name), span).map(
    ({ session, date, oneRepMax, bodyKg, isPair, hardMeters }) => {
      const { kg, lowKg, highKg, atLeast, formula } = oneRepMax
      const kind = kindOf(oneRepMax, hardMeters !== null)
      // For a lift of the body, kilograms are the added load, below 0 for assistance.
      return { session, date, kg, lowKg, highKg, atLeast, kind, isOnBody: bodyKg > 0, isPair, formula }
    },
  )
  estimates.reverse()
  return { estimates, trends: trendsOf(estimates) }
}

/** How a lift has developed: its estimates with their ranges and a straight line for each kind, sets and
 * tonnage by week within the span, the best sets of all time up to its end.
 * @param sessions newest first
 * @param name in any spelling; see `exerciseKey`
 * @param today local date */
export function liftProgress(sessions: readonly DoneSession[], name: string, span: Span, today: string) {
  const key = exerciseKey(name)
  const days = sessions.flatMap((session) => {
    const { id, date } = session
    const done = date > span.to ? null : session.lifted(key)
    return done === null ? [] : [{ id, date, ...done }]
  })
  const sets = days.flatMap(({ id: session, date, sets }) =>
    sets
      .filter(({ isTotal }) => !isTotal)
      .map(({ reps, groups, seconds, meters, load }) => {
        return { reps, groups, seconds, meters, load, date, session }
      }),
  )
  const [unit = null, ...others] = new Set(sets.flatMap(({ load }) => load?.unit ?? []))
  return {
    // As last written.
    name: days[0]?.figures.name ?? name,
    // Of all loads; null if they differ.
    unit: others.length > 0 ? null : unit,
    ...span,
    ...estimatesOf(sessions, name, span),
    runCost: runCostOf(sessions, key, span.to < today ? span.to : today),
    weeks: inWeeks(span, days).map(({ week, monday, done }) => {
      const total = (of: 'sets' | 'reps' | 'tonnageKg') => sum(done, ({ figures }) => figures[of])
      const sums = { sets: total('sets'), reps: total('reps'), tonnageKg: total('tonnageKg') }
      return { week, monday, sessions: done.length, ...sums }
    }),
    bestSets: bestSetsOf(sets),
  }
}

const costWeeks = 26

export type LiftCost = NonNullable<ReturnType<typeof runCostOf>>

/** How much running lowers a lift, over the 26 weeks up to a date. For a lift of the body, percentages refer to the whole
 * moved mass, kilograms to the added load.
 * @param sessions newest first; @param key of `exerciseKey` */
export function runCostOf(sessions: readonly DoneSession[], key: string, to: string) {
  const span = { from: dayAfter(to, -costWeeks * 7), to }
  const days = estimatedIn(sessions, key, span).filter(
    ({ oneRepMax, bodyKg }) => !oneRepMax.atLeast && oneRepMax.kg + bodyKg > 0,
  )
  const cost = runCost(
    days.map(({ date, oneRepMax, bodyKg, hardMeters }) => ({
      day: -daysBetween(date, to),
      kg: oneRepMax.kg + bodyKg,
      cluster: oneRepMax.cluster,
      hardKmBefore: hardMeters === null ? null : hardMeters / 1000,
    })),
  )
  if (cost === null) return null
  const { freshKg, afterRunKg } = cost
  const bodyKg = days[0]?.bodyKg ?? 0
  return { ...cost, freshKg: freshKg - bodyKg, afterRunKg: afterRunKg - bodyKg, isOnBody: bodyKg > 0 }
}

function kindOf({ cluster }: { cluster: boolean }, isAfterRun: boolean): EstimateKind {
  if (cluster) return isAfterRun ? 'clusterAfterRun' : 'cluster'
  return isAfterRun ? 'afterRun' : 'fresh'
}

function trendsOf(estimates: readonly { date: string; kg: number; kind: EstimateKind; atLeast: boolean }[]) {
  return estimateKinds.flatMap((kind) => {
    const points = estimates.filter((each) => each.kind === kind && !each.atLeast)
    const trend = trendOf(points.map(({ date, kg }) => ({ date, value: kg })))
    return trend === null ? [] : [{ kind, trend }]
  })
}

const chartRows = 14

/** The unit the user asked for; else that of the loads, if they share one; else that of the settings. */
function unitOfLift({ unit }: LiftProgress, { mass, convert = false }: HistoryUnits): MassUnit {
  return convert ? mass : (unit ?? mass)
}

/** A lift over the weeks: the chart, the straight lines, the best sets, the weeks.
 * @param columns at least 40 */
export function liftLines(lift: LiftProgress, units: HistoryUnits, columns: number): string[] {
  const unit = unitOfLift(lift, units)
  const blocks = [
    [`${plainOf(lift.name)}: ${spanText(lift)}`],
    estimateBlock(lift, unit, columns),
    trendBlock(lift, unit),
    costBlock(lift, unit),
    bestBlock(lift, units.convert ? unit : null),
    weekBlock(lift, unit, columns),
  ]
  return pageOf(blocks, columns)
}

/** The estimates with their ranges, and the straight lines that can be told from noise. */
function estimateChart({ estimates, trends, from, to }: LiftProgress, unit: MassUnit) {
  const kgIn = (kg: number) => kilogramsIn(kg, unit)
  const points = estimates.map(({ date, kg, lowKg, highKg, atLeast, kind }) => ({
    date,
    value: kgIn(kg),
    mark: estimateMarks[atLeast ? 'atLeast' : kind].mark,
    low: lowKg && kgIn(lowKg),
    high: atLeast ? null : highKg && kgIn(highKg),
  }))
  const lines = trends
    .filter(({ trend }) => trend.isClear)
    .map(({ trend: { first, last } }) => ({
      from: { date: first.date, value: kgIn(first.value) },
      to: { date: last.date, value: kgIn(last.value) },
    }))
  const marks = Object.values(estimateMarks).filter(({ mark }) => points.some((each) => each.mark === mark))
  const legend = Object.fromEntries(marks.map(({ mark, words }) => [mark, words]))
  return { unit, from, to, points, lines, print: String, legend }
}

export function liftPicture(lift: LiftProgress, units: HistoryUnits): Picture {
  const title = `${lift.name}: estimated maximum for one repetition, ${spanText(lift)}`
  return { title, chart: estimateChart(lift, unitOfLift(lift, units)) }
}

function estimateBlock(lift: LiftProgress, unit: MassUnit, columns: number): string[] {
  const { estimates } = lift
  if (estimates.length === 0) return ['no set in these weeks gives an estimated maximum']
  const chart = estimateChart(lift, unit)
  const legend = joined('; ', [
    ...Object.entries(chart.legend).map(([mark, words]) => `${mark} ${words}`),
    '| range',
    chart.lines.length > 0 && '. straight line',
  ])
  const { isOnBody, isPair } = estimates.at(-1)!
  const of = isOnBody ? ', added to the body' : isPair ? ', both together' : ''
  return [
    `estimated maximum for one repetition${of}, by session`,
    ...chartLines(chart, columns, chartRows),
    ...wrapped(legend, columns, 0, 0),
  ]
}

function trendBlock({ trends, estimates }: LiftProgress, unit: MassUnit): string[] {
  if (estimates.length === 0) return []
  if (trends.length === 0)
    return ['too few estimates of one kind for a straight line (it takes 4 over 21 days)']
  return [
    'straight lines, each through estimates of one kind; they describe the past, not the future',
    ...trends.map(({ kind, trend }) => `  ${trendText(estimateMarks[kind].words, trend, unit)}`),
  ]
}

/** `estimated maximum after running: about 88 kg (93 fresh)`, `about bodyweight+22 kg (+27 fresh)`
 * @param cost kilograms */
export function afterRunText(
  { freshKg, afterRunKg, isOnBody }: Pick<LiftCost, 'freshKg' | 'afterRunKg' | 'isOnBody'>,
  unit: MassUnit,
): string {
  const text = (kg: number) => {
    const load = kilogramsIn(Math.abs(kg), unit).toFixed(0)
    return isOnBody ? `${kg < 0 ? '-' : '+'}${load}` : load
  }
  const body = isOnBody ? 'bodyweight' : ''
  return `estimated maximum after running: about ${body}${text(afterRunKg)} ${unit} (${text(freshKg)} fresh)`
}

function costBlock({ name, runCost: cost }: LiftProgress, unit: MassUnit): string[] {
  if (cost === null) return []
  return [runCostText(plainOf(name), cost), isClearCost(cost) ? afterRunText(cost, unit) : '']
}

function trendText(words: string, trend: Trend, unit: MassUnit): string {
  if (!trend.isClear) return `${words}: no change that can be told from noise (${trend.count} estimates)`
  const text = (kg: number) => kilogramsIn(kg, unit).toFixed(1)
  const end = ({ date, value }: Trend['first']) =>
    `${text(value)} ${unit} on ${dayWithin({ from: trend.first.date, to: trend.last.date }, date)}`
  return `${words}: ${massSlopeText(trend, unit)} (${trend.count} estimates, 95 % interval), from ${end(trend.first)} to ${end(trend.last)}; estimates scatter by ${text(trend.scatter)} ${unit}`
}

export function massSlopeText(trend: Trend, unit: MassUnit): string {
  return slopeText(trend, (kg) => signed(kilogramsIn(kg, unit), 2), unit)
}

/** @param unit for the loads; null keeps each load's own */
function bestBlock({ bestSets }: LiftProgress, unit: MassUnit | null): string[] {
  if (bestSets.length === 0) return []
  const loaded = bestSets.filter(({ load }) => load !== null)
  const lengthOf = ({ reps, groups, seconds, meters }: BestSet) => {
    if (groups !== null) return `(${groups.join('+')})`
    return reps ?? (seconds === null ? formatMeters(meters ?? 0, 'km') : formatClockShort(seconds))
  }
  const width = Math.max(...loaded.map((set) => String(lengthOf(set)).length))
  const textOf = (set: BestSet) => {
    if (set.load !== null) return `${String(lengthOf(set)).padStart(width)} x ${loadText(set.load, unit)}`
    if (set.reps !== null) return `most reps without a load ${set.reps}`
    return `longest ${set.seconds === null ? 'carry without a load' : 'hold'} ${lengthOf(set)}`
  }
  const by = loaded.some(({ reps }) => reps !== null) ? ' by repetitions' : ''
  const clusters = bestSets.some(({ groups }) => groups !== null) ? '; cluster sets in brackets' : ''
  return [
    `best sets${by}, from all sessions${clusters}`,
    ...bestSets.map((set) => `  ${textOf(set)}, ${dateText(set.date)}`),
  ]
}

function weekBlock({ weeks }: LiftProgress, unit: MassUnit, columns: number): string[] {
  // A plank has no repetitions, a push-up no load.
  const hasReps = weeks.some(({ reps }) => reps > 0)
  const hasTonnage = weeks.some(({ tonnageKg }) => tonnageKg > 0)
  const rows = weeks.map(({ sets, reps, tonnageKg, ...week }) => ({
    cells: [
      weekText(week, columns),
      counted(sets, 'set'),
      ...(hasReps ? [`${reps} reps`] : []),
      ...(hasTonnage ? [kilogramsIn(tonnageKg, unit).toFixed(0)] : []),
    ],
    segments: [{ value: hasTonnage ? tonnageKg : hasReps ? reps : sets, mark: '=' }],
  }))
  const shown = joined(', ', ['sets', hasReps && 'repetitions', hasTonnage && `tonnage in ${unit}`])
  return [`by week from Monday: ${shown}`, ...barLines(rows, columns)]
}
