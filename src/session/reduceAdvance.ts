import { partOfWarmUp } from '../prescription/expand.ts'
import { isSameItem, isSet, isSibling, type SetStep, type Step } from '../prescription/step.ts'
import type { Moment } from './clock.ts'
import {
  type EventOf,
  inPart,
  liftItemOf,
  measuredOf,
  measuring,
  type Phase,
  type PhaseOf,
  passing,
  type SessionState,
  stepAhead,
  stepNow,
  stepOf,
  stepsPassedWith,
} from './state.ts'
import { activeSeconds, clockSeconds, countdownOf, resume, stopClock } from './timers.ts'

/** The events that move the session on: a start, an end, the end of a rest. Each needs a time. */
type Advance = EventOf<
  | 'held'
  | 'resumed'
  | 'effortBegun'
  | 'effortEnded'
  | 'startForgotten'
  | 'groupEnded'
  | 'groupBegun'
  | 'restChanged'
>

export function advance(state: SessionState, event: Advance, at: Moment): SessionState {
  const { phase } = state
  if (event.type === 'held') return stopClock(state, event.since !== null, at)
  if (event.type === 'resumed') return resume(state, at)
  if (event.type === 'restChanged') return changeRest(state, event.seconds, at)
  if (event.type === 'effortBegun') return 'group' in phase ? state : begin(state, event, at)
  // The others are about the step whose clock runs.
  if (!('step' in phase) || event.step !== phase.step) return state
  if (event.type === 'effortEnded' && phase.kind !== 'recovery') return end(state, phase, at)
  // No effort of the part is left after a recovery that ends like this.
  if (event.type === 'effortEnded') return { ...endOfRest(state, at), phase: { kind: 'ready', since: at } }
  if (event.type === 'groupBegun')
    return phase.kind === 'pause' ? nextGroup(state, phase, event.auto, at) : state
  if (phase.kind !== 'effort') return state
  return event.type === 'groupEnded' ? endGroup(state, phase, at) : forgottenStart(state, phase)
}

function begin(state: SessionState, event: { step: string; auto: boolean }, at: Moment): SessionState {
  const id = event.step
  const step = stepOf(state, id)
  // A replay without warm-up sets does not know their steps, but a part begins with its warm-up.
  const warmedUp = step ? null : partOfWarmUp(id)
  if (warmedUp !== null) return inPart(state, warmedUp, (part) => ({ begun: part.begun ?? at }))
  if (!step || state.passed.has(id)) return state
  const over = endOfRest(state, at)
  const passed = passing(over, stepsPassedWith(over, step))
  // After the session was reopened, an effort means more training, so the session gets a new end.
  const reopened = { ...passed, endedBefore: null }
  const begun = inPart(reopened, step.part, (part) => ({ begun: part.begun ?? at }))
  if (step.kind === 'recovery')
    return { ...begun, phase: { kind: 'recovery', step: id, changedBy: 0, since: at } }
  const paced = step.kind === 'set' && step.dose.kind === 'cluster' && state.pace.has(step.name)
  const measured = measuring(begun, id, { begun: at, paced })
  const { phase } = state
  const rested = 'after' in phase ? phase.after : null
  return {
    ...measured,
    phase: { kind: 'effort', step: id, group: 0, auto: event.auto, rested, since: at },
  }
}

/** Measures a rest or recovery from key to key when the next effort ends it; not after a set whose result was typed
 * without the key that ends it, which may have been lifted long before. */
function endOfRest(state: SessionState, at: Moment): SessionState {
  const { phase } = state
  if ('after' in phase) {
    const { ended } = measuredOf(state, phase.after)
    return ended === null ? state : measuring(state, phase.after, { rest: clockSeconds(state, at) })
  }
  if (phase.kind !== 'recovery') return state
  const seconds = clockSeconds(state, at)
  return passing(measuring(state, phase.step, { begun: phase.since, ended: at, seconds }), [phase.step])
}

function end(state: SessionState, phase: PhaseOf<'effort' | 'pause'>, at: Moment): SessionState {
  const step = stepOf(state, phase.step)
  if (!step) return state
  const begun = measuredOf(state, step.id).begun ?? phase.since
  const ended = measuring(state, step.id, { begun, ended: at, seconds: activeSeconds(state, begun, at) })
  const dated = inPart(ended, step.part, () => ({ ended: at }))
  const passed = passing(dated, [step.id])
  return { ...passed, phase: phaseAfter(passed, step, at) }
}

