import type { Step } from '../prescription/step.ts'
import type { Moment } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { phaseRealigned } from './phaseAfter.ts'
import { type Change, type Phase, stepAhead, stepOf, type WalkState } from './state.ts'
import { addStep, isSibling } from './walkAdded.ts'

type ChangeEvent = Extract<
  SessionEvent,
  { type: 'paceSet' | 'stepAdded' | 'exerciseSwapped' | 'itemMoved' | 'dayCut' }
>

/** What a change of the day does to the steps that are still to come. What was prescribed is kept beside it. */
export function walkChange(state: WalkState, event: ChangeEvent, at: Moment | null): WalkState {
  switch (event.type) {
    case 'paceSet': {
      const pace = new Map(state.pace)
      if (event.secondsPerRep === null) pace.delete(event.exercise)
      else pace.set(event.exercise, event.secondsPerRep)
      return { ...state, pace }
    }
    case 'stepAdded':
      return addStep(state, event.step, event.like)
    case 'exerciseSwapped':
      return swap(state, event.step, event.name)
    case 'itemMoved':
      return move(state, event.item, event.before)
    case 'dayCut': {
      const steps = event.steps.filter((id) => stepOf(state, id) && !state.passed.has(id))
      if (steps.length === 0) return state
      const cut = {
        ...state,
        passed: new Set([...state.passed, ...steps]),
        skipped: new Set([...state.skipped, ...steps]),
        changes: [...state.changes, { kind: 'cut', minutes: event.minutes, steps } satisfies Change],
      }
      return { ...cut, phase: phaseRealigned(cut, at) }
    }
  }
}

/** From this step on another exercise: the doses and the rests stay, the load must be typed anew. A ramp that is
 * still to come is that of the other exercise then. */
function swap(state: WalkState, id: string, name: string): WalkState {
  const from = stepOf(state, id)
  if (from?.kind !== 'set' || from.name === name || state.passed.has(id)) return state
  const start = state.steps.indexOf(from)
  const steps = state.steps.map((step, index): Step => {
    if (step.kind === 'ramp' && isRampOf(step, from) && !state.passed.has(step.id)) return { ...step, name }
    if (index < start || step.kind !== 'set' || !isSibling(step, from) || state.passed.has(step.id))
      return step
    const prescribed = step.insteadOf ?? step.name
    return { ...step, name, insteadOf: prescribed === name ? null : prescribed }
  })
  const change: Change = { kind: 'swapped', step: id, from: from.name, to: name }
  return { ...state, steps, changes: [...state.changes, change] }
}

function isRampOf(ramp: Extract<Step, { kind: 'ramp' }>, set: Extract<Step, { kind: 'set' }>): boolean {
  return ramp.part === set.part && ramp.item === set.item && ramp.exercise === set.exercise
}

function move(state: WalkState, item: [number, number], before: [number, number] | null): WalkState {
  const isOf = (step: Step, [part, index]: [number, number]) => step.part === part && step.item === index
  const moving = state.steps.filter((step) => isOf(step, item) && !state.passed.has(step.id))
  if (moving.length === 0 || (before && isOf(moving[0] as Step, before))) return state
  const staying = state.steps.filter((step) => !moving.includes(step))
  const found = before ? staying.findIndex((step) => isOf(step, before) && !state.passed.has(step.id)) : -1
  const at = found < 0 ? staying.length : found
  const steps = [...staying.slice(0, at), ...moving, ...staying.slice(at)]
  const change: Change = { kind: 'moved', part: item[0], item: item[1] }
  const moved = { ...state, steps, changes: [...state.changes, change] }
  return { ...moved, phase: phaseBeforeOther(moved) }
}

/** A rest or a recovery before what does not come next any more is the time between two items. */
function phaseBeforeOther(state: WalkState): Phase {
  const { phase } = state
  const waitsFor =
    phase.kind === 'rest' || phase.kind === 'roundPause'
      ? phase.next
      : phase.kind === 'recovery'
        ? phase.step
        : null
  if (waitsFor === null || stepAhead(state)?.id === waitsFor) return phase
  const { since, heldSeconds } = phase
  return { kind: 'ready', since, heldSeconds }
}
