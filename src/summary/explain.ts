import { groups, sum } from 'd3-array'
import { catalogue, type FigureName } from '../figures/catalogue.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { partName } from '../prescription/print.ts'
import { isSet } from '../prescription/step.ts'
import { maximumOf } from '../session/load.ts'
import { formatClockShort } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { formatMass, kilogramsIn } from '../units/mass.ts'
import {
  type ExerciseView,
  effortsOf,
  lifted,
  measuredPauses,
  measuredRests,
  setsForTop,
  volumeOf,
} from './lifting.ts'
import type { DoneWork } from './performed.ts'
import { fullSplits, hasBoth, hasHalves, isRace } from './running.ts'
import { partsOfLoad, type SessionFigures } from './summarise.ts'

/** A figure of a session, worked out: its subject and its steps. */
export interface SessionSteps {
  of: string
  steps: string[]
}

/** Works a figure out for each subject of a session that has it. */
type Work = (session: SessionFigures) => SessionSteps[]

type TimedDistance = { meters: number; seconds: number }

/** A figure of the session as a whole; null if it has none. */
function whole(of: string, work: (session: SessionFigures) => string[] | null): Work {
  return (session) => {
    const steps = work(session)
    return steps === null ? [] : [{ of, steps }]
  }
}

/** A figure of each lifted exercise; null for one without it. */
function eachLift(work: (lift: ExerciseView, session: SessionFigures) => string[] | null): Work {
  return (session) =>
    lifted(session.exercises).flatMap((lift) => {
      const steps = work(lift, session)
      return steps === null ? [] : [{ of: lift.exercise.name, steps }]
    })
}

/** A figure of the splits of each work with at least this many of them. */
function eachWork<Split>(
  splitsOf: (done: DoneWork) => Split[],
  least: number,
  work: (inputs: { splits: Split[] }) => string[],
): Work {
  return ({ works }) =>
    [...works.run, ...works.cross].flatMap(({ done }) => {
      const splits = splitsOf(done)
      return splits.length < least ? [] : [{ of: done.work.text, steps: work({ splits }) }]
    })
}

/** A figure of each race or time trial that was recorded from end to end. */
function eachRace(work: (race: TimedDistance & { otherMeters: number }) => string[]): Work {
  return ({ works, summary }) =>
    works.run.flatMap(({ done }) => {
      const splits = measuredSplits(done)
      if (!isRace(done) || splits.length === 0 || splits.length < done.steps.length) return []
      const meters = sum(splits, (split) => split.meters)
      const seconds = sum(splits, (split) => split.seconds)
      // At the goal's distance; over 10 km if the day has no goal.
      const otherMeters = summary.running.goal?.meters ?? 10_000
      const steps = work({ meters, seconds, otherMeters })
      return [{ of: `${done.work.text} in ${formatClockShort(seconds)}`, steps }]
    })
}

/** The splits with a distance and a time. */
function measuredSplits(done: DoneWork): TimedDistance[] {
  return done.splits.flatMap(({ result }) =>
    hasBoth(result) ? [{ meters: result.meters, seconds: result.seconds }] : [],
  )
}

/** The estimate of each exercise: the most informative set, then all sets together. */
function estimates(kind: 'set' | 'cluster' | 'session'): Work {
  return (session) => lifted(session.exercises).flatMap((lift) => estimateOf(kind, lift, session))
}

