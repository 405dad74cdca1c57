import { sum } from 'd3-array'
import { sessionMaximum } from '../figures/sessionMaximum.ts'
import { mean } from '../figures/statistics.ts'
import { countedReps, tonnageKg, topSetIndex } from '../figures/volume.ts'
import { isLiftedSet } from '../prescription/step.ts'
import type { SessionState } from '../session/state.ts'
import { bodyMassOf, effortsOf, isAfterRun, type SummaryContext } from './estimate.ts'
import type { Summary } from './model.ts'
import { type DoneExercise, type DoneSet, exercisesDone } from './performed.ts'

type Lifted = Summary['lifting']['exercises'][number]

/** Groups the sets of a session by exercise. Minutes on a bike are no lifted set, but an exercise with its figures. */
export function liftingOf(state: SessionState, context: SummaryContext): Summary['lifting'] {
  const exercises = exercisesDone(state).map((exercise) => exerciseOf(exercise, state, context))
  const lifted = exercisesDone(state).flatMap(({ sets }) => sets.filter(({ step }) => isLiftedSet(step)))
  return {
    sets: setsCounted(lifted),
    reps: sum(exercises, ({ reps }) => reps),
    tonnageKg: sum(exercises, (exercise) => exercise.tonnageKg),
    exercises,
  }
}

/** Sets as they were done: the drops of a drop set count as one. */
function setsCounted(sets: readonly DoneSet[]): number {
  return new Set(sets.map(({ step }) => step.id)).size
}

/** The figures of one exercise. */
export function exerciseOf(exercise: DoneExercise, state: SessionState, context: SummaryContext): Lifted {
  const volumes = exercise.sets.map(volumeOf)
  return {
    name: exercise.name,
    sets: setsCounted(exercise.sets),
    reps: sum(volumes, countedReps),
    tonnageKg: sum(volumes, tonnageKg),
    top: topOf(exercise.sets),
    oneRepMax: oneRepMaxOf(exercise.sets, state, context),
    runCost: context.runCost?.(exercise.name) ?? null,
    pauses: pausesOf(exercise.sets, state),
    rests: restsOf(exercise.sets, state),
  }
}

/** A set as input for the volume: the load of a pair is already doubled in `kg`. */
export function volumeOf({ result, kg, side }: DoneSet) {
  const bodyweight = result.load?.kind === 'bodyweight'
  return { reps: result.reps, kg, pair: false, bodyweight, eachSide: side !== null }
}

/** Sets of 0 repetitions are never the top set. */
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
  const taken = effortsOf(sets, bodyKg, context.equation)
  const maximum = sessionMaximum(taken.map(({ effort }) => effort))
  if (!maximum) return null
  const from = (taken[maximum.index] as (typeof taken)[number]).set
  const { kg, lowKg, highKg, atLeast, formula, cluster, n } = maximum
  const afterRun = isAfterRun(state, from.step)
  return { kg, lowKg, highKg, atLeast, formula, fromSet: from.number, repetitions: n, cluster, afterRun }
}

/** The pauses inside the sets of an exercise (a cluster's), else those before the next exercise of the round, in
 * seconds; null without any, and from paper. `paced`: the clock set them, so nothing was measured. */
function pausesOf(sets: readonly DoneSet[], state: SessionState): Lifted['pauses'] {
  if (state.fromPaper) return null
  const paused = pausedSets(sets)
  if (paused.length === 0) return null
  return {
    prescribedSeconds: theOnly(paused.map(({ step }) => step.pauseInSet ?? step.pauseAfter)),
    meanSeconds: mean(measuredPauses(sets, state)),
    paced: paused.some(({ step }) => state.measured.get(step.id)?.paced === true),
  }
}

/** The sets with a pause inside them, else those with one before the next exercise of the round. */
function pausedSets(sets: readonly DoneSet[]): DoneSet[] {
  const inside = sets.filter(({ step }) => step.pauseInSet !== null)
  const between = sets.filter(({ step }) => step.pauseAfter !== null && step.pauseAfter > 0)
  return inside.length > 0 ? inside : between
}

/** The measured pauses, in seconds, in order. */
export function measuredPauses(sets: readonly DoneSet[], state: SessionState): number[] {
  return pausedSets(sets).flatMap(({ step }) => {
    const measured = state.measured.get(step.id)
    return step.pauseInSet !== null ? (measured?.pauses ?? []) : restOf(measured)
  })
}

/** The rests after the sets or the rounds of an exercise, in seconds; null if none is prescribed or
 * measured, and from paper. */
function restsOf(sets: readonly DoneSet[], state: SessionState): Lifted['rests'] {
  if (state.fromPaper) return null
  const rested = sets.filter(({ step }) => step.pauseAfter === null)
  const prescribed = rested.flatMap(({ step }) => (step.restAfter ? [step.restAfter.from] : []))
  const meanSeconds = mean(measuredRests(sets, state))
  if (prescribed.length === 0 && meanSeconds === null) return null
  return { prescribedSeconds: theOnly(prescribed), meanSeconds }
}

/** The measured rests, in seconds, in order. */
export function measuredRests(sets: readonly DoneSet[], state: SessionState): number[] {
  const rested = sets.filter(({ step }) => step.pauseAfter === null)
  return rested.flatMap(({ step }) => restOf(state.measured.get(step.id)))
}

function restOf(measured: { rest: number | null } | undefined): number[] {
  return measured && measured.rest !== null ? [measured.rest] : []
}

/** The value that all have in common; null if they differ or there are no values. */
function theOnly(values: readonly (number | null)[]): number | null {
  const [first = null, ...others] = new Set(values)
  return others.length === 0 ? first : null
}
