import { groups, sum } from 'd3-array'
import { catalogue, type FigureName } from '../figures/catalogue.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { SetStep } from '../prescription/step.ts'
import { maximumOf } from '../session/load.ts'
import type { Session } from '../session/model.ts'
import { partName } from '../session/names.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { formatClockShort } from '../units/duration.ts'
import { formatMass, massIn } from '../units/mass.ts'
import { bodyMassOf, effortsOf, type SummaryContext } from './estimate.ts'
import { measuredPauses, measuredRests, volumeOf } from './lifting.ts'
import type { Summary } from './model.ts'
import { type DoneExercise, type DoneWork, exercisesDone, worksDone } from './performed.ts'
import { fullSplits, hasHalves, isRace } from './running.ts'
import { partsOfLoad, summaryOf } from './summarise.ts'

/** A figure of a session, worked out: its subject and its steps. */
export interface SessionSteps {
  of: string
  steps: string[]
}

/** A session prepared for the steps: replayed, and with its summary. */
export interface ExplainedSession {
  state: SessionState
  summary: Summary
  context: SummaryContext
}

export function explainedSession(session: Session, context: SummaryContext): ExplainedSession {
  const state = replay(session)
  return { state, summary: summaryOf(state, session.id, context), context }
}

type TimedDistance = { meters: number; seconds: number }

function effortSteps({ state, summary }: ExplainedSession): SessionSteps[] {
  const parts = partsOfLoad(state, summary.parts).map((part) => ({
    name: partName(part),
    effort: part.effort,
    minutes: part.minutes,
  }))
  return parts.length === 0 ? [] : [{ of: 'the session', steps: catalogue['session-load'].work({ parts }) }]
}

function minutesSteps({ summary }: ExplainedSession): SessionSteps[] {
  const parts = summary.parts
    .filter((part) => part.minutes !== null || part.gapMinutes !== null)
    .map((part) => ({ name: partName(part), minutes: part.minutes, gapMinutes: part.gapMinutes }))
  return parts.length === 0 ? [] : [{ of: 'the session', steps: catalogue.minutes.work({ parts }) }]
}

function mealSteps({ summary }: ExplainedSession): SessionSteps[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const meal = summary.fuel[when]
    return meal === null || meal.atwaterKcal === null
      ? []
      : [{ of: `what was eaten ${when}`, steps: catalogue['meal-energy'].work(meal) }]
  })
}

function runningEnergySteps({ state, summary, context }: ExplainedSession): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  if (summary.fuel.runningKcal === null || bodyKg === null) return []
  const steps = catalogue['running-energy'].work({ bodyKg, meters: summary.running.meters })
  return [{ of: 'the running', steps }]
}

/** The estimate of each exercise: the most informative set, then all sets together. */
function estimateSteps(
  { state, summary, context }: ExplainedSession,
  kind: 'set' | 'cluster' | 'session',
): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  return exercisesDone(state).flatMap((exercise) => {
    const maximum = oneRepMaxOf(summary, exercise)
    const taken = effortsOf(exercise.sets, bodyKg, context.equation)
    const found = taken.find(({ set }) => set.number === maximum?.fromSet)
    if (!maximum || !found || (kind === 'cluster' && !maximum.cluster)) return []
    const from = found.effort
    const sets = taken.map(({ set, effort }) => ({ ...effort, number: set.number }))
    const together = catalogue['session-maximum'].work({ sets })
    // The steps are in kilograms, the summary in the unit of the set.
    const pounds = found.set.result.load?.unit === 'lb' ? [`in pounds: ${poundsText(maximum.kg)}`] : []
    const ofSet =
      'groups' in from ? catalogue['cluster-one-rep-max'].work(from) : catalogue['one-rep-max'].work(from)
    const marks = [maximum.cluster ? 'a cluster set' : '', maximum.afterRun ? 'after a run' : '']
    const marked = marks.some(Boolean) ? ` (${marks.filter(Boolean).join(', ')})` : ''
    if (kind === 'session') return [{ of: `${exercise.name}${marked}`, steps: [...together, ...pounds] }]
    const of = `${exercise.name}, set ${maximum.fromSet} of ${exercise.sets.length}${marked}`
    const all = sets.length > 1 ? [...ofSet, 'all sets together:', ...together] : ofSet
    return [{ of, steps: [...all, ...pounds] }]
  })
}

function poundsText(kg: number): string {
  return formatMass({ value: massIn({ value: kg, unit: 'kg' }, 'lb'), unit: 'lb' })
}

function oneRepMaxOf(summary: ExplainedSession['summary'], { name }: DoneExercise) {
  return summary.lifting.exercises.find((each) => each.name === name)?.oneRepMax ?? null
}

