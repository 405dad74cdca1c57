import { isAtGoalPace } from '../figures/goal.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  isWithinValidity,
  riegelSeconds,
} from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { daysBetween } from './isoWeeks.ts'
import type { EqualTime, RaceGoal, TowardRace } from './runModel.ts'
import type { RunSession } from './runProgress.ts'

/** Three facts toward the race. No time is predicted from training.
 * @param all newest first, for the last race or trial; @param within those of the span
 * Source: Daniels and Gilbert 1979; Riegel 1981; Invented (2 % of goal pace). */
export function towardRace(
  all: readonly RunSession[],
  within: readonly RunSession[],
  goal: RaceGoal,
  today: string,
): TowardRace {
  return {
    goal,
    daysLeft: goal.date === null ? null : daysBetween(today, goal.date),
    lastRace: lastRaceOf(all, goal),
    longestAtGoalPace: longestAtGoalPace(within, goal),
  }
}

function lastRaceOf(sessions: readonly RunSession[], goal: RaceGoal): TowardRace['lastRace'] {
  for (const { id, date, figures, kinds } of sessions) {
    for (const [index, item] of figures.items.entries()) {
      const { word, repeats, gaps } = kinds[index] ?? { word: null, repeats: false, gaps: [] }
      const { meters, seconds } = item
      // With a split that is not known, neither is the race.
      if (repeats || gaps.length > 0 || (word !== 'race' && word !== 'trial') || !meters || !seconds) continue
      return { session: id, date, word, meters, seconds, ...equalTimes(meters, seconds, goal.meters) }
    }
  }
  return null
}

/** Null where an equation refuses so slow, or so fast, a time. */
function equalTimes(
  meters: number,
  seconds: number,
  goalMeters: number,
): { danielsGilbert: EqualTime | null; riegel: EqualTime | null } {
  const time = (method: 'danielsGilbert' | 'riegel', timeOf: () => number): EqualTime | null => {
    try {
      const equal = timeOf()
      return {
        seconds: equal,
        holds: isWithinValidity(method, seconds) && isWithinValidity(method, equal),
      }
    } catch (error) {
      if (error instanceof RangeError) return null
      throw error
    }
  }
  return {
    danielsGilbert: time('danielsGilbert', () =>
      equalPerformanceSeconds(goalMeters, equivalentMaximum(meters, seconds)),
    ),
    riegel: time('riegel', () => riegelSeconds(meters, seconds, goalMeters)),
  }
}

/** Splits of one continuous piece that follow each other, none between them skipped, each within 2 % of goal pace; of equals the latest. */
function longestAtGoalPace(sessions: readonly RunSession[], goal: RaceGoal): TowardRace['longestAtGoalPace'] {
  let longest: TowardRace['longestAtGoalPace'] = null
  for (const { id, date, figures, kinds } of sessions) {
    for (const [index, item] of figures.items.entries()) {
      const kind = kinds[index]
      if (kind?.repeats) continue
      let [meters, seconds] = [0, 0]
      for (const [number, split] of item.splits.entries()) {
        if (kind?.gaps.includes(number)) [meters, seconds] = [0, 0]
        const isNear =
          split.meters !== null &&
          split.seconds !== null &&
          isAtGoalPace(secondsPerKm(split.meters, split.seconds), goal.secondsPerKm)
        meters = isNear ? meters + (split.meters ?? 0) : 0
        seconds = isNear ? seconds + (split.seconds ?? 0) : 0
        if (isNear && meters > (longest?.meters ?? 0))
          longest = { session: id, date, meters, secondsPerKm: secondsPerKm(meters, seconds) }
      }
    }
  }
  return longest
}