/** Corrects a forgotten start: the key that seemed to begin the set ended it, so the rest before has no measured
 * length. */
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
    phase: { kind: 'pause', step: step.id, group: phase.group + 1, seconds, since: at },
  }
}

function nextGroup(state: SessionState, phase: PhaseOf<'pause'>, auto: boolean, at: Moment): SessionState {
  const { step, group } = phase
  const { pauses } = measuredOf(state, step)
  const measured = measuring(state, step, { pauses: [...pauses, clockSeconds(state, at)] })
  return { ...measured, phase: { kind: 'effort', step, group, auto, rested: null, since: at } }
}

/** The phase after a step has ended, decided by the next step of the same item, or else of the same part. The
 * state already counts the step as passed. */
export function phaseAfter(state: SessionState, step: Step, at: Moment): Phase {
  const next = stepAhead(state)
  const ready: Phase = { kind: 'ready', since: at }
  if (!next || next.part !== step.part) return ready
  const sameItem = next.item === step.item
  switch (step.kind) {
    case 'interval': {
      if (next.kind === 'recovery') return { kind: 'recovery', step: next.id, changedBy: 0, since: at }
      const goesOn = sameItem && next.kind === 'interval' && (step.work !== next.work || !step.endsInterval)
      return goesOn
        ? { kind: 'effort', step: next.id, group: 0, auto: false, rested: null, since: at }
        : ready
    }
    case 'warm-up':
      return sameItem
        ? {
            kind: 'rest',
            after: step.id,
            next: next.id,
            seconds: step.restSeconds,
            byItself: false,
            since: at,
          }
        : ready
    case 'set':
      return sameItem && next.kind === 'set' ? restAfterSet(state, step, next, at) : ready
    default:
      return ready
  }
}

function restAfterSet(state: SessionState, step: SetStep, next: SetStep, since: Moment): Phase {
  const rest = { kind: 'rest' as const, after: step.id, next: next.id, since }
  if (step.superset && next.number === step.number)
    return { ...rest, kind: 'roundPause', seconds: step.pauseAfter ?? 0, byItself: true }
  if (step.every !== null) {
    const seconds = secondsToNextRound(state, step, step.every, since)
    return { ...rest, seconds, byItself: seconds !== null }
  }
  // The rest written on the line applies even if the set before it was skipped or added.
  const seconds = liftItemOf(state, step)?.rest?.from ?? null
  return { ...rest, seconds, byItself: seconds === 0 }
}

/** Seconds until the next round begins when rounds begin at a fixed interval. Null when no step of the round was
 * started by a key. */
function secondsToNextRound(state: SessionState, step: SetStep, every: number, at: Moment): number | null {
  const round = state.steps
    .filter(isSet)
    .filter((each) => (step.superset ? isSameItem(each, step) : isSibling(each, step)))
    .filter((each) => each.number === step.number)
  const since = round.map(({ id }) => measuredOf(state, id).begun).find((begun) => begun !== null)
  return since === undefined ? null : Math.max(0, every - activeSeconds(state, since, at))
}

/** The state after steps were passed without a key or moved: the step its phase waited for may be among them. */
export function realigned(state: SessionState, at: Moment | null): SessionState {
  return { ...state, phase: phaseRealigned(state, at) }
}

function phaseRealigned(state: SessionState, at: Moment | null): Phase {
  const { phase } = state
  const step = stepNow(state)
  if (phase.kind === 'ready' || step === null) return phase
  const isAhead = 'group' in phase || stepAhead(state) === step
  if (isAhead && !state.passed.has(step.id)) return phase
  const { since } = phase
  // Both steps exist: one that was passed is never removed.
  if (phase.kind === 'recovery') return { kind: 'ready', since }
  if (phase.kind === 'effort' || phase.kind === 'pause') return phaseAfter(state, step, at ?? since)
  return phaseAfter(state, stepOf(state, phase.after) as Step, since)
}

/** Makes a rest, a pause or a recovery longer or shorter, but never so short that it ended before now. One without a
 * length, such as a rest that counts up or a jog by distance, does not change. */
function changeRest(state: SessionState, by: number, at: Moment): SessionState {
  const { phase } = state
  const countdown = countdownOf(state)
  if (phase.kind === 'ready' || phase.kind === 'effort' || !countdown || countdown.expected) return state
  const whole = countdown.seconds
  const seconds = Math.max(whole + by, Math.min(whole, clockSeconds(state, at)), 0)
  const isRecovery = phase.kind === 'recovery'
  const changed = isRecovery ? { changedBy: phase.changedBy + seconds - whole } : { seconds }
  return { ...state, phase: { ...phase, ...changed } as Phase }
}
