import { clockSeconds, type Moment } from './clock.ts'
import { type PhaseOf, stepOf, type WalkState } from './state.ts'

/** Longer or shorter, but never over before now. */
function changed(whole: number, by: number, clock: number): number {
  return Math.max(whole + by, Math.min(whole, clock), 0)
}

/** A rest or pause, longer or shorter by so many seconds; one that counts up stays as it is. */
export function changeRest(
  state: WalkState,
  phase: PhaseOf<'rest' | 'roundPause' | 'pause'>,
  by: number,
  at: Moment,
): WalkState {
  if (phase.seconds === null) return state
  return { ...state, phase: { ...phase, seconds: changed(phase.seconds, by, clockSeconds(phase, at)) } }
}

/** Only a recovery by time can be longer or shorter than it was written. */
export function changeRecovery(
  state: WalkState,
  phase: PhaseOf<'recovery'>,
  by: number,
  at: Moment,
): WalkState {
  const step = stepOf(state, phase.step)
  if (step?.kind !== 'recovery' || step.seconds === null) return state
  const whole = step.seconds + phase.changedBy
  const changedBy = changed(whole, by, clockSeconds(phase, at)) - step.seconds
  return { ...state, phase: { ...phase, changedBy } }
}
