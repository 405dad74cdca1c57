import { groups, least } from 'd3-array'
import { shareAtGoalPace } from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { mean } from '../figures/statistics.ts'
import type { RunDone } from '../summary/model.ts'
import { plainOf } from '../summary/plain.ts'
import { signed } from '../units/decimal.ts'
import { formatClock, formatClockShort, formatPace, metersInPaceUnit, paceIn } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import {
  type BarRow,
  barLines,
  chartLines,
  inColumns,
  type Picture,
  pageOf,
  slopeText,
  trendOf,
} from './chart.ts'
import { type HistoryUnits, lengthText } from './history.ts'
import { weekDone } from './load.ts'
import { formBlock, isSloping, type RunOn, runFormOf, runsOf } from './runForm.ts'
import { type RaceGoal, raceBlock, towardRace } from './towardRace.ts'
import {
  type DoneSession,
  dateText,
  dayWithin,
  distanceOf,
  inWeeks,
  isIn,
  plusOf,
  type Span,
  spanText,
  weekText,
} from './weeks.ts'

type PacedRun = RunOn & { secondsPerKm: number }
export type RunLine = ReturnType<typeof runLinesOf>[number]
export type RunProgress = ReturnType<typeof runProgress>

/** How the running has developed: distance and share at goal pace by week, repeated lines, the best
 * splits, and the facts about the race.
 * @param sessions newest first
 * @param goal null without one
 * @param today local date */
export function runProgress(
  sessions: readonly DoneSession[],
  span: Span,
  goal: RaceGoal | null,
  today: string,
) {
  const all = sessions.filter(({ date }) => date <= span.to)
  const within = all.filter(({ date }) => isIn(span, date))
  const runs = runsOf(all)
  const toward = goal && towardRace(runs, goal, today)
  // The share, 0 to 1, of the distance with a known pace that was run within 2 % of goal pace; null without either.
  const shareOf = (sessions: readonly DoneSession[]) =>
    toward && shareAtGoalPace(runsOf(sessions).flatMap(levelSplits), toward.goal.secondsPerKm)
  const heavyLegs = sessions.filter(({ day }) => day.heavyLegSets > 0).map(({ date }) => date)
  return {
    ...span,
    weeks: inWeeks(span, within).map((week) => ({
      ...weekDone(week, today),
      goalPaceShare: shareOf(week.done),
    })),
    goalPaceShare: shareOf(within),
    lines: runLinesOf(runsOf(within.toReversed())),
    bestSplits: bestSplitsOf(runs.toReversed()),
    towardRace: toward,
    form: runFormOf(runs, span.to < today ? span.to : today, new Set(heavyLegs)),
  }
}

function levelSplits({ splits, gradePercent }: RunOn): { meters: number; secondsPerKm: number }[] {
  if (Math.abs(gradePercent ?? 0) > 1) return []
  return splits.flatMap(({ meters, secondsPerKm }) =>
    meters === null || secondsPerKm === null ? [] : [{ meters, secondsPerKm }],
  )
}

/** Shorter distances are left out. Metres; this program's own rule. */
const shortest = 100

/** The fastest over each distance, to the nearest metre, that was recorded as a split, a repeat or a whole continuous
 * run, shorter first; the earliest of equals. A row that is slower than a longer row's pace is left out, unless that
 * was on a slope. Distances within a longer interval that were not recorded separately are unknown.
 * @param runs oldest first */
export function bestSplitsOf(runs: readonly RunOn[]) {
  const timed = runs.flatMap(timedOf)
  const best = groups(timed, ({ meters }) => Math.round(meters)).map(([, alike]) => {
    const fastest = least(alike, ({ seconds }) => seconds)!
    const pace = secondsPerKm(fastest.meters, fastest.seconds)
    return { ...fastest, secondsPerKm: pace, count: alike.length }
  })
  const longestFirst = best.sort((a, b) => b.meters - a.meters)
  let fastest = Number.POSITIVE_INFINITY
  const kept = longestFirst.filter(({ secondsPerKm: pace, sloping }) => {
    const isKept = pace <= fastest
    if (!sloping) fastest = Math.min(fastest, pace)
    return isKept
  })
  return kept.reverse()
}

function timedOf(run: RunOn) {
  const { repeats, gaps, splits, session, date } = run
  const timed = ({ meters, seconds }: (typeof splits)[number] | RunDone, of: 'split' | 'repeat' | 'piece') =>
    meters === null || seconds === null || meters < shortest
      ? []
      : [{ meters, seconds, of, date, session, sloping }]
  const sloping = isSloping(run.text)
  const of = repeats ? 'repeat' : splits.length > 1 ? 'split' : 'piece'
  // Recorded splits form one interval only if none between them is missing.
  const isOne = gaps.every((gap) => gap === 0 || gap === splits.length)
  const [first, last] = [splits[0], splits.at(-1)]
  // What is left of a distance that its splits do not divide, such as the last 176 m of a half marathon split by
  // miles, is not a distance to compare.
  const isRest = of === 'split' && (last?.meters ?? 0) < (first?.meters ?? 0) - 0.5
  const each = (isRest ? splits.slice(0, -1) : splits).flatMap((split) => timed(split, of))
  return of === 'split' && isOne ? [...each, ...timed(run, 'piece')] : each
}

/** Lines that were run at least twice, the most frequent first; lines match whatever their target, case and spaces,
 * so that a range that has moved on is still compared. Where a session has a line twice, the first counts. A single
 * run without splits counts only if it has a target.
 * @param runs oldest first */
