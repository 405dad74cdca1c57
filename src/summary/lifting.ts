import { bestEstimate } from '../figures/oneRepMax.ts'
import { countedReps, tonnageKg, topSetIndex } from '../figures/volume.ts'
import type { SessionState } from '../session/state.ts'
import { bodyMassOf, estimateOfSet, isAfterRun, type SummaryContext } from './estimate.ts'
import { type DoneExercise, exercisesDone } from './lifted.ts'
import type { Summary } from './model.ts'
import { pausesOf, restsOf } from './pausesAndRests.ts'
import type { DoneSet } from './performed.ts'

type Lifted = Summary['lifting']['exercises'][number]

/** The sets of a session put together, one entry an exercise. */
export function liftingOf(state: SessionState, context: SummaryContext): Summary['lifting'] {
  const exercises = exercisesDone(state).map((exercise) => exerciseOf(exercise, state, context))
  const sum = (of: 'sets' | 'reps' | 'tonnageKg') =>
    exercises.reduce((total, exercise) => total + exercise[of], 0)
  return { sets: sum('sets'), reps: sum('reps'), tonnageKg: sum('tonnageKg'), exercises }
}

function exerciseOf(exercise: DoneExercise, state: SessionState, context: SummaryContext): Lifted {
  const volumes = exercise.sets.map(volumeOf)
  return {
    name: exercise.name,
    sets: exercise.sets.length,
    reps: volumes.reduce((sum, set) => sum + countedReps(set), 0),
    tonnageKg: volumes.reduce((sum, set) => sum + tonnageKg(set), 0),
    top: topOf(exercise.sets),
    oneRepMax: oneRepMaxOf(exercise.sets, state, context),
    pauses: pausesOf(exercise.sets, state),
    rests: restsOf(exercise.sets, state),
  }
}

/** A set as the volume counts it: the load of both of a pair is in `kg` already. */
export function volumeOf({ result, step, kg }: DoneSet) {
  const bodyweight = result.load?.kind === 'bodyweight'
  return { reps: result.reps, kg, pair: false, bodyweight, eachSide: step.side !== null }
}

/** A set of no repetition is no top set. */
function topOf(sets: readonly DoneSet[]): Lifted['top'] {
  const lifted = sets.filter(({ result }) => result.reps !== 0)
  const index = topSetIndex(lifted.map(({ kg, result }) => ({ kg, reps: result.reps })))
  const top = index === null ? undefined : lifted[index]
  if (!top) return null
  const { reps, groups, rpe } = top.result
  return { kg: top.kg, reps, groups, rpe }
}

function oneRepMaxOf(
  sets: readonly DoneSet[],
  state: SessionState,
  context: SummaryContext,
): Lifted['oneRepMax'] {
  const bodyKg = bodyMassOf(state, context)
  const best = bestEstimate(sets.map((set) => estimateOfSet(set, bodyKg, context.equation)))
  if (!best) return null
  const from = sets[best.index] as DoneSet
  const { kg, lowKg, highKg, atLeast, formula, cluster } = best.estimate
  const afterRun = isAfterRun(state, from.step)
  return { kg, lowKg, highKg, atLeast, formula, fromSet: from.number, cluster, afterRun }
}
