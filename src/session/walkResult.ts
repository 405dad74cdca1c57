import type { Step } from '../prescription/step.ts'
import { type Moment, momentAfter } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { phaseAfter, phaseRealigned } from './phaseAfter.ts'
import { type PartState, type Recorded, stepOf, type WalkState } from './state.ts'

type ResultEvent = Extract<
  SessionEvent,
  {
    type:
      | 'setRecorded'
      | 'pieceRecorded'
      | 'prepRecorded'
      | 'fuelRecorded'
      | 'mealRecorded'
      | 'stepSkipped'
      | 'itemSkipped'
  }
>

const kinds = {
  setRecorded: 'set',
  pieceRecorded: 'piece',
  prepRecorded: 'prep',
  fuelRecorded: 'fuel',
} as const

/** What a result, or a skip, does to the state. Recording stops no clock; a step recorded without one lies behind. */
export function walkResult(state: WalkState, event: ResultEvent, at: Moment | null): WalkState {
  switch (event.type) {
    case 'stepSkipped': {
      const step = stepOf(state, event.step)
      return step && !state.skipped.has(step.id) ? skip(state, [step], at) : state
    }
    case 'itemSkipped': {
      const steps = state.steps.filter(
        (step) => step.part === event.part && step.item === event.item && !state.passed.has(step.id),
      )
      return steps.length ? skip(state, steps, at) : state
    }
    case 'mealRecorded':
      return { ...state, meals: [...state.meals, { when: event.meal, result: event.result }] }
    default: {
      const step = stepOf(state, event.step)
      if (!step || step.kind !== kinds[event.type]) return state
      return record(state, step, { kind: kinds[event.type], result: event.result, at } as Recorded, at)
    }
  }
}

function skip(state: WalkState, steps: Step[], at: Moment | null): WalkState {
  const recorded = new Map(state.recorded)
  for (const step of steps) recorded.delete(step.id)
  const skipped = new Set([...state.skipped, ...steps.map((step) => step.id)])
  const passed = new Set([
    ...state.passed,
    ...steps.map((step) => step.id),
    ...steps.flatMap((step) => walkedWith(state, step)),
  ])
  const next = { ...state, recorded, skipped, passed }
  return { ...next, phase: phaseRealigned(next, at) }
}

function record(state: WalkState, step: Step, result: Recorded, at: Moment | null): WalkState {
  const recorded = new Map(state.recorded).set(step.id, result)
  const skipped = new Set(state.skipped)
  skipped.delete(step.id)
  const passed = new Set([...state.passed, step.id, ...walkedWith(state, step)])
  const next = { ...state, recorded, skipped, passed, partStates: dated(state, step, result, at) }
  const typedAhead = at !== null && isWaitedFor(state, step)
  return { ...next, phase: typedAhead ? phaseAfter(next, step, at) : phaseRealigned(next, at) }
}

/** Typed while a rest before it ran: its start was not pressed, and what follows begins now. */
function isWaitedFor(state: WalkState, step: Step): boolean {
  const { phase } = state
  if (state.passed.has(step.id)) return false
  if (phase.kind === 'rest' || phase.kind === 'roundPause') return phase.next === step.id
  return phase.kind === 'recovery' && walkedWith(state, step).includes(phase.step)
}

/** What was only walked before a step lies behind with it. */
export function walkedWith(state: WalkState, step: Step): string[] {
  const ids: string[] = []
  for (let index = state.steps.indexOf(step) - 1; index >= 0; index--) {
    const before = state.steps[index] as Step
    if (before.part !== step.part || (before.kind !== 'recovery' && before.kind !== 'ramp')) break
    ids.push(before.id)
  }
  return ids
}

/** On paper the clock times of the results are all that is known of when a part was done; a result that is typed
 * while its clock runs ends it. */
function dated(state: WalkState, step: Step, result: Recorded, at: Moment | null): readonly PartState[] {
  if (at === null) return state.partStates
  const { phase } = state
  const underWay = (phase.kind === 'effort' || phase.kind === 'pause') && phase.step === step.id
  if (!state.fromPaper && !underWay) return state.partStates
  const took = result.kind === 'piece' ? (result.result.seconds ?? 0) : 0
  const begun = state.fromPaper ? momentAfter(at, -took) : null
  return state.partStates.map((part, index) =>
    index === step.part
      ? { ...part, begun: part.begun ?? begun, ended: at, heldByEnd: part.heldSeconds }
      : part,
  )
}
