import { catalogue, type FigureName } from '../../figures/catalogue.ts'
import { effortSteps, mealSteps, minutesSteps, runningEnergySteps } from './day.ts'
import { estimateSteps, percentSteps, reserveSteps, restSteps, tonnageSteps, topSetSteps } from './lifts.ts'
import {
  distanceSteps,
  goalShareSteps,
  goalSteps,
  measuredSteps,
  offGoalSteps,
  raceSteps,
  rangeSteps,
  splitSteps,
} from './runs.ts'
import type { ExplainedSession, SessionSteps } from './steps.ts'

/** How each figure of one session is worked out with that session's numbers. */
const ofSession: Partial<Record<FigureName, (session: ExplainedSession) => SessionSteps[]>> = {
  'one-rep-max': (session) => estimateSteps(session, 'any'),
  'cluster-one-rep-max': (session) => estimateSteps(session, 'cluster'),
  'repetitions-in-reserve': reserveSteps,
  tonnage: tonnageSteps,
  'top-set': topSetSteps,
  'rest-taken': restSteps,
  'percent-load': percentSteps,
  pace: (session) => measuredSteps(session, 1, catalogue.pace.work),
  halves: (session) => measuredSteps(session, 2, catalogue.halves.work),
  'split-mean': (session) => splitSteps(session, 2, catalogue['split-mean'].work),
  'split-deviation': (session) => splitSteps(session, 2, catalogue['split-deviation'].work),
  variation: (session) => splitSteps(session, 2, catalogue.variation.work),
  'split-range': (session) => splitSteps(session, 2, catalogue['split-range'].work),
  fade: (session) => splitSteps(session, 3, catalogue.fade.work),
  'in-range': rangeSteps,
  'goal-pace': goalSteps,
  'off-goal': offGoalSteps,
  'goal-share': goalShareSteps,
  'distance-run': distanceSteps,
  'equivalent-vo2max': (session) => raceSteps(session, catalogue['equivalent-vo2max'].work),
  'equal-performance': (session) => raceSteps(session, toGoal(session, catalogue['equal-performance'].work)),
  riegel: (session) => raceSteps(session, toGoal(session, catalogue.riegel.work)),
  'training-paces': (session) => raceSteps(session, catalogue['training-paces'].work),
  'effort-minutes': effortSteps,
  minutes: minutesSteps,
  'meal-energy': mealSteps,
  'running-energy': runningEnergySteps,
}

type Race = { meters: number; seconds: number }

/** At the goal's distance; over 10 km where the day has no goal. */
function toGoal(session: ExplainedSession, work: (race: Race & { otherMeters: number }) => string[]) {
  const otherMeters = session.summary.running.goal?.meters ?? 10_000
  return (race: Race) => work({ ...race, otherMeters })
}

/** The figures that a session has, as far as it was done. */
export const sessionFigures = Object.keys(ofSession) as FigureName[]

/** A figure worked out with a session's numbers, once for each thing that it is of; empty where the session
 * has none, null for a figure that is not one of a single session. */
export function sessionSteps(name: FigureName, session: ExplainedSession): SessionSteps[] | null {
  return ofSession[name]?.(session) ?? null
}