/** The reserve of each set with a typed effort, or with a failure. */
function reserveSteps({ state, context }: ExplainedSession): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  return exercisesDone(state).map(({ name, sets }) => ({
    of: name,
    steps: effortsOf(sets, bodyKg, context.equation).flatMap(({ set, effort }) =>
      catalogue['repetitions-in-reserve'].work(effort).map((step) => `set ${set.number}: ${step}`),
    ),
  }))
}

function tonnageSteps({ state }: ExplainedSession): SessionSteps[] {
  return exercisesDone(state).map(({ name, sets }) => ({
    of: name,
    steps: catalogue.tonnage.work({ sets: sets.map(volumeOf) }),
  }))
}

function topSetSteps({ state }: ExplainedSession): SessionSteps[] {
  return exercisesDone(state).flatMap(({ name, sets }) => {
    const lifted = sets.filter(({ result }) => result.reps !== 0)
    const loads = lifted.map(({ kg, result }) => ({ kg, reps: result.reps }))
    return lifted.length === 0 ? [] : [{ of: name, steps: catalogue['top-set'].work({ sets: loads }) }]
  })
}

/** The rests and pauses as the clock measured them. */
function restSteps({ state, summary }: ExplainedSession): SessionSteps[] {
  return exercisesDone(state).flatMap(({ name, sets }) => {
    const exercise = summary.lifting.exercises.find((each) => each.name === name)
    const of = (what: string, seconds: number[], prescribedSeconds: number | null) => ({
      of: `${name}, ${what}`,
      steps: catalogue['rest-taken'].work({ seconds, prescribedSeconds }),
    })
    const { rests, pauses } = exercise ?? { rests: null, pauses: null }
    const paced = pauses?.paced ? 'pauses, set by the clock' : 'pauses'
    return [
      ...(rests ? [of('rests', measuredRests(sets, state), rests.prescribedSeconds)] : []),
      ...(pauses ? [of(paced, measuredPauses(sets, state), pauses.prescribedSeconds)] : []),
    ]
  })
}

/** The loads prescribed as a percentage, each once. */
function percentSteps({ state }: ExplainedSession): SessionSteps[] {
  const seen = new Set<string>()
  const unit = state.prescription.units.mass
  return state.steps
    .filter((step): step is SetStep => step.kind === 'set')
    .flatMap((step) => {
      const maximum = maximumOf(state, step.name)
      if (step.load?.kind !== 'percent' || maximum === null) return []
      const percent = step.load.from
      const key = `${exerciseKey(step.name)} ${percent}`
      if (seen.has(key)) return []
      seen.add(key)
      const steps = catalogue['percent-load'].work({ maximumKg: maximum.kg, percent, unit })
      return [{ of: `${step.name} (${maximum.basis})`, steps }]
    })
}

/** The works of all run and cross parts of which something was recorded. */
function recordedWorks({ state }: ExplainedSession): DoneWork[] {
  return [...worksDone(state, 'run'), ...worksDone(state, 'cross')].filter((work) => work.splits.length > 0)
}

/** A figure of the splits of each work with at least this many of them. */
function splitSteps<Split>(
  session: ExplainedSession,
  splitsOf: (done: DoneWork) => Split[],
  least: number,
  work: (inputs: { splits: Split[] }) => string[],
): SessionSteps[] {
  return recordedWorks(session).flatMap((done) => {
    const splits = splitsOf(done)
    return splits.length < least ? [] : [{ of: done.work.text, steps: work({ splits }) }]
  })
}

/** The splits with a distance and a time. */
function measuredSplits(done: DoneWork): TimedDistance[] {
  return done.splits.flatMap(({ result: { meters, seconds } }) =>
    meters === null || seconds === null ? [] : [{ meters, seconds }],
  )
}

function splitsWithHalves(done: DoneWork): TimedDistance[] {
  return hasHalves(done) ? measuredSplits(done) : []
}

/** Compares each work with its range; splits with different ranges (of different lengths) are listed separately. */
function rangeSteps(session: ExplainedSession): SessionSteps[] {
  return recordedWorks(session).flatMap((done) => {
    const judged = done.splits.flatMap(({ range, target, result }) =>
      range === null || target === null
        ? []
        : [{ range, seconds: result.seconds ?? 0, precision: result.precision ?? 1 }],
    )
    return groups(judged, ({ range }) => `${range.from} ${range.to}`).map(([, splits]) => ({
      of: done.work.text,
      steps: catalogue['in-range'].work({ target: splits[0]!.range, splits }),
    }))
  })
}

function goalSteps({ summary }: ExplainedSession): SessionSteps[] {
  const { goal } = summary.running
  return goal === null ? [] : [{ of: 'the goal of the day', steps: catalogue['goal-pace'].work(goal) }]
}

