import type { SetStep, Step } from '../prescription/step.ts'
import { clockSeconds, elapsedSeconds, type Moment } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { liftItemOf, type Phase, type PhaseOf, type SessionState, stepAhead, stepOf } from './state.ts'
import { heldIn, hold, inPart, isPaced, measuredOf, measuring, passing, resume } from './timers.ts'

type BeatEvent = Extract<
  SessionEvent,
  {
    type:
      | 'effortBegun'
      | 'groupEnded'
      | 'groupBegun'
      | 'effortEnded'
      | 'startForgotten'
      | 'restChanged'
      | 'held'
      | 'resumed'
  }
>

/** What a beat does to the state: the phase decides first, then the event. */
export function applyBeat(state: SessionState, event: BeatEvent, at: Moment): SessionState {
  if (event.type === 'held') return hold(state, event.since, at)
  if (event.type === 'resumed') return resume(state, at)
  const { phase } = state
  switch (phase.kind) {
    case 'ready':
      return event.type === 'effortBegun' ? begin(state, event, at) : state
    case 'recovery':
      if (event.type === 'effortBegun') return begin(state, event, at)
      if (event.type === 'restChanged') return changeRecovery(state, phase, event.seconds, at)
      return event.type === 'effortEnded' && event.step === phase.step ? endRecovery(state, at) : state
    case 'rest':
    case 'roundPause':
      if (event.type === 'effortBegun') return begin(state, event, at)
      return event.type === 'restChanged' ? changeRest(state, phase, event.seconds, at) : state
    case 'pause':
      if (event.type === 'restChanged') return changeRest(state, phase, event.seconds, at)
      if (event.type === 'effortEnded' && event.step === phase.step) return end(state, phase, at)
      return event.type === 'groupBegun' && event.step === phase.step
        ? nextGroup(state, phase, event, at)
        : state
    case 'effort':
      if (event.type === 'effortEnded' && event.step === phase.step) return end(state, phase, at)
      if (event.type === 'startForgotten' && event.step === phase.step) return forgottenStart(state, phase)
      if (event.type === 'groupEnded' && event.step === phase.step) return endGroup(state, phase, at)
      return state
  }
}

function begin(state: SessionState, event: { step: string; auto: boolean }, at: Moment): SessionState {
  const id = event.step
  const step = stepOf(state, id)
  if (!step || state.passed.has(id)) return state
  const over = endOfRest(state, at)
  const behind = passing(over, walkedBefore(over, step))
  const begun = inPart(behind, step.part, (part) => ({ begun: part.begun ?? at }))
  if (step.kind === 'recovery')
    return { ...begun, phase: { kind: 'recovery', step: id, changedBy: 0, since: at, heldSeconds: 0 } }
  const heldBefore = heldIn(begun, step)
  const measured = measuring(begun, id, { begun: at, paced: isPaced(state, step), heldBefore })
  const { phase } = state
  const rested = phase.kind === 'rest' || phase.kind === 'roundPause' ? phase.after : null
  return {
    ...measured,
    phase: { kind: 'effort', step: id, group: 0, auto: event.auto, rested, since: at, heldSeconds: 0 },
  }
}

/** What was only walked before a step: the recoveries right before it, the ramp of its exercise. */
function walkedBefore(state: SessionState, step: Step): string[] {
  const index = state.steps.indexOf(step)
  const behind: string[] = []
  for (let before = index - 1; before >= 0; before--) {
    const each = state.steps[before] as Step
    const walked = each.kind === 'recovery' || (each.kind === 'ramp' && each.item === step.item)
    if (!walked || each.part !== step.part) break
    behind.push(each.id)
  }
  return step.kind === 'ramp' ? behind.filter((id) => stepOf(state, id)?.kind === 'recovery') : behind
}

/** A rest or recovery that ends because the next effort begins is measured from key to key. */
function endOfRest(state: SessionState, at: Moment): SessionState {
  const { phase } = state
  if (phase.kind === 'rest' || phase.kind === 'roundPause')
    return measuring(state, phase.after, { rest: clockSeconds(phase, at) })
  if (phase.kind !== 'recovery') return state
  const seconds = clockSeconds(phase, at)
  return passing(measuring(state, phase.step, { begun: phase.since, ended: at, seconds }), [phase.step])
}

/** A recovery behind which nothing of its part is left to run. */
function endRecovery(state: SessionState, at: Moment): SessionState {
  return { ...endOfRest(state, at), phase: { kind: 'ready', since: at, heldSeconds: 0 } }
}

