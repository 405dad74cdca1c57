import { sum } from 'd3-array'
import { bodyShare, type Formula, type LiftedSet } from '../figures/oneRepMax.ts'
import { sessionMaximum } from '../figures/sessionMaximum.ts'
import { mean } from '../figures/statistics.ts'
import { countedReps, tonnageKg, topSet } from '../figures/volume.ts'
import { isJump } from '../prescription/exercise.ts'
import type { Span } from '../prescription/model.ts'
import { isLiftedSet, type SetStep } from '../prescription/step.ts'
import type { SessionState } from '../session/state.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { FiguresContext, LiftedExercise, Summary } from './model.ts'
import { type DoneExercise, type DoneSet, isRunningExercise } from './performed.ts'

export interface ExerciseView extends DoneExercise {
  figures: LiftedExercise
}

/** The exercises without running in circuits. */
export function lifted(exercises: readonly ExerciseView[]): ExerciseView[] {
  return exercises.filter((exercise) => !isRunningExercise(exercise))
}

/** Adds up the exercises. Minutes on a bike do not count as a set, but the exercise is listed with its figures. */
export function liftingOf(all: readonly ExerciseView[]): Summary['lifting'] {
  const exercises = lifted(all)
  const sets = exercises.flatMap(({ sets }) => sets.filter(({ step }) => isLiftedSet(step)))
  return {
    sets: setsCounted(sets),
    reps: sum(exercises, ({ figures }) => figures.reps),
    tonnageKg: sum(exercises, ({ figures }) => figures.tonnageKg),
    exercises: exercises.map(({ figures }) => figures),
  }
}

/** The number of sets; the drops of a drop set count as one. */
export function setsCounted(sets: readonly DoneSet[]): number {
  return new Set(sets.map(({ step }) => step.id)).size
}

export function exerciseFigures(
  { name, sets }: DoneExercise,
  state: SessionState,
  context: FiguresContext,
): LiftedExercise {
  const volumes = sets.map(volumeOf)
  const [pauses, rests] = [pausesOf(sets, state), restsOf(sets, state)]
  const withMean = ({ prescribedSeconds, seconds }: Taken) => ({
    prescribedSeconds,
    meanSeconds: mean(seconds),
  })
  return {
    name,
    sets: setsCounted(sets),
    reps: sum(volumes, countedReps),
    tonnageKg: sum(volumes, tonnageKg),
    top: topSet(setsForTop(sets)),
    oneRepMax: oneRepMaxOf(sets, state, context),
    runCost: null,
    pauses: pauses && { ...withMean(pauses), paced: pauses.paced },
    rests: rests && withMean(rests),
  }
}

export function volumeOf({ result, kg, side }: DoneSet) {
  return { reps: result.reps, kg, eachSide: side !== null }
}

/** The sets that can be the top set: all but those of 0 repetitions. */
export function setsForTop(sets: readonly DoneSet[]) {
  const candidates = sets.filter(({ result }) => result.reps !== 0)
  return candidates.map(({ kg, result: { reps, groups, rpe } }) => ({ kg, reps, groups, rpe }))
}

/** Body mass in kilograms: the file's, else as known when the session began, else the context's; null if unknown. */
export function bodyMassOf(state: SessionState, context: FiguresContext): number | null {
  const { athlete } = state.prescription
  return athlete ? kilogramsOf(athlete) : (state.bodyMassKg ?? context.bodyMassKg)
}

function oneRepMaxOf(
  sets: readonly DoneSet[],
  state: SessionState,
  context: FiguresContext,
): LiftedExercise['oneRepMax'] {
  const taken = effortsOf(sets, bodyMassOf(state, context), context.equation)
  const maximum = sessionMaximum(taken)
  if (!maximum) return null
  const from = taken[maximum.index]!.set
  const { kg, lowKg, highKg, atLeast, formula, cluster, n } = maximum
  const afterRun = isAfterRun(state, from.step)
  return { kg, lowKg, highKg, atLeast, formula, fromSet: from.number, repetitions: n, cluster, afterRun }
}

