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

type InputsOf<Name extends FigureName> = Parameters<(typeof catalogue)[Name]['work']>[0]

/** The subjects of a session, each with what a figure is worked out from; null for one without the figure. */
type Find<Inputs> = (session: SessionFigures) => [of: string, inputs: Inputs | null][]

type TimedDistance = { meters: number; seconds: number }

/** A figure of the splits of each work with at least this many of them. */
function eachWork<Split>(splitsOf: (done: DoneWork) => Split[], least: number): Find<{ splits: Split[] }> {
  return ({ works }) =>
    [...works.run, ...works.cross].map(({ done }) => {
      const splits = splitsOf(done)
      return [done.work.text, splits.length < least ? null : { splits }]
    })
}

/** Each race or time trial that was recorded from start to finish, and the goal's distance; 10 km if the day has no
 * goal. */
const races: Find<TimedDistance & { otherMeters: number }> = ({ works, summary }) =>
  works.run.flatMap(({ done }) => {
    const splits = measuredSplits(done)
    if (!isRace(done) || splits.length === 0 || splits.length < done.steps.length) return []
    const meters = sum(splits, (split) => split.meters)
    const seconds = sum(splits, (split) => split.seconds)
    const otherMeters = summary.running.goal?.meters ?? 10_000
    return [[`${done.work.text} in ${formatClockShort(seconds)}`, { meters, seconds, otherMeters }]]
  })

/** The splits with a distance and a time. */
function measuredSplits(done: DoneWork): TimedDistance[] {
  return done.splits.flatMap(({ result }) =>
    hasBoth(result) ? [{ meters: result.meters, seconds: result.seconds }] : [],
  )
}

