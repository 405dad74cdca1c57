import { speedLimits } from '../prescription/plausible.ts'
import { repsOf, type SetStep, type Step } from '../prescription/step.ts'
import { type Moment, secondsBetween, whenOf } from './clock.ts'
import type { Remarks } from './entry/lex.ts'
import type { SessionEvent } from './model.ts'
import type { Answer } from './prompt.ts'
import { applyEvent } from './reduce.ts'
import {
  intervalAfter,
  measuredOf,
  type Phase,
  type PhaseOf,
  recordedBy,
  type SessionState,
  stepOf,
  stepsAhead,
  stepUnderWay,
} from './state.ts'
import { clockSeconds, countdownOf, endOf } from './timers.ts'

/* The events that a key, the clock or an answer adds. */

/** The events that Space adds in the current phase. Empty if nothing can begin. */
export function advanceEvents(state: SessionState, now: Moment): SessionEvent[] {
  const when = whenOf(now)
  if (state.stopped) return [{ type: 'resumed', ...when }]
  const { phase } = state
  if (phase.kind === 'effort') return endOfEffort(state, phase, now)
  if (phase.kind !== 'ready') return [endOfWait(state, phase, when, false)]
  // A meal has no clock, so the next step can begin before the meal is recorded.
  const next = state.finished ? undefined : stepsAhead(state).find((step) => step.kind !== 'fuel')
  return next ? [{ type: 'effortBegun', ...when, step: next.id, auto: false }] : []
}

/** The event that ends a rest, a pause or a recovery. */
function endOfWait(
  state: SessionState,
  phase: Exclude<Phase, { kind: 'ready' | 'effort' }>,
  when: When,
  auto: boolean,
): SessionEvent {
  if (phase.kind === 'pause')
    return { type: 'groupBegun', ...when, step: phase.step, group: phase.group, auto }
  if ('next' in phase) return { type: 'effortBegun', ...when, step: phase.next, auto }
  const next = intervalAfter(state, phase.step)
  return next
    ? { type: 'effortBegun', ...when, step: next.id, auto }
    : { type: 'effortEnded', ...when, step: phase.step, auto }
}

function endOfEffort(state: SessionState, phase: PhaseOf<'effort'>, now: Moment): SessionEvent[] {
  const when = whenOf(now)
  const { step: id, group } = phase
  const step = stepOf(state, id)
  if (step?.kind === 'set' && isGroupEnd(state, step, group))
    return [{ type: 'groupEnded', ...when, step: id, group, auto: false }]
  if (step && !phase.auto && clockSeconds(state, now) < fewestSeconds(step)) {
    // The same key ended the split before: pressed twice, it counts once.
    const isBegunByKey = measuredOf(state, id).begun !== null
    return isBegunByKey ? [{ type: 'startForgotten', ...when, step: id }] : []
  }
  const ended: SessionEvent = { type: 'effortEnded', ...when, step: id, auto: false }
  // Prep has no result: ending it completes it.
  return step?.kind === 'prep'
    ? [ended, { type: 'prepRecorded', ...when, step: id, result: { note: null, pain: null } }]
    : [ended]
}

/** Whether the key ends a group rather than the set: before the last group, unless the clock ends it. */
function isGroupEnd(state: SessionState, { dose }: SetStep, group: number): boolean {
  return dose.kind === 'cluster' && group < dose.groups.length - 1 && !countdownOf(state)?.byItself
}

/** The shortest a step can take, in seconds: nobody lifts faster than one repetition a second, or ends a hold, a carry
 * or a run within three, except a sprint. This program's own rule. A key press sooner than that after the one that seemed
 * to begin the step shows that the start was forgotten. */
export function fewestSeconds(step: Step): number {
  if (step.kind === 'interval') return Math.min(3, (step.meters ?? 100) / speedLimits('run', null).fast)
  if (step.kind !== 'set' || step.dose.kind === 'cluster') return 0
  return repsOf(step.dose, 0) ?? 3
}

/** The events that have come due by now without a key, each dated to the moment it was due, so that a program that
 * was not running catches up exactly. Empty while the clocks are stopped. */
export function dueEvents(state: SessionState, now: Moment): SessionEvent[] {
  const events: SessionEvent[] = []
  let current = state
  for (;;) {
    const event = nextDue(current, now)
    if (!event) return events
    const next = applyEvent(current, event)
    // An event that changes nothing would be due forever.
    if (next === current) return events
    events.push(event)
    current = next
  }
}

function nextDue(state: SessionState, now: Moment): SessionEvent | null {
  const end = endOf(state)
  if (!end || !countdownOf(state)?.byItself || secondsBetween(end, now) < 0) return null
  // What came due before the machine was restarted has no uptime in this boot.
  const when = whenOf(end.boot === state.boot ? end : { ...end, up: null })
  const { phase } = state
  if (phase.kind === 'ready') return null
  if (phase.kind !== 'effort') return endOfWait(state, phase, when, true)
  const { step, group } = phase
  return stepOf(state, step)?.kind === 'set'
    ? { type: 'groupEnded', ...when, step, group, auto: true }
    : { type: 'effortEnded', ...when, step, auto: true }
}

/** The events that an answer adds. It ends its step if that is under way, but not the clock of an interval. */
export function answerEvents(state: SessionState, step: Step, answer: Answer, now: Moment): SessionEvent[] {
  const when = whenOf(now)
  const isEnded = stepUnderWay(state)?.id === step.id && step.kind !== 'interval'
  const recorded = recordedEvents(step.id, answer, when)
  return isEnded ? [{ type: 'effortEnded', ...when, step: step.id, auto: false }, ...recorded] : recorded
}

export type When = Pick<SessionEvent, 'at' | 'up'>

/** The events that record an answer. A skipped step has no result to hold its comment, which becomes a note on the
 * step. */
export function recordedEvents(step: string, answer: Answer, when: When): SessionEvent[] {
  if (answer.kind === 'skipped')
    return [{ type: 'stepSkipped', ...when, step }, ...remarkEvents(answer, step, when)]
  return [{ type: recordedBy(answer.kind), ...when, step, result: answer.result } as SessionEvent]
}

/** Remarks that belong to no result, as notes. */
export function remarkEvents({ note, pain }: Remarks, about: string | null, when: When): SessionEvent[] {
  const events: SessionEvent[] = []
  if (note !== null) events.push({ type: 'noteAdded', ...when, about, text: note, pain: false })
  if (pain !== null) events.push({ type: 'noteAdded', ...when, about, text: pain, pain: true })
  return events
}

/** The last event of a session from paper: when it was typed in, which is the same on every machine and after a restore,
 * unlike the time of its file. */
export function typedIn(at: string): SessionEvent {
  return { type: 'opened', at, up: null, boot: null }
}
