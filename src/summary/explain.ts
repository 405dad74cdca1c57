import { groups } from 'd3-array'
import { catalogue, type FigureName } from '../figures/catalogue.ts'
import { num } from '../figures/figure.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { partName } from '../prescription/print.ts'
import { isSet } from '../prescription/step.ts'
import { maximumOf } from '../session/load.ts'
import { joined } from '../units/lists.ts'
import { formatMass, kilogramsIn } from '../units/mass.ts'
import { effortsOf, lifted, pausesOf, restsOf, setsForTop, volumeOf } from './lifting.ts'
import type { DoneWork } from './performed.ts'
import { fullSplits, hasBoth, hasHalves } from './running.ts'
import { partsOfLoad, type SessionFigures } from './summarise.ts'

/** A figure worked out in steps for each of its subjects in a session; empty if the session has none. */
type Explained = (session: SessionFigures) => { of: string; steps: string[] }[]

/** A figure of the splits of each work with at least this many of them. */
function eachWork<Split>(
  splitsOf: (done: DoneWork) => Split[],
  least: number,
  work: (inputs: { splits: Split[] }) => string[],
): Explained {
  return ({ works }) =>
    works.flatMap(({ done }) => {
      const splits = splitsOf(done)
      return splits.length < least ? [] : [{ of: done.work.text, steps: work({ splits }) }]
    })
}

function measuredSplits(done: DoneWork): { meters: number; seconds: number }[] {
  return done.splits.map(({ result }) => result).filter(hasBoth)
}

/** The exercises with an estimate: the sets it is from, and the one that says the most. */
function estimated({ exercises, bodyKg, context }: SessionFigures) {
  return lifted(exercises).flatMap(({ name, sets, figures: { oneRepMax } }) => {
    const taken = effortsOf(sets, bodyKg, context.equation)
    const best = taken.find(({ set }) => set.number === oneRepMax?.fromSet)
    if (!oneRepMax || !best) return []
    const { cluster, afterRun, kg } = oneRepMax
    const marks = joined(', ', [cluster && 'a cluster set', afterRun && 'after a run'])
    return [{ name, count: sets.length, taken, best, kg, marks: marks === '' ? '' : ` (${marks})` }]
  })
}

/** A figure of all sets of each exercise. */
function eachLift<Set>(
  setsOf: (sets: Parameters<typeof setsForTop>[0]) => Set[],
  work: (inputs: { sets: Set[] }) => string[],
): Explained {
  return ({ exercises }) =>
    lifted(exercises).flatMap(({ name, sets: all }) => {
      const sets = setsOf(all)
      return sets.length === 0 ? [] : [{ of: name, steps: work({ sets }) }]
    })
}

