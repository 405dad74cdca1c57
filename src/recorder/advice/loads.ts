import { isExplosive, lightPercent, loadAdviceWords, nextLoad } from '../../figures/advice.ts'
import { inStepsOf, rackOf, usualStep } from '../../figures/bar.ts'
import { exerciseKey, isOnBar } from '../../prescription/exercise.ts'
import {
  isSameItem,
  isSet,
  repsOf,
  type SetStep,
  type Step,
  type WarmUpStep,
} from '../../prescription/step.ts'
import { afterRunText } from '../../progress/lift.ts'
import { isSameLoad, kilogramsOfLoad, loadText, maximumOf, shownLoadOf } from '../../session/load.ts'
import { isPainNoted } from '../../session/pain.ts'
import type { LiftedLoad, SetResult } from '../../session/result.ts'
import { type Recorded, resultOf, type SessionState, stepOf } from '../../session/state.ts'
import { isMeantToTheLimit } from '../../summary/performed.ts'
import { printNumber } from '../../units/decimal.ts'
import { platesText } from '../labels.ts'
import { type RecorderModel, stepNow } from '../model.ts'

function lastSetOf(state: SessionState, next: SetStep): { step: SetStep; result: SetResult } | null {
  const last = state.steps.findLast(
    (step): step is SetStep =>
      step.kind === 'set' &&
      isSameItem(step, next) &&
      step.exercise === next.exercise &&
      step.name === next.name &&
      step.number < next.number,
  )
  const result = last ? resultOf(state, last) : null
  return last && result ? { step: last, result } : null
}

/** What the last set's effort suggests for the next set on the same line. Null where that set has another load already,
 * as written or as typed for it: the last one tells nothing about it. */
export function loadAdvice({ state, context }: RecorderModel): string | null {
  const next = stepNow(state)
  if (next?.kind !== 'set') return null
  const last = lastSetOf(state, next)
  const load = last?.result.load
  if (!last || load?.kind !== 'mass' || load.value <= 0 || wasToTheLimit(last.step, last.result)) return null
  const { shown } = shownLoadOf(state, next)
  if (shown === null || !isSameLoad(shown, load)) return null
  const equipment = context.equipmentOf(load.unit, state.prescription, next.name)
  const rack = rackOf(equipment)
  const isStepped = load.pair || !isOnBar(next.name, equipment) || load.value < (rack.loads[0] ?? 0)
  const { rpe, failed } = last.result
  const pain = isPainNoted(state)
  const advice = nextLoad({
    load: load.value,
    reps: leastReps(next.dose),
    rpe,
    failed,
    target: last.step.rpe,
    noHeavier:
      pain ||
      hasFailed(state) ||
      next.every !== null ||
      isExplosive(next.name) ||
      isLight(state, last.step, load),
    pain,
    rack: isStepped ? inStepsOf(usualStep[load.unit]) : rack,
  })
  if (!advice) return null
  const words = loadAdviceWords(advice, load.value, (value) => loadText({ ...load, value }))
  return advice.kind === 'failed' ? `${words}: type x ${printNumber(advice.load)}, or do fewer reps` : words
}

function leastReps(dose: SetStep['dose']): number | null {
  return ['reps', 'atLeast', 'cluster'].includes(dose.kind) ? repsOf(dose, 1) : null
}

/** A load of at most 70 % of the maximum, as written or as far as the maximum is known. */
function isLight(state: SessionState, step: SetStep, load: LiftedLoad): boolean {
  if (step.load?.kind === 'percent') return step.load.to <= lightPercent
  const maximum = maximumOf(state, step.name)
  return maximum !== null && kilogramsOfLoad(load) <= (maximum.kg * lightPercent) / 100 + 1e-9
}

/** A set that was to go to the limit, and did: its failure and its 10 are what was prescribed. With a written effort it was
 * to end before. */
function wasToTheLimit({ dose, rpe }: SetStep, result: SetResult): boolean {
  return rpe === null && isMeantToTheLimit(dose, result)
}

