import type { EqualTime } from '../figures/race.ts'
import { mean } from '../figures/statistics.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { counted } from '../units/decimal.ts'
import { formatClock, formatClockShort } from '../units/duration.ts'
import { formatPace, metersInPaceUnit, paceIn } from '../units/pace.ts'
import { barLines, chartLines, trendOf, withGaps } from './chart.ts'
import { type HistoryUnits, lengthText } from './history.ts'
import type { RaceDone, RunLine, RunProgress, TowardRace } from './run.ts'
import { formBlock } from './runForm.ts'
import { dateText, dayWithin, isMeasured, spanText, weekText } from './weeks.ts'

/** The most lines, and the most distances, that are shown; the JSON has all. */
const mostLines = 3
const mostDistances = 14
const chartRows = 8
const narrow = 60

/** The running over the weeks. @param columns at least 40 */
export function runLines(run: RunProgress, units: HistoryUnits, columns: number): string[] {
  const unit = units.distance
  return withGaps([
    wrapped(`running: ${spanText(run)}`, columns),
    weekBlock(run, unit, columns),
    ...run.lines.slice(0, mostLines).map((line) => lineBlock(line, run, unit, columns)),
    moreBlock(run, columns),
    bestBlock(run, units, columns),
    formBlock(run.form, units, columns),
    raceBlock(run, units, columns),
  ])
}

function weekBlock({ weeks, towardRace }: RunProgress, unit: 'km' | 'mi', columns: number): string[] {
  const areAllMeasured = weeks.every((week) => isMeasured(week.meters, week.unmeasuredSeconds))
  const rows = weeks.map(({ meters, unmeasuredSeconds, goalPaceShare, ...week }) => {
    const more = isMeasured(meters, unmeasuredSeconds) ? (areAllMeasured ? '' : ' ') : '+'
    return {
      label: weekText(week, columns),
      text: `${distanceOf(meters, unit)}${more}${towardRace === null ? '' : ` ${shareText(goalPaceShare).padStart(5)}`}`,
      segments: [{ value: meters, mark: '=' }],
    }
  })
  const atLeast = areAllMeasured ? '' : ' ("+": and running without a distance)'
  const share = towardRace === null ? '' : '; share of the work within 2 % of goal pace'
  return [...wrapped(`by week from Monday: ${unit}${atLeast}${share}`, columns), ...barLines(rows, columns)]
}

function shareText(share: number | null): string {
  return share === null ? '-' : `${(share * 100).toFixed(0)} %`
}

function lineBlock(
  { line, done }: RunLine,
  { from, to }: RunProgress,
  unit: 'km' | 'mi',
  columns: number,
): string[] {
  const pace = (seconds: number) => formatPace(seconds, unit)
  const points = done.map(({ date, secondsPerKm }) => ({ date, value: secondsPerKm, mark: 'o' }))
  const trend = trendOf(points)
  const lines = trend?.isClear ? [{ from: trend.first, to: trend.last }] : []
  const print = (value: number) => formatClock(paceIn(value, unit))
  const chart = { unit: `/${unit}`, from, to, points, lines, print, isReversed: true }
  const change = (value: number) => signed(paceIn(value, unit), 2)
  const slope = trend?.isClear
    ? [
        `straight line: ${change(trend.perWeek)} (${change(trend.perWeekLow)} to ${change(trend.perWeekHigh)}) s/${unit} a week (${trend.count} days, interval of 95 %)`,
      ]
    : []
  const days = done.map(({ date }) => dayWithin({ from, to }, date))
  const width = Math.max(6, ...days.map((day) => day.length))
  const rows = done.map((each, index) => {
    const even = [
      ...(each.cvPercent === null ? [] : [`CV ${each.cvPercent.toFixed(1)} %`]),
      ...(each.halvesPercent === null ? [] : [`second half ${signed(each.halvesPercent, 1)} %`]),
      ...(each.judged === 0 ? [] : [`${each.inRange} of ${each.judged} in range`]),
    ]
    return [`${(days[index] ?? '').padStart(width)}  ${pace(each.secondsPerKm)}`, ...even].join(', ')
  })
  return [
    ...wrapped(`${plainOf(line)}: mean pace, faster is up`, columns),
    ...chartLines(chart, columns, chartRows),
    ...slope.flatMap((text) => wrapped(text, columns, 2)),
    ...rows.flatMap((row) => wrapped(row, columns, 2)),
  ]
}

function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits)
  return Number(text) === 0 ? text : `${value < 0 ? '-' : '+'}${text}`
}

function moreBlock({ lines }: RunProgress, columns: number): string[] {
  const more = lines.length - mostLines
  if (more <= 0) return []
  return wrapped(`${more} more ${more === 1 ? 'line was' : 'lines were'} run again: --json has them`, columns)
}