/** The figures of a session with its numbers. */
const ofSession: { [Name in FigureName]?: Explained } = {
  'one-rep-max': (session) =>
    estimated(session).map(({ name, count, taken, best, kg, marks }) => ({
      of: `${name}, set ${best.set.number} of ${count}${marks}`,
      steps: [
        ...catalogue['one-rep-max'].work(best),
        ...(taken.length > 1 ? [`all sets together ${num(kg)} kg: see session-maximum`] : []),
      ],
    })),
  'session-maximum': (session) =>
    estimated(session).map(({ name, taken, best, kg, marks }) => {
      const sets = taken.map((each) => ({ ...each, number: each.set.number }))
      // The steps are in kilograms, the summary in the unit of the set.
      const pounds = formatMass({ value: kilogramsIn(kg, 'lb'), unit: 'lb' })
      const last = best.set.result.load?.unit === 'lb' ? [`in pounds: ${pounds}`] : []
      return { of: `${name}${marks}`, steps: [...catalogue['session-maximum'].work({ sets }), ...last] }
    }),
  tonnage: eachLift((sets) => sets.map(volumeOf), catalogue.tonnage.work),
  'top-set': eachLift(setsForTop, catalogue['top-set'].work),
  // As the clock measured them.
  'rest-taken': ({ exercises, state }) =>
    lifted(exercises).flatMap(({ name, sets }) => {
      const { work } = catalogue['rest-taken']
      const [rests, pauses] = [restsOf(sets, state), pausesOf(sets, state)]
      const paced = pauses?.paced ? ', set by the clock' : ''
      return [
        ...(rests ? [{ of: `${name}, rests`, steps: work(rests) }] : []),
        ...(pauses ? [{ of: `${name}, pauses${paced}`, steps: work(pauses) }] : []),
      ]
    }),
  // Each percentage of an exercise once.
  'percent-load': ({ state }) => {
    const loads = state.steps.filter(isSet).flatMap(({ name, load }) => {
      const maximum = maximumOf(state, name)
      return load?.kind !== 'percent' || maximum === null ? [] : [{ name, percent: load.from, maximum }]
    })
    const { mass: unit } = state.prescription.units
    return groups(loads, ({ name, percent }) => `${exerciseKey(name)} ${percent}`).map(([, [first]]) => {
      const { name, percent, maximum } = first!
      const steps = catalogue['percent-load'].work({ maximumKg: maximum.kg, percent, unit })
      return { of: `${name} (${maximum.basis})`, steps }
    })
  },
  pace: eachWork(measuredSplits, 1, catalogue.pace.work),
  halves: eachWork((done) => (hasHalves(done) ? measuredSplits(done) : []), 2, catalogue.halves.work),
  splits: eachWork(fullSplits, 2, catalogue.splits.work),
  // Splits with different ranges, of different lengths, are listed separately.
  'in-range': ({ works }) =>
    works.flatMap(({ done }) => {
      const judged = done.splits.flatMap(({ range, target, result: { seconds, precision } }) =>
        range === null || target === null
          ? []
          : [{ range, seconds: seconds ?? 0, precision: precision ?? 1 }],
      )
      return groups(judged, ({ range }) => `${range.from} ${range.to}`).map(([, splits]) => {
        const steps = catalogue['in-range'].work({ target: splits[0]!.range, splits })
        return { of: done.work.text, steps }
      })
    }),
  'goal-pace': ({ summary: { running } }) => {
    const { goal, items } = running
    const intervals = items.flatMap(({ text, secondsPerKm: pace, offGoalSecondsPerKm: off }) =>
      off === null || pace === null ? [] : [{ name: text, pace }],
    )
    return goal === null
      ? []
      : [{ of: 'the goal of the day', steps: catalogue['goal-pace'].work({ ...goal, intervals }) }]
  },
  'distance-run': ({ summary: { running, cross } }) =>
    [
      { of: 'running', ...running },
      { of: 'cross-training', ...cross },
    ].flatMap(({ of, meters, workMeters }) => {
      if (!meters) return []
      const work = workMeters ?? 0
      const steps = catalogue['distance-run'].work({ workMeters: work, recoveryMeters: meters - work })
      return [{ of, steps }]
    }),
  'session-load': ({ state, summary }) => {
    const parts = partsOfLoad(state, summary.parts).map((part) => ({ ...part, name: partName(part) }))
    return parts.length === 0 ? [] : [{ of: 'the session', steps: catalogue['session-load'].work({ parts }) }]
  },
  'meal-energy': ({ summary: { fuel } }) =>
    (['before', 'between', 'after'] as const).flatMap((when) => {
      const meal = fuel[when]
      if (meal?.atwaterKcal == null) return []
      return [{ of: `what was eaten ${when}`, steps: catalogue['meal-energy'].work(meal) }]
    }),
  'running-energy': ({ summary: { fuel, running }, bodyKg }) => {
    const { meters } = running
    if (fuel.runningKcal === null || bodyKg === null || meters === null) return []
    const steps = catalogue['running-energy'].work({ bodyKg, meters })
    return [{ of: 'the running', steps }]
  },
}

/** The figures that a session has, depending on what was done. */
export const sessionFigures = Object.keys(ofSession) as FigureName[]

/** A figure worked out with a session's numbers, once for each subject; empty if the session has none, and for a figure
 * that needs several sessions. */
export function sessionSteps(name: FigureName, session: SessionFigures): ReturnType<Explained> {
  return ofSession[name]?.(session) ?? []
}