function end(state: SessionState, phase: PhaseOf<'effort' | 'pause'>, at: Moment): SessionState {
  const step = stepOf(state, phase.step)
  if (!step) return state
  const before = measuredOf(state, step.id)
  const begun = before.begun ?? phase.since
  const held = heldIn(state, step) - before.heldBefore
  const whole = phase.group > 0 ? elapsedSeconds(begun, at) - held : clockSeconds(phase, at)
  const ended = measuring(state, step.id, { begun, ended: at, seconds: Math.max(0, whole) })
  const dated = inPart(ended, step.part, (part) => ({ ended: at, heldByEnd: part.heldSeconds }))
  const passed = passing(dated, [step.id])
  return { ...passed, phase: phaseAfter(passed, step, at) }
}

/** The start was not pressed: the key that seemed to begin the set ended it, and the rest before it has no measured length. */
function forgottenStart(state: SessionState, phase: PhaseOf<'effort'>): SessionState {
  const unrested = phase.rested === null ? state : measuring(state, phase.rested, { rest: null })
  const ended = end(unrested, phase, phase.since)
  return measuring(ended, phase.step, { begun: null, seconds: null })
}

function endGroup(state: SessionState, phase: PhaseOf<'effort'>, at: Moment): SessionState {
  const step = stepOf(state, phase.step)
  if (step?.kind !== 'set' || step.dose.kind !== 'cluster') return state
  if (phase.group >= step.dose.groups.length - 1) return state
  const seconds = step.pauseInSet ?? 0
  return {
    ...state,
    phase: { kind: 'pause', step: step.id, group: phase.group + 1, seconds, since: at, heldSeconds: 0 },
  }
}

function nextGroup(
  state: SessionState,
  phase: PhaseOf<'pause'>,
  event: { auto: boolean },
  at: Moment,
): SessionState {
  const { pauses } = measuredOf(state, phase.step)
  const measured = measuring(state, phase.step, { pauses: [...pauses, clockSeconds(phase, at)] })
  return {
    ...measured,
    phase: {
      kind: 'effort',
      step: phase.step,
      group: phase.group,
      auto: event.auto,
      rested: null,
      since: at,
      heldSeconds: 0,
    },
  }
}

/** The phase that follows when a step has ended: what the next step of the same item, or of the same part,
 * asks for. The state has the step behind it already. */
export function phaseAfter(state: SessionState, step: Step, at: Moment): Phase {
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

function restAfterSet(state: SessionState, step: SetStep, next: SetStep, at: Moment): Phase {
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
function leftOfRound(state: SessionState, step: SetStep, every: number, at: Moment): number | null {
  const first = roundOf(state, step)
    .map((each) => state.measured.get(each.id))
    .find((measured) => measured?.begun)
  if (!first?.begun) return null
  const held = (state.partStates[step.part]?.heldSeconds ?? 0) - first.heldBefore
  return Math.max(0, every - (elapsedSeconds(first.begun, at) - held))
}

/** The rest that is written on the line; the set that it stands behind may have been skipped, or added. */
function restOfItem(state: SessionState, step: SetStep): number | null {
  return liftItemOf(state, step)?.rest?.from ?? null
}

function roundOf(state: SessionState, step: SetStep): SetStep[] {
  return state.steps.filter(
    (each): each is SetStep =>
      each.kind === 'set' &&
      each.part === step.part &&
      each.item === step.item &&
      each.number === step.number,
  )
}

/** The phase when steps went behind without a key: what it waited for, or was under way, may lie behind now. */
export function phaseRealigned(state: SessionState, at: Moment | null): Phase {
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

/** Longer or shorter, but never over before now. */
function changed(whole: number, by: number, clock: number): number {
  return Math.max(whole + by, Math.min(whole, clock), 0)
}

/** A rest or pause, longer or shorter by so many seconds; one that counts up stays as it is. */
export function changeRest(
  state: SessionState,
  phase: PhaseOf<'rest' | 'roundPause' | 'pause'>,
  by: number,
  at: Moment,
): SessionState {
  if (phase.seconds === null) return state
  return { ...state, phase: { ...phase, seconds: changed(phase.seconds, by, clockSeconds(phase, at)) } }
}

/** Only a recovery by time can be longer or shorter than it was written. */
export function changeRecovery(
  state: SessionState,
  phase: PhaseOf<'recovery'>,
  by: number,
  at: Moment,
): SessionState {
  const step = stepOf(state, phase.step)
  if (step?.kind !== 'recovery' || step.seconds === null) return state
  const whole = step.seconds + phase.changedBy
  const changedBy = changed(whole, by, clockSeconds(phase, at)) - step.seconds
  return { ...state, phase: { ...phase, changedBy } }
}
