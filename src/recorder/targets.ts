import {
  hasResult,
  type IntervalStep,
  isSameItem,
  isSet,
  isTraining,
  type ResultStep,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import {
  lastPassed,
  pendingSteps,
  type SessionState,
  stepNow,
  stepOf,
  stepUnderWay,
} from '../session/state.ts'
import { countdownOf } from '../session/timers.ts'
import type { RecorderModel } from './model.ts'

/* What the recorder's keys act on now; null if there is nothing to act on. */

/** The timed set that is under way; null for anything else. */
export function holdUnderWay(state: SessionState): SetStep | null {
  const step = stepUnderWay(state)
  return step?.kind === 'set' && step.dose.kind === 'time' ? step : null
}

/** The seconds by which ↑ and ↓ change this rest or pause; null if none counts down. */
export function restStep({ state }: RecorderModel): number | null {
  const { kind } = state.phase
  const countdown = countdownOf(state)
  if (kind === 'effort' || !countdown || countdown.expected) return null
  return kind === 'pause' || kind === 'roundPause' ? 5 : 15
}

/** The current set, whose exercise can be swapped or paced. */
export function swappable({ state }: RecorderModel): SetStep | null {
  const step = stepNow(state)
  if (step?.kind !== 'warm-up') return step?.kind === 'set' ? step : null
  return state.steps.filter(isSet).find((each) => isSameItem(each, step)) ?? null
}

/** In the order in which they were recorded. */
export function recordedSteps(state: SessionState): ResultStep[] {
  return [...state.recorded.keys()].flatMap((id) => stepOf(state, id) ?? []).filter(hasResult)
}

/** The set or repeat to which one more is added: the last one done until the item after it is begun, else the current
 * one, else the last one done. */
export function stepToAddTo({ state }: RecorderModel): SetStep | IntervalStep | null {
  const { steps, passed, skipped, phase, partStates } = state
  const step = stepNow(state)
  const last = lastPassed(state, hasResult)
  const done = last && isRepeatable(last) && !partStates[last.part]?.closed ? last : null
  if (!step) return done
  const isUnderWay = 'step' in phase
  const isBegun = isUnderWay || steps.some((each) => isSameItem(each, step) && passed.has(each.id))
  if (done && !isBegun && !skipped.has(done.id)) return done
  const ahead = steps.slice(steps.indexOf(step)).filter((each) => isSameItem(each, step))
  return ahead.find(isRepeatable) ?? done
}

function isRepeatable(step: Step): step is SetStep | IntervalStep {
  return step.kind === 'set' || step.kind === 'interval'
}

export function isPartDone(state: SessionState, part: number): boolean {
  return state.steps.every((step) => step.part !== part || state.passed.has(step.id))
}

/** Whether a part is closed with an effort and minutes: prep and fuel are not. */
export function asksForEffort(state: SessionState, part: number): boolean {
  return isTraining(state.parts[part]!.kind)
}

/** The part that `f` closes: that of the last result, else the first one begun, run and lift parts
 * before prep and fuel; else the next one. */
export function partToClose(state: SessionState): number | null {
  const unclosed = state.parts.flatMap((_, part) => (state.partStates[part]?.closed ? [] : [part]))
  const begun = unclosed.filter((part) => isBegun(state, part))
  const asking = begun.filter((part) => asksForEffort(state, part))
  const last = recordedSteps(state).at(-1)
  return asking.find((part) => part === last?.part) ?? asking[0] ?? begun[0] ?? unclosed[0] ?? null
}

function isBegun(state: SessionState, part: number): boolean {
  if (state.partStates[part]?.begun) return true
  return state.steps.some((step) => step.part === part && state.passed.has(step.id))
}

/** Whether the empty field has something to record: a pending result, a set under way or next (it asks first), or an
 * item that needs no clock. */
export function isOffered(state: SessionState, step: Step): boolean {
  if (pendingSteps(state).length > 0) return true
  if (step.kind === 'set') return stepNow(state)?.id === step.id
  return step.kind !== 'interval'
}
