import { catalogue } from '../../figures/catalogue.ts'
import { exerciseKey } from '../../prescription/exercise.ts'
import type { SetStep } from '../../prescription/step.ts'
import { maximumOf } from '../../session/prompt.ts'
import { bodyMassOf, effortOfSet } from '../estimate.ts'
import { type DoneExercise, exercisesDone } from '../lifted.ts'
import { volumeOf } from '../lifting.ts'
import { measuredPauses, measuredRests } from '../pausesAndRests.ts'
import type { ExplainedSession, SessionSteps } from './steps.ts'

/** The best estimate of each exercise, from the set that it is of. */
export function estimateSteps(
  { state, summary, context }: ExplainedSession,
  kind: 'any' | 'cluster',
): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  return exercisesDone(state).flatMap((exercise) => {
    const best = oneRepMaxOf(summary, exercise)
    const from = exercise.sets.find((set) => set.number === best?.fromSet)
    const effort = from ? effortOfSet(from, bodyKg, context.equation) : null
    if (!best || !effort || (kind === 'cluster' && !effort.cluster)) return []
    const steps = effort.cluster
      ? catalogue['cluster-one-rep-max'].work(effort.set)
      : catalogue['one-rep-max'].work(effort.set)
    const marks = [effort.cluster ? 'a cluster set' : '', best.afterRun ? 'after a run' : ''].filter(Boolean)
    const marked = marks.length > 0 ? ` (${marks.join(', ')})` : ''
    return [{ of: `${exercise.name}, best of ${exercise.sets.length}: set ${best.fromSet}${marked}`, steps }]
  })
}

function oneRepMaxOf(summary: ExplainedSession['summary'], { name }: DoneExercise) {
  return summary.lifting.exercises.find((each) => each.name === name)?.oneRepMax ?? null
}

/** The reserve of each set that an effort was typed for, or that failed. */
export function reserveSteps({ state, context }: ExplainedSession): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  return exercisesDone(state).map(({ name, sets }) => ({
    of: name,
    steps: sets.flatMap((set) => {
      const effort = effortOfSet(set, bodyKg, context.equation)
      return effort === null
        ? []
        : catalogue['repetitions-in-reserve'].work(effort.set).map((step) => `set ${set.number}: ${step}`)
    }),
  }))
}

export function tonnageSteps({ state }: ExplainedSession): SessionSteps[] {
  return exercisesDone(state).map(({ name, sets }) => ({
    of: name,
    steps: catalogue.tonnage.work({ sets: sets.map(volumeOf) }),
  }))
}

export function topSetSteps({ state }: ExplainedSession): SessionSteps[] {
  return exercisesDone(state).flatMap(({ name, sets }) => {
    const lifted = sets.filter(({ result }) => result.reps !== 0)
    const loads = lifted.map(({ kg, result }) => ({ kg, reps: result.reps }))
    return lifted.length === 0 ? [] : [{ of: name, steps: catalogue['top-set'].work({ sets: loads }) }]
  })
}

/** The rests and pauses as the clock measured them. */
export function restSteps({ state, summary }: ExplainedSession): SessionSteps[] {
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

/** The loads that were prescribed as a percentage, each once. */
export function percentSteps({ state }: ExplainedSession): SessionSteps[] {
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