/** Each work that is compared with the goal's pace. */
function offGoalSteps({ summary }: ExplainedSession): SessionSteps[] {
  const { goal, items } = summary.running
  return items.flatMap(({ text, secondsPerKm, offGoalSecondsPerKm }) =>
    goal === null || secondsPerKm === null || offGoalSecondsPerKm === null
      ? []
      : [{ of: text, steps: catalogue['off-goal'].work({ pace: secondsPerKm, goal: goal.secondsPerKm }) }],
  )
}

/** The share of all level running that has both a distance and a time. */
function goalShareSteps(session: ExplainedSession): SessionSteps[] {
  const { goal } = session.summary.running
  const intervals = worksDone(session.state, 'run').flatMap((done) =>
    done.splits.flatMap(({ step, result: { meters, seconds } }) =>
      meters === null || seconds === null || Math.abs(step.grade ?? 0) > 1
        ? []
        : [{ meters, secondsPerKm: (seconds / meters) * 1000 }],
    ),
  )
  if (goal === null || intervals.length === 0) return []
  return [
    {
      of: 'all running with a time',
      steps: catalogue['goal-share'].work({ intervals, goal: goal.secondsPerKm }),
    },
  ]
}

function distanceSteps({ summary }: ExplainedSession): SessionSteps[] {
  return (['running', 'cross'] as const).flatMap((kind) => {
    const { meters, workMeters } = summary[kind]
    const steps = catalogue['distance-run'].work({ workMeters, recoveryMeters: meters - workMeters })
    return meters === 0 ? [] : [{ of: kind === 'running' ? 'running' : 'other parts like it', steps }]
  })
}

/** A figure of each race or time trial that was recorded from end to end. */
function raceSteps(session: ExplainedSession, work: (race: TimedDistance) => string[]): SessionSteps[] {
  return worksDone(session.state, 'run').flatMap((done) => {
    const splits = measuredSplits(done)
    if (!isRace(done) || splits.length === 0 || splits.length < done.steps.length) return []
    const race = {
      meters: sum(splits, ({ meters }) => meters),
      seconds: sum(splits, ({ seconds }) => seconds),
    }
    return [{ of: `${done.work.text} in ${formatClockShort(race.seconds)}`, steps: work(race) }]
  })
}

/** How each figure of one session is worked out with that session's numbers. */
const ofSession: Partial<Record<FigureName, (session: ExplainedSession) => SessionSteps[]>> = {
  'one-rep-max': (session) => estimateSteps(session, 'set'),
  'session-maximum': (session) => estimateSteps(session, 'session'),
  'cluster-one-rep-max': (session) => estimateSteps(session, 'cluster'),
  'repetitions-in-reserve': reserveSteps,
  tonnage: tonnageSteps,
  'top-set': topSetSteps,
  'rest-taken': restSteps,
  'percent-load': percentSteps,
  pace: (session) => splitSteps(session, measuredSplits, 1, catalogue.pace.work),
  halves: (session) => splitSteps(session, splitsWithHalves, 2, catalogue.halves.work),
  'split-mean': (session) => splitSteps(session, fullSplits, 2, catalogue['split-mean'].work),
  'split-deviation': (session) => splitSteps(session, fullSplits, 2, catalogue['split-deviation'].work),
  variation: (session) => splitSteps(session, fullSplits, 2, catalogue.variation.work),
  'split-range': (session) => splitSteps(session, fullSplits, 2, catalogue['split-range'].work),
  fade: (session) => splitSteps(session, fullSplits, 3, catalogue.fade.work),
  'in-range': rangeSteps,
  'goal-pace': goalSteps,
  'off-goal': offGoalSteps,
  'goal-share': goalShareSteps,
  'distance-run': distanceSteps,
  'equal-performance': (session) => raceSteps(session, toGoal(session, catalogue['equal-performance'].work)),
  riegel: (session) => raceSteps(session, toGoal(session, catalogue.riegel.work)),
  'session-load': effortSteps,
  minutes: minutesSteps,
  'meal-energy': mealSteps,
  'running-energy': runningEnergySteps,
}

/** At the goal's distance; over 10 km if the day has no goal. */
function toGoal(
  session: ExplainedSession,
  work: (race: TimedDistance & { otherMeters: number }) => string[],
) {
  const otherMeters = session.summary.running.goal?.meters ?? 10_000
  return (race: TimedDistance) => work({ ...race, otherMeters })
}

/** The figures that a session has, depending on what was done. */
export const sessionFigures = Object.keys(ofSession) as FigureName[]

/** A figure worked out with a session's numbers, once for each subject; empty if the session
 * has none, null for a figure that needs several sessions. */
export function sessionSteps(name: FigureName, session: ExplainedSession): SessionSteps[] | null {
  return ofSession[name]?.(session) ?? null
}