/** The most frequently recorded ones, if there are many. */
function bestBlock({ bestSplits }: RunProgress, units: HistoryUnits, columns: number): string[] {
  const often = bestSplits.toSorted((a, b) => b.count - a.count).slice(0, mostDistances)
  const shown = bestSplits.filter((each) => often.includes(each))
  if (shown.length === 0) return []
  const cells = shown.map(({ meters, seconds, secondsPerKm, of, date }) => [
    lengthText(meters, units),
    formatClockShort(seconds),
    ...(columns < narrow ? [] : [formatPace(secondsPerKm, units.distance)]),
    `${of === 'piece' ? 'non-stop' : of}, ${dateText(date)}`,
  ])
  const width = (column: number) => Math.max(...cells.map((row) => (row[column] ?? '').length))
  const widths = [0, 1, 2].map(width)
  return [
    ...wrapped('best recorded splits by distance, of all sessions', columns),
    ...cells.map(
      (row) =>
        `  ${row.map((cell, column) => (column === row.length - 1 ? cell : cell.padStart(widths[column] ?? 0))).join('  ')}`,
    ),
  ]
}

/** What the running says about the goal race: facts, no prediction. */
export function raceBlock(run: RunProgress, units: HistoryUnits, columns: number): string[] {
  const unit = units.distance
  const { towardRace } = run
  if (towardRace === null)
    return wrapped(
      'no session names a goal ("goal: 10 km in 39:30"), so no run is compared with one',
      columns,
    )
  const { goal, daysLeft } = towardRace
  const on = goal.date === null ? '' : ` on ${dateText(goal.date)}`
  const left = daysLeft === null ? '' : `, ${daysText(daysLeft)}`
  const facts = [...raceTexts(towardRace, units), longestText(towardRace, units), distanceText(run, unit)]
  return [
    ...wrapped(
      `toward ${lengthText(goal.meters, units)} in ${formatClock(goal.seconds)} (${formatPace(goal.secondsPerKm, unit)})${on}${left}: facts, no prediction`,
      columns,
    ),
    ...facts.flatMap((fact) => wrapped(fact, columns, 2)),
  ]
}

function daysText(days: number): string {
  if (days === 0) return 'today'
  const count = Math.abs(days)
  return `${counted(count, 'day')} ${days > 0 ? 'left' : 'ago'}`
}

/** The three best of 120 days closest in distance; else the last one, however old. */
function raceTexts({ races, lastRace, goal }: TowardRace, units: HistoryUnits): string[] {
  if (lastRace === null) return ['no race or trial is recorded ("5 km trial", "10 km race")']
  const equal = (name: string, time: EqualTime | null) =>
    time === null
      ? `${name} gives none`
      : `${formatClock(time.seconds)} by ${name}${time.holds ? '' : ' (outside of where it holds)'}`
  const phrase = ({ word, date, meters, seconds, sloping, danielsGilbert, riegel }: RaceDone) => {
    const both = [equal('Daniels & Gilbert', danielsGilbert), equal('Riegel', riegel)].join(', ')
    return `${word}: ${lengthText(meters, units)} in ${formatClock(seconds)} on ${dateText(date)}${sloping ? ', downhill or on a grade' : ''}; an equal performance over ${lengthText(goal.meters, units)}: ${both}`
  }
  return races.length > 0 ? races.map(phrase) : [`last ${phrase(lastRace)}`]
}

function longestText({ longestAtGoalPace: longest }: TowardRace, units: HistoryUnits): string {
  if (longest === null) return 'no continuous running within 2 % of goal pace in these weeks'
  const { meters, secondsPerKm, date } = longest
  return `longest continuous running within 2 % of goal pace in these weeks: ${lengthText(meters, units)} at ${formatPace(secondsPerKm, units.distance)} on ${dateText(date)}`
}

/** The mean of whole weeks; an unfinished week says so. */
function distanceText({ weeks }: RunProgress, unit: 'km' | 'mi'): string {
  const all = mean(weeks.filter(({ isOver }) => isOver).map((week) => week.meters))
  const last = weeks
    .slice(-4)
    .map((week) => `${distanceOf(week.meters, unit)}${week.isOver ? '' : ' so far'}`)
    .join(', ')
  const each = all === null ? '' : `${distanceOf(all, unit)} ${unit} a week; `
  return `distance: ${each}the last weeks: ${last}`
}

/** Metres converted to the unit, with one decimal and without its name. */
export function distanceOf(meters: number, unit: 'km' | 'mi'): string {
  return (meters / metersInPaceUnit[unit]).toFixed(1)
}