/** After a failed repetition today, in any exercise, no advice to add load. */
function hasFailed(state: SessionState): boolean {
  return state.steps.filter(isSet).some((step) => {
    const result = resultOf(state, step)
    return result?.failed && !wasToTheLimit(step, result)
  })
}

/** What to load when the next working or warm-up set has another load. */
export function changeOfLoad({ state, context }: RecorderModel): string | null {
  if (state.phase.kind === 'effort' || state.phase.kind === 'pause') return null
  const next = stepNow(state)
  if (next?.kind !== 'warm-up' && next?.kind !== 'set') return null
  const load = next.kind === 'warm-up' ? next.load : plain(shownLoadOf(state, next).shown)
  const equipment = load && context.equipmentOf(load.unit, state.prescription, next.name)
  if (!load || !equipment || !isOnBar(next.name, equipment)) return null
  const before = state.steps.findLast((step) => isOfBar(step, next) && state.passed.has(step.id))
  const was =
    before?.kind === 'warm-up' ? before.load : before?.kind === 'set' ? liftedAt(state, before) : null
  if (was && was.value === load.value && was.unit === load.unit) return null
  const plates = platesText(load, equipment)
  return plates ? `now load ${load.value} ${load.unit}: ${plates}` : null
}

/** Each exercise of a round has its own bar. */
function isOfBar(step: Step, next: SetStep | WarmUpStep): boolean {
  const isLift = step.kind === 'set' || step.kind === 'warm-up'
  return isLift && isSameItem(step, next) && step.exercise === next.exercise
}

function liftedAt(state: SessionState, step: SetStep): { value: number; unit: 'kg' | 'lb' } | null {
  const result = resultOf(state, step)
  return plain(result ? result.load : shownLoadOf(state, step).shown)
}

function plain(load: LiftedLoad | null): { value: number; unit: 'kg' | 'lb' } | null {
  return load?.kind === 'mass' && !load.pair ? load : null
}

/** Before the first set of a lift, after running in this session: its maximum after running, and fresh. */
export function runCostAdvice({ state, context }: RecorderModel): string | null {
  const next = stepNow(state)
  if ((next?.kind !== 'set' && next?.kind !== 'warm-up') || state.phase.kind === 'effort') return null
  const isSame = (name: string) => exerciseKey(name) === exerciseKey(next.name)
  const done = state.steps.filter((step) => state.recorded.has(step.id))
  if (done.some((step) => step.kind === 'set' && isSame(step.name))) return null
  if (!done.some((step) => step.kind === 'interval' && state.parts[step.part]?.kind === 'run')) return null
  const cost = context.runCost(next.name)
  return cost && afterRunText(cost, state.prescription.units.mass)
}

/** Shown once, while the set in question is the last one. */
export function bestSoFar({ state, context }: RecorderModel): string | null {
  const lifts = [...state.recorded].map(([id, recorded]) => liftOf(stepOf(state, id), recorded))
  const last = lifts.pop() ?? null
  const before = last && context.bestBefore(last.name, last.reps)
  if (!last || !before || last.kg <= before.kg + 1e-9) return null
  const isAsMuch = lifts.some(
    (each) =>
      each !== null &&
      exerciseKey(each.name) === exerciseKey(last.name) &&
      each.reps >= last.reps &&
      each.kg >= last.kg - 1e-9,
  )
  return isAsMuch ? null : `most for ${last.reps} so far (before: ${before.text})`
}

/** A set with its load, without a pause inside it; null for anything else. */
function liftOf(step: Step | null, recorded: Recorded): { name: string; reps: number; kg: number } | null {
  if (step?.kind !== 'set' || recorded.kind !== 'set' || step.dose.kind === 'cluster') return null
  const { load, reps } = recorded.result
  return load && reps ? { name: step.name, reps, kg: kilogramsOfLoad(load) } : null
}