function estimateOf(
  kind: 'set' | 'cluster' | 'session',
  { exercise: { name, sets: all }, figures: { oneRepMax } }: ExerciseView,
  { context, bodyKg }: SessionFigures,
): SessionSteps[] {
  const taken = effortsOf(all, bodyKg, context.equation)
  const found = taken.find(({ set }) => set.number === oneRepMax?.fromSet)
  if (!oneRepMax || !found || (kind === 'cluster' && !oneRepMax.cluster)) return []
  const { cluster, afterRun, fromSet, kg } = oneRepMax
  const marks = joined(', ', [cluster && 'a cluster set', afterRun && 'after a run'])
  const of = (subject: string) => (marks === '' ? subject : `${subject} (${marks})`)
  // The steps are in kilograms, the summary in the unit of the set.
  const pounds = found.set.result.load?.unit === 'lb' ? [`in pounds: ${poundsText(kg)}`] : []
  const sets = taken.map(({ set, effort }) => ({ ...effort, number: set.number }))
  const together = [...catalogue['session-maximum'].work({ sets }), ...pounds]
  if (kind === 'session') return [{ of: of(name), steps: together }]
  const steps = effortSteps(found.effort)
  steps.push(...(sets.length > 1 ? ['all sets together:', ...together] : pounds))
  return [{ of: of(`${name}, set ${fromSet} of ${all.length}`), steps }]
}

function effortSteps(effort: ReturnType<typeof effortsOf>[number]['effort']): string[] {
  return 'groups' in effort
    ? catalogue['cluster-one-rep-max'].work(effort)
    : catalogue['one-rep-max'].work(effort)
}

function poundsText(kg: number): string {
  return formatMass({ value: kilogramsIn(kg, 'lb'), unit: 'lb' })
}

/** The rests and pauses as the clock measured them. */
function restSteps({ exercises, state }: SessionFigures): SessionSteps[] {
  return lifted(exercises).flatMap(({ exercise: { name, sets }, figures: { rests, pauses } }) => {
    const of = (what: string, seconds: number[], prescribedSeconds: number | null) => ({
      of: `${name}, ${what}`,
      steps: catalogue['rest-taken'].work({ seconds, prescribedSeconds }),
    })
    const paced = pauses?.paced ? 'pauses, set by the clock' : 'pauses'
    return [
      ...(rests ? [of('rests', measuredRests(sets, state), rests.prescribedSeconds)] : []),
      ...(pauses ? [of(paced, measuredPauses(sets, state), pauses.prescribedSeconds)] : []),
    ]
  })
}

/** The loads prescribed as a percentage, each once. */
function percentSteps({ state }: SessionFigures): SessionSteps[] {
  const loads = state.steps.filter(isSet).flatMap(({ name, load }) => {
    const maximum = maximumOf(state, name)
    return load?.kind !== 'percent' || maximum === null ? [] : [{ name, percent: load.from, maximum }]
  })
  const unit = state.prescription.units.mass
  return groups(loads, ({ name, percent }) => `${exerciseKey(name)} ${percent}`).map(([, [first]]) => {
    const { name, percent, maximum } = first!
    const steps = catalogue['percent-load'].work({ maximumKg: maximum.kg, percent, unit })
    return { of: `${name} (${maximum.basis})`, steps }
  })
}

