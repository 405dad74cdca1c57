import type { SetStep, Step } from '../prescription/step.ts'
import { elapsedSeconds, type Moment } from './clock.ts'
import { liftItemOf, type Phase, stepAhead, type WalkState } from './state.ts'

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
      if (next.kind === 'recovery') return { kind: 'recovery', step: next.id, changedBy: 0, ...running }
      const goesOn = sameItem && next.kind === 'piece' && (step.work !== next.work || !step.endsPiece)
      return goesOn
        ? { kind: 'effort', step: next.id, group: 0, auto: false, rested: null, ...running }
        : ready
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
    const seconds = leftOfRound(state, step, step.every, at)
    return { kind: 'rest', after: step.id, next: next.id, seconds, byItself: seconds !== null, ...running }
  }
  const seconds = restOfItem(state, step)
  return { kind: 'rest', after: step.id, next: next.id, seconds, byItself: false, ...running }
}

/** What is left of the time at which every round begins, held time taken out; null when none of it was begun by a key. */
function leftOfRound(state: WalkState, step: SetStep, every: number, at: Moment): number | null {
  const first = roundOf(state, step)
    .map((each) => state.measured.get(each.id))
    .find((measured) => measured?.begun)
  if (!first?.begun) return null
  const held = (state.partStates[step.part]?.heldSeconds ?? 0) - first.heldBefore
  return Math.max(0, every - (elapsedSeconds(first.begun, at) - held))
}

/** The rest that is written on the line; the set that it stands behind may have been skipped, or added. */
function restOfItem(state: WalkState, step: SetStep): number | null {
  return liftItemOf(state, step)?.rest?.from ?? null
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
