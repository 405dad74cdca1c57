import { loadText } from '../summary/loadText.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { barLines } from './bars.ts'
import { chartLines } from './chart.ts'
import { dateText, dayWithin, spanText, weekText } from './dates.ts'
import { type EstimateKind, estimateKinds, type LiftProgress } from './liftModel.ts'
import type { Trend } from './trend.ts'

export const estimateMarks: Record<EstimateKind, { mark: string; words: string }> = {
  fresh: { mark: 'o', words: 'unbroken, fresh' },
  afterRun: { mark: 'r', words: 'unbroken, after a run' },
  cluster: { mark: 'c', words: 'cluster, fresh' },
  clusterAfterRun: { mark: 'x', words: 'cluster, after a run' },
}
/** Of an estimate that is "at least". */
const atLeastMark = '^'
const chartRows = 14

/** A lift over the weeks: the chart, the straight lines, the best sets, the weeks.
 * @param columns at least 40 */
export function liftLines(lift: LiftProgress, unit: MassUnit, columns: number): string[] {
  const blocks = [
    wrapped(`${plainOf(lift.name)}: ${spanText(lift)}`, 0, columns),
    estimateBlock(lift, unit, columns),
    trendBlock(lift, unit, columns),
    bestBlock(lift, unit, columns),
    weekBlock(lift, unit, columns),
  ]
  return blocks
    .filter((block) => block.length > 0)
    .flatMap((block, index) => (index === 0 ? block : ['', ...block]))
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
  const lines = trends.map(({ trend: { first, last } }) => ({
    from: { date: first.date, value: printed(first.value) ?? 0 },
    to: { date: last.date, value: printed(last.value) ?? 0 },
  }))
  const kinds = estimateKinds.filter((kind) => estimates.some((each) => each.kind === kind && !each.atLeast))
  const legend = [
    ...kinds.map((kind) => `${estimateMarks[kind].mark} ${estimateMarks[kind].words}`),
    ...(estimates.some(({ atLeast }) => atLeast) ? [`${atLeastMark} at least (no effort typed)`] : []),
    '| range',
    ...(lift.trends.length > 0 ? ['. straight line'] : []),
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
    return wrapped('too few estimates of one kind for a straight line (4 make one)', 0, columns)
  return [
    ...wrapped('straight lines, each through estimates of one kind; what was, not what will be', 0, columns),
    ...trends.flatMap(({ kind, trend }) =>
      wrapped(trendText(estimateMarks[kind].words, trend, unit), 2, columns),
    ),
  ]
}

function trendText(words: string, trend: Trend, unit: MassUnit): string {
  const text = (kg: number) => massIn({ value: kg, unit: 'kg' }, unit).toFixed(1)
  const slope = massIn({ value: trend.perWeek, unit: 'kg' }, unit)
  const error = massIn({ value: trend.perWeekError, unit: 'kg' }, unit)
  const end = ({ date, value, error }: Trend['first']) =>
    `${text(value)} +/- ${text(error)} ${unit} on ${dayWithin({ from: trend.first.date, to: trend.last.date }, date)}`
  return `${words}: ${slope < 0 ? '-' : '+'}${Math.abs(slope).toFixed(2)} +/- ${error.toFixed(2)} ${unit} a week (${trend.count} estimates, standard errors), from ${end(trend.first)} to ${end(trend.last)}; they lie ${text(trend.scatter)} ${unit} off it`
}

function bestBlock({ bestSets, bestClusters }: LiftProgress, unit: MassUnit, columns: number): string[] {
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
  const rows = weeks.map(({ sets, reps, tonnageKg, ...week }) => ({
    label: weekText(week, columns),
    text: `${String(sets).padStart(2)} ${sets === 1 ? 'set ' : 'sets'} ${String(reps).padStart(3)} reps ${amount(tonnageKg, unit)}`,
    stretches: [{ value: tonnageKg, mark: '=' }],
  }))
  const head = `by week from Monday: sets, repetitions, tonnage in ${unit}`
  return [...wrapped(head, 0, columns), ...barLines(rows, columns)]
}

function amount(kg: number, unit: MassUnit): string {
  return massIn({ value: kg, unit: 'kg' }, unit).toFixed(0).padStart(6)
}