/** The sets that the equations can use, as their input; not those that are timed or carried, jumps, or without a
 * load. */
export function effortsOf(
  sets: readonly DoneSet[],
  bodyMassKg: number | null,
  formula: Formula,
): (LiftedSet & { set: DoneSet })[] {
  return sets.flatMap((set) => {
    const { kg, step, result } = set
    const { groups, reps, rpe, failed, load } = result
    if (set.isPart || isJump(step.name) || kg === null || reps === null || load === null) return []
    const body = bodyMassKg === null ? null : bodyMassKg * bodyShare(step.name)
    const bodyKg = load.kind === 'bodyweight' ? body : 0
    const openEnded = isOpenEnded(step)
    return [{ set, kg, groups: groups ?? [reps], rpe, failed, openEnded, formula, bodyKg }]
  })
}

/** Whether a set is an AMRAP, which leaves nothing in reserve unless an effort says otherwise. In a cluster set the
 * last group decides. */
function isOpenEnded({ dose }: SetStep): boolean {
  if (dose.kind === 'cluster') return dose.groups.at(-1) === 'max'
  return dose.kind === 'max' || dose.kind === 'atLeast'
}

/** Whether running was recorded before this set, in the order in which the day was done. */
function isAfterRun(state: SessionState, set: SetStep): boolean {
  const before = state.steps.slice(0, state.steps.indexOf(set))
  return before.some((step) => {
    const isRun = step.kind === 'interval' && state.parts[step.part]?.kind === 'run'
    return isRun && state.recorded.has(step.id)
  })
}

/** Rests or pauses: the prescribed seconds, null if they differ or if the mean is within a range, and the measured ones. */
interface Taken {
  prescribedSeconds: number | null
  seconds: number[]
}

/** The pauses inside the sets of an exercise (a cluster's), else those before the next exercise of the round; null
 * without any, and on paper. `paced`: the clock set them, so nothing was measured. */
export function pausesOf(
  sets: readonly DoneSet[],
  { measured, fromPaper }: SessionState,
): (Taken & { paced: boolean }) | null {
  const inside = sets.filter(({ step }) => step.pauseInSet !== null)
  const paused = inside.length > 0 ? inside : sets.filter(({ step }) => (step.pauseAfter ?? 0) > 0)
  if (fromPaper || paused.length === 0) return null
  const taken = paused.flatMap(({ step }) => measured.get(step.id) ?? [])
  return {
    prescribedSeconds: commonValue(paused.map(({ step }) => step.pauseInSet ?? step.pauseAfter)),
    seconds: taken.flatMap(({ pauses, rest }) => (inside.length > 0 ? pauses : (rest ?? []))),
    paced: taken.some(({ paced }) => paced),
  }
}

/** The rests after the sets or the rounds of an exercise; null without any, and on paper. */
export function restsOf(sets: readonly DoneSet[], { measured, fromPaper }: SessionState): Taken | null {
  const rested = sets.filter(({ step }) => step.pauseAfter === null)
  const restOf = ({ step }: DoneSet) => measured.get(step.id)?.rest ?? null
  const seconds = rested.flatMap((set) => restOf(set) ?? [])
  // A rest that was taken where none is prescribed is like no other.
  const prescribed = rested
    .filter((set) => set.step.restAfter !== null || restOf(set) !== null)
    .map(({ step }) => nearestIn(step.restAfter, mean(seconds)))
  if (fromPaper || prescribed.length === 0) return null
  return { prescribedSeconds: commonValue(prescribed), seconds }
}

/** The end of a span beyond which a value is, or its start without one; null inside, and without a span. */
function nearestIn(span: Span | null, value: number | null): number | null {
  if (span === null || value === null || value <= span.from || span.from === span.to)
    return span?.from ?? null
  return value >= span.to ? span.to : null
}

/** The value that all share; null if they differ, or without values. */
function commonValue(values: readonly (number | null)[]): number | null {
  const [first = null, ...others] = new Set(values)
  return others.length === 0 ? first : null
}
