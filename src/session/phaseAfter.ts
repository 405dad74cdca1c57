import type { SetStep, Step } from '../prescription/step.ts'
import { elapsedSeconds, type Moment } from './clock.ts'
import { type Phase, stepAhead, type WalkState } from './state.ts'

/** The phase that follows when a step has ended: what the next step of the same item, or of the same part,
 * asks for. The state has the step behind it already. */
export function phaseAfter(state: WalkState, step: Step, at: Moment): Phase {
  const next = stepAhead(state)
  const ready: Phase = { kind: 'ready', since: at, heldSeconds: 0 }
  if (!next || next.part !== step.part) return ready
  const sameItem = next.item === step.item
  const running = { since: at, heldSeconds: 0 }
  switch (step.kind) {
    case 'piece': {
      if (next.kind === 'recovery') return { kind: 'recovery', step: next.id, ...running }
      const goesOn = sameItem && next.kind === 'piece' && (step.work !== next.work || !step.endsPiece)
      return goesOn ? { kind: 'effort', step: next.id, group: 0, ...running } : ready
    }
    case 'ramp':
      if (!sameItem) return ready
      return {
        kind: 'rest',
        after: step.id,
        next: next.id,
        seconds: step.restSeconds,
        byItself: false,
        ...running,
      }
    case 'set':
      return sameItem && next.kind === 'set' ? restAfterSet(state, step, next, at) : ready
    default:
      return ready
  }
}

function restAfterSet(state: WalkState, step: SetStep, next: SetStep, at: Moment): Phase {
  const running = { since: at, heldSeconds: 0 }
  if (step.superset && next.number === step.number)
    return { kind: 'roundPause', after: step.id, next: next.id, seconds: step.pauseAfter ?? 0, ...running }
  if (step.every !== null) {
    const begun = roundBegun(state, step)
    const seconds = begun ? Math.max(0, step.every - elapsedSeconds(begun, at)) : null
    return { kind: 'rest', after: step.id, next: next.id, seconds, byItself: seconds !== null, ...running }
  }
  const seconds = restOfRound(state, step)
  return { kind: 'rest', after: step.id, next: next.id, seconds, byItself: false, ...running }
}

/** When the first exercise of this round was begun. */
function roundBegun(state: WalkState, step: SetStep): Moment | null {
  const first = roundOf(state, step)[0]
  return first ? (state.measured.get(first.id)?.begun ?? null) : null
}

/** The rest stands on the last set of its round, which may have been skipped. */
function restOfRound(state: WalkState, step: SetStep): number | null {
  const round = roundOf(state, step)
  return round.find((each) => each.restAfter !== null)?.restAfter?.from ?? null
}

function roundOf(state: WalkState, step: SetStep): SetStep[] {
  return state.steps.filter(
    (each): each is SetStep =>
      each.kind === 'set' &&
      each.part === step.part &&
      each.item === step.item &&
      each.number === step.number,
  )
}

/** The phase when steps went behind without a key: what it waited for, or was under way, may lie behind now. */
export function phaseRealigned(state: WalkState, at: Moment | null): Phase {
  const { phase } = state
  switch (phase.kind) {
    case 'ready':
      return phase
    case 'rest':
    case 'roundPause': {
      if (!state.passed.has(phase.next)) return phase
      const after = state.steps.find((step) => step.id === phase.after)
      if (!after) return { kind: 'ready', since: phase.since, heldSeconds: phase.heldSeconds }
      return { ...phaseAfter(state, after, phase.since), heldSeconds: phase.heldSeconds }
    }
    case 'recovery':
      if (!state.passed.has(phase.step)) return phase
      return { kind: 'ready', since: phase.since, heldSeconds: phase.heldSeconds }
    case 'effort':
    case 'pause': {
      if (!state.passed.has(phase.step)) return phase
      const step = state.steps.find((each) => each.id === phase.step)
      return step ? phaseAfter(state, step, at ?? phase.since) : { kind: 'ready', since: at, heldSeconds: 0 }
    }
  }
}