/** The estimate of each exercise: the most informative set, then all sets together. */
function estimates(kind: 'set' | 'cluster' | 'session') {
  return (session: SessionFigures) =>
    lifted(session.exercises).flatMap((lift) => estimateOf(kind, lift, session))
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

/** Figures that are worked out in several steps of their own. */
const stepsOf: Partial<Record<FigureName, (session: SessionFigures) => SessionSteps[]>> = {
  'one-rep-max': estimates('set'),
  'session-maximum': estimates('session'),
  'cluster-one-rep-max': estimates('cluster'),
  'repetitions-in-reserve': ({ exercises, bodyKg, context }) =>
    lifted(exercises).map(({ exercise: { name, sets } }) => ({
      of: name,
      steps: effortsOf(sets, bodyKg, context.equation).flatMap(({ set, effort }) =>
        catalogue['repetitions-in-reserve'].work(effort).map((step) => `set ${set.number}: ${step}`),
      ),
    })),
}

/** The rests and pauses as the clock measured them. */
const rests: Find<InputsOf<'rest-taken'>> = ({ exercises, state }) =>
  lifted(exercises).flatMap(({ exercise: { name, sets }, figures: { rests, pauses } }) => [
    [`${name}, rests`, rests && { ...rests, seconds: measuredRests(sets, state) }],
    [
      `${name}, pauses${pauses?.paced ? ', set by the clock' : ''}`,
      pauses && { ...pauses, seconds: measuredPauses(sets, state) },
    ],
  ])

/** The loads prescribed as a percentage, each once. */
const percentages: Find<InputsOf<'percent-load'>> = ({ state }) => {
  const loads = state.steps.filter(isSet).flatMap(({ name, load }) => {
    const maximum = maximumOf(state, name)
    return load?.kind !== 'percent' || maximum === null ? [] : [{ name, percent: load.from, maximum }]
  })
  const unit = state.prescription.units.mass
  return groups(loads, ({ name, percent }) => `${exerciseKey(name)} ${percent}`).map(([, [first]]) => {
    const { name, percent, maximum } = first!
    return [`${name} (${maximum.basis})`, { maximumKg: maximum.kg, percent, unit }]
  })
}

/** Compares each work with its range; splits with different ranges (of different lengths) are listed separately. */
const ranges: Find<InputsOf<'in-range'>> = ({ works }) =>
  [...works.run, ...works.cross].flatMap(({ done }) => {
    const judged = done.splits.flatMap(({ range, target, result }) =>
      range === null || target === null
        ? []
        : [{ range, seconds: result.seconds ?? 0, precision: result.precision ?? 1 }],
    )
    return groups(judged, ({ range }) => `${range.from} ${range.to}`).map(
      ([, splits]): [string, InputsOf<'in-range'>] => [done.work.text, { target: splits[0]!.range, splits }],
    )
  })

/** The share of all level running that has both a distance and a time. */
const shareAtGoal: Find<InputsOf<'goal-share'>> = ({ works, summary }) => {
  const { goal } = summary.running
  const level = works.run.flatMap(({ done }) =>
    done.splits.filter(({ step }) => Math.abs(step.grade ?? 0) <= 1),
  )
  const intervals = level
    .map(({ result }) => result)
    .filter(hasBoth)
    .map(({ meters, seconds }) => ({ meters, secondsPerKm: secondsPerKm(meters, seconds) }))
  const isKnown = goal !== null && intervals.length > 0
  return [['all running with a time', isKnown ? { intervals, goal: goal.secondsPerKm } : null]]
}

/** What each other figure of one session is worked out from. */
const inputsOf: { [Name in FigureName]?: Find<InputsOf<Name>> } = {
  tonnage: ({ exercises }) =>
    lifted(exercises).map(({ exercise: { name, sets } }) => [name, { sets: sets.map(volumeOf) }]),
  'top-set': ({ exercises }) =>
    lifted(exercises).map(({ exercise }) => {
      const sets = setsForTop(exercise.sets)
      return [exercise.name, sets.length === 0 ? null : { sets }]
    }),
  'rest-taken': rests,
  'percent-load': percentages,
  pace: eachWork(measuredSplits, 1),
  halves: eachWork((done) => (hasHalves(done) ? measuredSplits(done) : []), 2),
  'split-mean': eachWork(fullSplits, 2),
  'split-deviation': eachWork(fullSplits, 2),
  variation: eachWork(fullSplits, 2),
  'split-range': eachWork(fullSplits, 2),
  fade: eachWork(fullSplits, 3),
  'in-range': ranges,
  'goal-pace': ({ summary }) => [['the goal of the day', summary.running.goal]],
  'off-goal': ({ summary: { running } }) =>
    running.items.map(({ text, secondsPerKm: pace, offGoalSecondsPerKm: off }) => {
      const { goal } = running
      const isCompared = goal !== null && pace !== null && off !== null
      return [text, isCompared ? { pace, goal: goal.secondsPerKm } : null]
    }),
  'goal-share': shareAtGoal,
  'distance-run': ({ summary: { running, cross } }) => {
    const distance = ({ meters, workMeters }: typeof running) =>
      meters === 0 ? null : { workMeters, recoveryMeters: meters - workMeters }
    return [
      ['running', distance(running)],
      ['cross-training', distance(cross)],
    ]
  },
  'equal-performance': races,
  riegel: races,
  'session-load': ({ state, summary }) => [partsNamed(partsOfLoad(state, summary.parts))],
  minutes: ({ summary }) => [
    partsNamed(summary.parts.filter((part) => part.minutes !== null || part.gapMinutes !== null)),
  ],
  'meal-energy': ({ summary: { fuel } }) =>
    (['before', 'between', 'after'] as const).map((when) => {
      const meal = fuel[when]
      return [`what was eaten ${when}`, meal?.atwaterKcal == null ? null : meal]
    }),
  'running-energy': ({ summary: { fuel, running }, bodyKg }) => {
    const isKnown = fuel.runningKcal !== null && bodyKg !== null
    return [['the running', isKnown ? { bodyKg, meters: running.meters } : null]]
  },
}

type Part = SessionFigures['summary']['parts'][number]

function partsNamed(
  parts: readonly Part[],
): [of: string, inputs: { parts: (Part & { name: string })[] } | null] {
  const named = parts.map((part) => ({ ...part, name: partName(part) }))
  return ['the session', parts.length === 0 ? null : { parts: named }]
}

/** The figures that a session has, depending on what was done. */
export const sessionFigures = [...Object.keys(stepsOf), ...Object.keys(inputsOf)] as FigureName[]

/** A figure worked out with a session's numbers, once for each subject; empty if the session
 * has none, null for a figure that needs several sessions. */
export function sessionSteps(name: FigureName, session: SessionFigures): SessionSteps[] | null {
  const steps = stepsOf[name]?.(session)
  if (steps !== undefined) return steps
  // The inputs belong to the figure of that name, which the compiler cannot see for a union of names.
  const find = inputsOf[name] as Find<never> | undefined
  const work = catalogue[name].work as (inputs: never) => string[]
  return (
    find?.(session).flatMap(([of, inputs]) => (inputs === null ? [] : [{ of, steps: work(inputs) }])) ?? null
  )
}