function runLinesOf(runs: readonly RunOn[]) {
  const done = runs.filter(
    (run): run is PacedRun => run.secondsPerKm !== null && (run.splits.length > 1 || run.judged > 0),
  )
  return groups(done, ({ text }) => lineKey(text))
    .map(([, alike]) => ({
      line: withoutTarget(alike[0]!.text),
      done: alike.filter(({ session }, at) => session !== alike[at - 1]?.session),
    }))
    .filter(({ done }) => done.length > 1)
    .sort((a, b) => b.done.length - a.done.length)
}

/** Removes pace, time, effort and heart rate from a line: `6 x 500 m @ 3:35-3:45/km, jog 200 m` becomes
 * `6 x 500 m, jog 200 m`. */
export function withoutTarget(text: string): string {
  return text.replace(/\s*(?:@|\b(?:at|in)\s)[^,"()]*/gi, '').trim()
}

/** The same for a line that differs in its target, case or spaces alone. */
export function lineKey(text: string): string {
  return withoutTarget(text).toLowerCase().replace(/\s/g, '')
}

/** The most lines, and the most distances, that are shown; the JSON has all. */
const mostLines = 3
const mostDistances = 14
const chartRows = 8
const narrow = 60

/** The running over the weeks. @param columns at least 40 */
export function runLines(run: RunProgress, units: HistoryUnits, columns: number): string[] {
  const unit = units.distance
  const more = run.lines.length - mostLines
  const blocks = [
    [`running: ${spanText(run)}`],
    weekBlock(run, unit, columns),
    ...run.lines.slice(0, mostLines).map((line) => lineBlock(line, run, unit, columns)),
    more <= 0 ? [] : [`${more} more ${more === 1 ? 'line was' : 'lines were'} repeated: --json lists them`],
    bestBlock(run, units, columns),
    formBlock(run.form, units),
    raceBlock(run.towardRace, units),
  ]
  return pageOf(blocks, columns)
}

function weekBars({ weeks, towardRace }: RunProgress, unit: DistanceUnit, columns: number): BarRow[] {
  return weeks.map((week) => {
    const { meters, goalPaceShare } = week
    const share = goalPaceShare === null ? '-' : `${(goalPaceShare * 100).toFixed(0)} %`
    const distance = `${distanceOf(meters, unit)}${plusOf([week])}`
    return {
      cells: [weekText(week, columns), distance, ...(towardRace === null ? [] : [share])],
      segments: [{ value: meters / metersInPaceUnit[unit], mark: '=' }],
    }
  })
}

export function runPicture(run: RunProgress, unit: DistanceUnit): Picture {
  return {
    title: `Running by week: ${spanText(run)}`,
    bars: weekBars(run, unit, Number.POSITIVE_INFINITY),
    unit,
  }
}

function weekBlock(run: RunProgress, unit: DistanceUnit, columns: number): string[] {
  const { weeks, towardRace } = run
  const over = weeks.filter(({ isOver }) => isOver)
  const whole = mean(over.map(({ meters }) => meters))
  const atLeast = plusOf(weeks) && ' ("+": plus running without a distance)'
  const share = towardRace === null ? '' : '; share of the work within 2 % of goal pace'
  return [
    `by week from Monday: ${unit}${atLeast}${share}`,
    ...barLines(weekBars(run, unit, columns), columns),
    whole === null ? '' : `mean of whole weeks: ${distanceOf(whole, unit)}${plusOf(over)} ${unit}`,
  ]
}

function lineBlock(
  { line, done }: RunLine,
  { from, to }: RunProgress,
  unit: DistanceUnit,
  columns: number,
): string[] {
  // In the reader's unit, so that the axis has round paces.
  const points = done.map(({ date, secondsPerKm: pace }) => ({ date, value: paceIn(pace, unit), mark: 'o' }))
  const trend = trendOf(points)
  const lines = trend?.isClear ? [{ from: trend.first, to: trend.last }] : []
  const chart = { unit: `/${unit}`, from, to, points, lines, print: formatClock, isReversed: true }
  const slope = trend && slopeText(trend, (change) => signed(change, 2), `s/${unit}`)
  const rows = done.map(({ date, secondsPerKm, cvPercent, halves, inRange, judged }) => [
    dayWithin({ from, to }, date),
    joined(', ', [
      formatPace(secondsPerKm, unit),
      cvPercent !== null && `CV ${cvPercent.toFixed(1)} %`,
      halves !== null && `second half ${signed(halves.changePercent, 1)} %`,
      judged > 0 && `${inRange} of ${judged} in range`,
    ]),
  ])
  return [
    `${plainOf(line)}: mean pace, faster is up`,
    ...chartLines(chart, columns, chartRows),
    trend?.isClear ? `  straight line: ${slope} (${trend.count} days, 95 % interval)` : '',
    ...inColumns(rows, 1).map((row) => `  ${row}`),
  ]
}

/** If there are many distances, only the most frequently recorded ones. */
function bestBlock({ bestSplits }: RunProgress, units: HistoryUnits, columns: number): string[] {
  const frequent = bestSplits.toSorted((a, b) => b.count - a.count).slice(0, mostDistances)
  const shown = bestSplits.filter((each) => frequent.includes(each))
  if (shown.length === 0) return []
  const rows = shown.map(({ meters, seconds, secondsPerKm, of, date, sloping }) => [
    lengthText(meters, units),
    formatClockShort(seconds),
    ...(columns < narrow ? [] : [formatPace(secondsPerKm, units.distance)]),
    `${of === 'piece' ? 'non-stop' : of}${sloping ? ' on a slope' : ''}, ${dateText(date)}`,
  ])
  const lines = inColumns(rows, columns < narrow ? 2 : 3)
  return ['best recorded splits by distance, from all sessions', ...lines.map((line) => `  ${line}`)]
}
