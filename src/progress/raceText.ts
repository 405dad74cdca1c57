import { mean } from '../figures/statistics.ts'
import { wrapped } from '../summary/plain.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import { formatPace, metersInPaceUnit } from '../units/pace.ts'
import { dateText } from './dates.ts'
import type { EqualTime, RunProgress, TowardRace } from './runModel.ts'

/** What the running says about the race that is the goal: facts, no prediction. */
export function raceBlock(run: RunProgress, unit: 'km' | 'mi', columns: number): string[] {
  const { towardRace } = run
  if (towardRace === null)
    return wrapped(
      'no session names a goal ("goal: 10 km in 39:30"): nothing is held against one',
      0,
      columns,
    )
  const { goal, daysLeft } = towardRace
  const on = goal.date === null ? '' : ` on ${dateText(goal.date)}`
  const left = daysLeft === null ? '' : `, ${daysText(daysLeft)}`
  const facts = [lastRaceText(towardRace, unit), longestText(towardRace, unit), distanceText(run, unit)]
  return [
    ...wrapped(
      `toward ${formatMeters(goal.meters, unit)} in ${formatClock(goal.seconds)} (${formatPace(goal.secondsPerKm, unit)})${on}${left}: facts, no prediction`,
      0,
      columns,
    ),
    ...facts.flatMap((fact) => wrapped(fact, 2, columns)),
  ]
}

function daysText(days: number): string {
  if (days === 0) return 'today'
  const count = Math.abs(days)
  return `${count} ${count === 1 ? 'day' : 'days'} ${days > 0 ? 'left' : 'ago'}`
}

function lastRaceText({ lastRace, goal }: TowardRace, unit: 'km' | 'mi'): string {
  if (lastRace === null) return 'no race or trial is recorded ("5 km trial", "10 km race")'
  const { word, date, meters, seconds, danielsGilbert, riegel } = lastRace
  const equal = (name: string, time: EqualTime | null) =>
    time === null
      ? `${name} gives none`
      : `${formatClock(time.seconds)} by ${name}${time.holds ? '' : ' (outside of where it holds)'}`
  const both = [equal('Daniels & Gilbert', danielsGilbert), equal('Riegel', riegel)].join(', ')
  return `last ${word}: ${formatMeters(meters, unit)} in ${formatClock(seconds)} on ${dateText(date)}; an equal performance over ${formatMeters(goal.meters, unit)}: ${both}`
}

function longestText({ longestAtGoalPace: longest }: TowardRace, unit: 'km' | 'mi'): string {
  if (longest === null) return 'no continuous running within 2 % of goal pace in these weeks'
  const { meters, secondsPerKm, date } = longest
  return `longest continuous running within 2 % of goal pace in these weeks: ${formatMeters(meters, unit)} at ${formatPace(secondsPerKm, unit)} on ${dateText(date)}`
}

/** The mean is of whole weeks; one that is not over says so. */
function distanceText({ weeks }: RunProgress, unit: 'km' | 'mi'): string {
  const all = mean(weeks.filter(({ isOver }) => isOver).map((week) => week.meters))
  const last = weeks
    .slice(-4)
    .map((week) => `${distanceOf(week.meters, unit)}${week.isOver ? '' : ' so far'}`)
    .join(', ')
  const each = all === null ? '' : `${distanceOf(all, unit)} ${unit} a week; `
  return `distance: ${each}the last weeks: ${last}`
}

/** Metres in the unit, with one decimal and without its name. */
export function distanceOf(meters: number, unit: 'km' | 'mi'): string {
  return (meters / metersInPaceUnit[unit]).toFixed(1)
}
