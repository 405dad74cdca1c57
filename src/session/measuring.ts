import type { Step } from '../prescription/step.ts'
import type { Measured, PartState, WalkState } from './state.ts'

/* What the clocks have measured, written into the state. */

const unmeasured: Measured = {
  begun: null,
  ended: null,
  seconds: null,
  pauses: [],
  paced: false,
  rest: null,
  heldBefore: 0,
}

/** What was measured of a step so far. */
export function measuredOf(state: WalkState, step: string): Measured {
  return state.measured.get(step) ?? unmeasured
}

/** The state with more measured of a step. */
export function measuring(state: WalkState, step: string, change: Partial<Measured>): WalkState {
  const measured = new Map(state.measured)
  measured.set(step, { ...measuredOf(state, step), ...change })
  return { ...state, measured }
}

/** The state with these steps behind. */
export function passing(state: WalkState, steps: string[]): WalkState {
  return { ...state, passed: new Set([...state.passed, ...steps]) }
}

/** The state with a part changed. */
export function inPart(
  state: WalkState,
  part: number,
  change: (part: PartState) => Partial<PartState>,
): WalkState {
  const partStates = state.partStates.map((each, index) =>
    index === part ? { ...each, ...change(each) } : each,
  )
  return { ...state, partStates }
}

/** Seconds for which the part of a step was held so far. */
export function heldIn(state: WalkState, step: Step): number {
  return state.partStates[step.part]?.heldSeconds ?? 0
}
