import type { SetStep } from '../prescription/step.ts'
import { type Moment, momentAfter } from './clock.ts'
import { type Phase, stepOf, type WalkState } from './state.ts'
import { isPaced } from './walkBeat.ts'

/** What the running clock goes up to, in seconds on that clock; null when it only counts up.
 * `byItself`: the next thing begins then without a key. */
export interface Countdown {
  seconds: number
  byItself: boolean
  /** An end to be expected (a jog by distance): one signal, and the clock counts up all the while. */
  expected: boolean
}

/** What the clock of this phase goes up to. */
export function countdownOf(state: WalkState): Countdown | null {
  const { phase } = state
  switch (phase.kind) {
    case 'ready':
      return null
    case 'pause':
    case 'roundPause':
      return { seconds: phase.seconds, byItself: true, expected: false }
    case 'rest':
      return phase.seconds === null
        ? null
        : { seconds: phase.seconds, byItself: phase.byItself, expected: false }
    case 'recovery': {
      const step = stepOf(state, phase.step)
      if (step?.kind !== 'recovery' || step.expectedSeconds === null) return null
      const seconds = step.expectedSeconds + phase.changedBy
      return { seconds, byItself: step.walksItself, expected: step.seconds === null }
    }
    case 'effort':
      return countdownOfEffort(state, phase)
  }
}

function countdownOfEffort(state: WalkState, phase: Extract<Phase, { kind: 'effort' }>): Countdown | null {
  const step = stepOf(state, phase.step)
  if (step?.kind === 'piece' && step.seconds !== null)
    return { seconds: step.seconds, byItself: step.walksItself, expected: false }
  if (step?.kind === 'set' && step.dose.kind === 'time')
    return { seconds: step.dose.seconds, byItself: false, expected: false }
  if (step?.kind === 'prep' && step.prep.amount?.kind === 'time')
    return { seconds: step.prep.amount.seconds, byItself: false, expected: false }
  if (step && isPaced(state, step)) return pacedGroup(state, step, phase.group)
  return null
}

function pacedGroup(state: WalkState, step: SetStep, group: number): Countdown | null {
  if (step.dose.kind !== 'cluster') return null
  const reps = step.dose.groups[group]
  const secondsPerRep = state.pace.get(step.name)
  if (reps === undefined || reps === 'max' || secondsPerRep === undefined) return null
  const last = group === step.dose.groups.length - 1
  return { seconds: reps * secondsPerRep, byItself: !last, expected: false }
}

/** When the running clock reaches what it goes up to; null when it only counts up, or is held. */
export function endOf(state: WalkState): Moment | null {
  const { phase } = state
  const countdown = countdownOf(state)
  if (!countdown || phase.since === null || state.held) return null
  return momentAfter(phase.since, countdown.seconds + phase.heldSeconds)
}