/** Compares each work with its range; splits with different ranges (of different lengths) are listed separately. */
function rangeSteps({ works }: SessionFigures): SessionSteps[] {
  return [...works.run, ...works.cross].flatMap(({ done }) => {
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

/** Each work that is compared with the goal's pace. */
function offGoalSteps({ summary }: SessionFigures): SessionSteps[] {
  const { goal, items } = summary.running
  return items.flatMap(({ text, secondsPerKm: pace, offGoalSecondsPerKm }) =>
    goal === null || pace === null || offGoalSecondsPerKm === null
      ? []
      : [{ of: text, steps: catalogue['off-goal'].work({ pace, goal: goal.secondsPerKm }) }],
  )
}

/** The share of all level running that has both a distance and a time. */
function goalShareSteps({ works, summary }: SessionFigures): string[] | null {
  const { goal } = summary.running
  const level = works.run.flatMap(({ done }) =>
    done.splits.filter(({ step }) => Math.abs(step.grade ?? 0) <= 1),
  )
  const intervals = level.flatMap(({ result }) =>
    hasBoth(result)
      ? [{ meters: result.meters, secondsPerKm: secondsPerKm(result.meters, result.seconds) }]
      : [],
  )
  if (goal === null || intervals.length === 0) return null
  return catalogue['goal-share'].work({ intervals, goal: goal.secondsPerKm })
}

/** How each figure of one session is worked out with that session's numbers. */
const ofSession: Partial<Record<FigureName, Work>> = {
  'one-rep-max': estimates('set'),
  'session-maximum': estimates('session'),
  'cluster-one-rep-max': estimates('cluster'),
  // Of each set with a typed effort, or with a failure.
  'repetitions-in-reserve': eachLift(({ exercise }, { bodyKg, context }) =>
    effortsOf(exercise.sets, bodyKg, context.equation).flatMap(({ set, effort }) =>
      catalogue['repetitions-in-reserve'].work(effort).map((step) => `set ${set.number}: ${step}`),
    ),
  ),
  tonnage: eachLift(({ exercise }) => catalogue.tonnage.work({ sets: exercise.sets.map(volumeOf) })),
  'top-set': eachLift(({ exercise }) => {
    const sets = setsForTop(exercise.sets)
    return sets.length === 0 ? null : catalogue['top-set'].work({ sets })
  }),
  'rest-taken': restSteps,
  'percent-load': percentSteps,
  pace: eachWork(measuredSplits, 1, catalogue.pace.work),
  halves: eachWork((done) => (hasHalves(done) ? measuredSplits(done) : []), 2, catalogue.halves.work),
  'split-mean': eachWork(fullSplits, 2, catalogue['split-mean'].work),
  'split-deviation': eachWork(fullSplits, 2, catalogue['split-deviation'].work),
  variation: eachWork(fullSplits, 2, catalogue.variation.work),
  'split-range': eachWork(fullSplits, 2, catalogue['split-range'].work),
  fade: eachWork(fullSplits, 3, catalogue.fade.work),
  'in-range': rangeSteps,
  'goal-pace': whole('the goal of the day', ({ summary: { running } }) =>
    running.goal === null ? null : catalogue['goal-pace'].work(running.goal),
  ),
  'off-goal': offGoalSteps,
  'goal-share': whole('all running with a time', goalShareSteps),
  'distance-run': ({ summary }) =>
    (['running', 'cross'] as const).flatMap((kind) => {
      const { meters, workMeters } = summary[kind]
      const steps = catalogue['distance-run'].work({ workMeters, recoveryMeters: meters - workMeters })
      return meters === 0 ? [] : [{ of: kind === 'running' ? 'running' : 'other parts like it', steps }]
    }),
  'equal-performance': eachRace(catalogue['equal-performance'].work),
  riegel: eachRace(catalogue.riegel.work),
  'session-load': whole('the session', ({ state, summary }) => {
    const parts = partsOfLoad(state, summary.parts).map((part) => ({ ...part, name: partName(part) }))
    return parts.length === 0 ? null : catalogue['session-load'].work({ parts })
  }),
  minutes: whole('the session', ({ summary }) => {
    const parts = summary.parts
      .filter((part) => part.minutes !== null || part.gapMinutes !== null)
      .map((part) => ({ ...part, name: partName(part) }))
    return parts.length === 0 ? null : catalogue.minutes.work({ parts })
  }),
  'meal-energy': ({ summary: { fuel } }) =>
    (['before', 'between', 'after'] as const).flatMap((when) => {
      const meal = fuel[when]
      return meal === null || meal.atwaterKcal === null
        ? []
        : [{ of: `what was eaten ${when}`, steps: catalogue['meal-energy'].work(meal) }]
    }),
  'running-energy': whole('the running', ({ summary: { fuel, running }, bodyKg }) =>
    fuel.runningKcal === null || bodyKg === null
      ? null
      : catalogue['running-energy'].work({ bodyKg, meters: running.meters }),
  ),
}

/** The figures that a session has, depending on what was done. */
export const sessionFigures = Object.keys(ofSession) as FigureName[]

/** A figure worked out with a session's numbers, once for each subject; empty if the session
 * has none, null for a figure that needs several sessions. */
export function sessionSteps(name: FigureName, session: SessionFigures): SessionSteps[] | null {
  return ofSession[name]?.(session) ?? null
}
