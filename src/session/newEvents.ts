import { speedLimits } from '../prescription/plausible.ts'
import { repsOf, type SetStep, type Step } from '../prescription/step.ts'
import { type Moment, secondsBetween, whenOf } from './clock.ts'
import type { Remarks, SessionEvent } from './model.ts'
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

/* What a key, the clock or an answer adds. */

type WithoutTime<Event> = Event extends unknown ? Omit<Event, 'at' | 'up'> : never
/** An event without its time. */
export type Fact = WithoutTime<SessionEvent>

export type When = Pick<SessionEvent, 'at' | 'up'>

/** Facts as events of one moment. */
export function dated(facts: readonly Fact[], when: When): SessionEvent[] {
  return facts.map(({ type, ...fact }) => ({ type, ...when, ...fact }) as SessionEvent)
}

/** What Space adds in the current phase. Empty if nothing can begin. */
export function advanceFacts(state: SessionState, now: Moment): Fact[] {
  if (state.stopped) return [{ type: 'resumed' }]
  const { phase } = state
  if (phase.kind === 'effort') return endOfEffort(state, phase, now)
  if (phase.kind !== 'ready') return [endOfWait(state, phase, false)]
  // A meal has no clock, so the next step can begin before the meal is recorded.
  const next = state.finished ? undefined : stepsAhead(state).find((step) => step.kind !== 'fuel')
  return next ? [{ type: 'effortBegun', step: next.id, auto: false }] : []
}

/** The end of a rest, a pause or a recovery. */
function endOfWait(
  state: SessionState,
  phase: Exclude<Phase, { kind: 'ready' | 'effort' }>,
  auto: boolean,
): Fact {
  if (phase.kind === 'pause') return { type: 'groupBegun', step: phase.step, group: phase.group, auto }
  if ('next' in phase) return { type: 'effortBegun', step: phase.next, auto }
  const next = intervalAfter(state, phase.step)
  return next ? { type: 'effortBegun', step: next.id, auto } : { type: 'effortEnded', step: phase.step, auto }
}

function endOfEffort(state: SessionState, phase: PhaseOf<'effort'>, now: Moment): Fact[] {
  const { step: id, group } = phase
  const step = stepOf(state, id)
  if (step?.kind === 'set' && isGroupEnd(state, step, group))
    return [{ type: 'groupEnded', step: id, group, auto: false }]
  if (step && !phase.auto && clockSeconds(state, now) < fewestSeconds(step)) {
    // The same key ended the split before: pressed twice, it counts once.
    const isBegunByKey = measuredOf(state, id).begun !== null
    return isBegunByKey ? [{ type: 'startForgotten', step: id }] : []
  }
  const ended: Fact = { type: 'effortEnded', step: id, auto: false }
  // Prep has no result: ending it completes it.
  return step?.kind === 'prep'
    ? [ended, { type: 'prepRecorded', step: id, result: { note: null, pain: null } }]
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
    const due = nextDue(current, now)
    const next = due.reduce(applyEvent, current)
    // An event that changes nothing would be due forever.
    if (next === current) return events
    events.push(...due)
    current = next
  }
}

function nextDue(state: SessionState, now: Moment): SessionEvent[] {
  const end = endOf(state)
  const { phase } = state
  const isDue = end && countdownOf(state)?.byItself && secondsBetween(end, now) >= 0
  if (!isDue || phase.kind === 'ready') return []
  // What came due before the machine was restarted has no uptime in this boot.
  const when = whenOf(end.boot === state.boot ? end : { ...end, up: null })
  return dated([phase.kind === 'effort' ? dueEnd(state, phase) : endOfWait(state, phase, true)], when)
}

function dueEnd(state: SessionState, { step, group }: PhaseOf<'effort'>): Fact {
  return stepOf(state, step)?.kind === 'set'
    ? { type: 'groupEnded', step, group, auto: true }
    : { type: 'effortEnded', step, auto: true }
}

/** What an answer adds. It ends its step if that is under way, but not the clock of an interval. */
export function answerFacts(state: SessionState, step: Step, answer: Answer): Fact[] {
  const isEnded = stepUnderWay(state)?.id === step.id && step.kind !== 'interval'
  const recorded = recordedFacts(step.id, answer)
  return isEnded ? [{ type: 'effortEnded', step: step.id, auto: false }, ...recorded] : recorded
}

/** An answer, recorded. A skipped step has no result to hold its comment, which becomes a note on the step. */
export function recordedFacts(step: string, answer: Answer): Fact[] {
  if (answer.kind === 'skipped') return [{ type: 'stepSkipped', step }, ...remarkFacts(answer, step)]
  return [{ type: recordedBy(answer.kind), step, result: answer.result } as Fact]
}

/** Remarks that belong to no result, as notes. */
export function remarkFacts({ note, pain }: Remarks, about: string | null): Fact[] {
  const facts: Fact[] = []
  if (note !== null) facts.push({ type: 'noteAdded', about, text: note, pain: false })
  if (pain !== null) facts.push({ type: 'noteAdded', about, text: pain, pain: true })
  return facts
}

/** The last event of a session from paper: when it was typed in, which is the same on every machine and after a restore,
 * unlike the time of its file. */
export function typedIn(at: string): SessionEvent {
  return { type: 'opened', at, up: null, boot: null }
}
