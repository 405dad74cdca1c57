import { groups, sort } from 'd3-array'
import { type EqualTime, equalTime, type RaceMethod } from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { isRaceWord } from '../prescription/words.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { formatClock, formatPace, offGoalText } from '../units/duration.ts'
import { printLength, raceLength } from '../units/length.ts'
import { type HistoryUnits, lengthText } from './history.ts'
import { isSloping, isWhole, type RunOn } from './runForm.ts'
import { dateText } from './weeks.ts'

export interface RaceGoal {
  meters: number
  seconds: number
  /** Local date of the race; null if unknown. */
  date: string | null
}

export type RaceDone = ReturnType<typeof racesOf>[number]
export type TowardRace = ReturnType<typeof towardRace>

/** Facts about the race. Training predicts no time.
 * @param runs newest first
 * Source: Daniels and Gilbert 1979; Riegel 1981. */
export function towardRace(runs: readonly RunOn[], goal: RaceGoal, today: string) {
  const races = racesOf(runs, goal.meters)
  return {
    goal: { ...goal, secondsPerKm: secondsPerKm(goal.meters, goal.seconds) },
    // Negative after the race.
    daysLeft: goal.date === null ? null : daysBetween(today, goal.date),
    lastRace: races[0] ?? null,
    races: nearestRaces(races, goal, today),
  }
}

/** The races and trials, newest first, with the results of both equations at the goal's distance; null where a time is
 * too slow, or too fast, for the equation. */
function racesOf(runs: readonly RunOn[], goalMeters: number) {
  return runs.filter(isWhole).flatMap(({ session, date, word, meters, seconds, text }) => {
    if (!isRaceWord(word)) return []
    const equal = (method: RaceMethod) => equalTimeOrNull(method, meters, seconds, goalMeters)
    const equals = { danielsGilbert: equal('danielsGilbert'), riegel: equal('riegel') }
    return [{ session, date, word, meters, seconds, sloping: isSloping(text), ...equals }]
  })
}

function equalTimeOrNull(...given: Parameters<typeof equalTime>): EqualTime | null {
  try {
    return equalTime(...given)
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

const raceDays = 120
const mostRaces = 3

/** The goal's own race, then the best over each distance, level ones before those with a slope. */
function nearestRaces(races: readonly RaceDone[], goal: RaceGoal, today: string): RaceDone[] {
  const recent = races.filter(({ date }) => daysBetween(date, today) <= raceDays)
  const best = groups(recent, ({ meters }) => Math.round(meters)).map(
    ([, alike]) =>
      sort(
        alike,
        ({ sloping }) => Number(sloping),
        ({ seconds }) => seconds,
      )[0]!,
  )
  const off = ({ meters }: RaceDone) => Math.abs(Math.log(meters / goal.meters))
  const own = recent.filter((race) => race.date === goal.date && off(race) < 0.001)
  const nearest = sort(best, ({ sloping }) => Number(sloping), off)
  return [...new Set([...own, ...nearest])].slice(0, mostRaces)
}

/** What the running says about the goal race: facts, no prediction. */
export function raceBlock(toward: TowardRace | null, units: HistoryUnits): string[] {
  if (toward === null)
    return ['no session names a goal ("goal: 10 km in 39:30"), so no run is compared with one']
  const { goal, daysLeft } = toward
  const on = goal.date === null ? '' : ` on ${dateText(goal.date)}`
  const left = daysLeft === null ? '' : `, ${daysText(daysLeft)}`
  return [
    `toward ${raceName(goal.meters, units)} in ${formatClock(goal.seconds)} (${formatPace(goal.secondsPerKm, units.distance)})${on}${left}: facts, no prediction`,
    ...raceTexts(toward, units).map((fact) => `  ${fact}`),
  ]
}

/** A race keeps its name (10 km, half marathon) even for those who think in miles, unless `--units` asks
 * otherwise. */
function raceName(meters: number, units: HistoryUnits): string {
  const length = raceLength(meters)
  return units.convert || length.unit === 'm' ? lengthText(meters, units) : printLength(length)
}

function daysText(days: number): string {
  if (days === 0) return 'today'
  return `${counted(Math.abs(days), 'day')} ${days > 0 ? 'left' : 'ago'}`
}

/** The three best of 120 days closest in distance; else the last one, however old. */
function raceTexts({ races, lastRace, goal }: TowardRace, units: HistoryUnits): string[] {
  if (lastRace === null) return ['no race or trial is recorded ("5 km trial", "10 km race")']
  const equal = (name: string, time: EqualTime | null) =>
    time === null
      ? `${name} gives no time`
      : `${formatClock(time.seconds)} by ${name}${time.holds ? '' : ' (outside the range where it holds)'}`
  const phrase = ({ word, date, meters, seconds, sloping, danielsGilbert, riegel }: RaceDone) => {
    const both = [equal('Daniels & Gilbert', danielsGilbert), equal('Riegel', riegel)].join(', ')
    const means =
      Math.abs(meters - goal.meters) < 1
        ? `, ${offGoalText(seconds - goal.seconds)}`
        : `; an equal performance over ${raceName(goal.meters, units).replace(/^(?=half|marathon)/, 'the ')}: ${both}`
    return `${word}: ${raceName(meters, units)} in ${formatClock(seconds)} on ${dateText(date)}${sloping ? ', downhill or on a grade' : ''}${means}`
  }
  return races.length > 0 ? races.map(phrase) : [`last ${phrase(lastRace)}`]
}
