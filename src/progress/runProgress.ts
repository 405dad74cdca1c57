import { goalPace, shareAtGoalPace } from '../figures/goal.ts'
import { bestSplitsOf } from './bestSplits.ts'
import { type DoneSession, isIn, type Span } from './doneSession.ts'
import { isoWeeksOf } from './isoWeeks.ts'
import { runLinesOf } from './runLines.ts'
import type { RaceGoal, RunProgress, RunWeek } from './runModel.ts'
import { towardRace } from './towardRace.ts'

/** A session with what was run in it, read once. */
export interface RunSession {
  id: string
  date: string
  figures: DoneSession['running']['figures']
  kinds: DoneSession['running']['kinds']
}

type Pace = { meters: number; secondsPerKm: number }

/** How the running has gone: distance and share at goal pace by week, lines that were run again, the best
 * splits, and the facts toward the race.
 * @param sessions newest first
 * @param goal null without one
 * @param today local date */
export function runProgress(
  sessions: readonly DoneSession[],
  span: Span,
  goal: Omit<RaceGoal, 'secondsPerKm'> | null,
  today: string,
): RunProgress {
  const all = runSessionsOf(sessions, span.to)
  const within = all.filter(({ date }) => isIn(span, date))
  const raceGoal = goal && { ...goal, secondsPerKm: goalPace(goal.meters, goal.seconds) }
  return {
    ...span,
    weeks: runWeeksOf(within, span, raceGoal, today),
    goalPaceShare: shareOf(within, raceGoal),
    lines: runLinesOf(within),
    bestSplits: bestSplitsOf(all),
    towardRace: raceGoal && towardRace(all, within, raceGoal, today),
  }
}

/** Those in which something was run, up to a date. */
function runSessionsOf(sessions: readonly DoneSession[], to: string): RunSession[] {
  return sessions.flatMap((session) => {
    const { id, date } = session
    if (date > to || session.brief.runMeters === 0) return []
    return [{ id, date, ...session.running }]
  })
}

function runWeeksOf(
  within: readonly RunSession[],
  span: Span,
  goal: RaceGoal | null,
  today: string,
): RunWeek[] {
  return isoWeeksOf(span).map(({ week, monday, sunday }) => {
    const those = within.filter(({ date }) => date >= monday && date <= sunday)
    return {
      week,
      monday,
      isOver: sunday <= today,
      sessions: those.length,
      meters: those.reduce((sum, { figures }) => sum + figures.meters, 0),
      goalPaceShare: shareOf(those, goal),
    }
  })
}

function shareOf(sessions: readonly RunSession[], goal: RaceGoal | null): number | null {
  return goal && shareAtGoalPace(sessions.flatMap(pacesOf), goal.secondsPerKm)
}

/** Of every split whose distance and time are known. */
function pacesOf({ figures }: RunSession): Pace[] {
  return figures.items.flatMap((item) =>
    item.splits.flatMap(({ meters, secondsPerKm }) =>
      meters === null || secondsPerKm === null ? [] : [{ meters, secondsPerKm }],
    ),
  )
}
