import { prescribedReps } from '../prescription/layOutLift.ts'
import type { Step } from '../prescription/step.ts'
import type { Answer } from './asked.ts'
import { type Moment, whenOf } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { effectiveEvents } from './replay.ts'
import { stepAhead, stepOf, type WalkState } from './state.ts'
import { clockSeconds } from './walkBeat.ts'

/** What the key that moves a session on means now, as the facts it makes. Empty when there is nothing to begin. */
export function beatEvents(state: WalkState, now: Moment): SessionEvent[] {
  const when = whenOf(now)
  if (state.held) return [{ type: 'resumed', ...when }]
  const { phase } = state
  switch (phase.kind) {
    case 'ready':
    case 'recovery': {
      const next = phase.kind === 'ready' ? stepAhead(state) : stepBehind(state, phase.step)
      if (!next || state.finished) return []
      if (next.kind === 'fuel')
        return [{ type: 'fuelRecorded', ...when, step: next.id, result: asPlanned(next) }]
      return [{ type: 'effortBegun', ...when, step: next.id, auto: false }]
    }
    case 'rest':
    case 'roundPause':
      return [{ type: 'effortBegun', ...when, step: phase.next, auto: false }]
    case 'pause':
      return [{ type: 'groupBegun', ...when, step: phase.step, group: phase.group, auto: false }]
    case 'effort':
      return [endOfEffort(state, phase.step, phase.group, now)]
  }
}

function asPlanned(step: Extract<Step, { kind: 'fuel' }>) {
  const { carbsG, proteinG, fatG, kcal } = step.fuel
  return { carbsG, proteinG, fatG, kcal, note: null, pain: null }
}

/** The step after a recovery that lies behind it in order. */
function stepBehind(state: WalkState, recovery: string): Step | null {
  const rest = state.steps.slice(state.steps.findIndex((step) => step.id === recovery) + 1)
  return rest.find((step) => !state.passed.has(step.id)) ?? stepAhead(state)
}

function endOfEffort(state: WalkState, id: string, group: number, now: Moment): SessionEvent {
  const when = whenOf(now)
  const step = stepOf(state, id)
  const paced = state.measured.get(id)?.paced === true
  if (step?.kind === 'set' && step.dose.kind === 'cluster' && group < step.dose.groups.length - 1 && !paced)
    return { type: 'groupEnded', ...when, step: id, group, auto: false }
  if (step?.kind === 'set' && step.dose.kind === 'reps' && isStartForgotten(state, step, now))
    return { type: 'startForgotten', ...when, step: id }
  return { type: 'effortEnded', ...when, step: id, auto: false }
}

/** Nobody lifts faster than one repetition a second: a beginning that was ended so soon was the end. */
function isStartForgotten(state: WalkState, step: Extract<Step, { kind: 'set' }>, now: Moment): boolean {
  const { phase } = state
  const reps = prescribedReps(step.dose) ?? 1
  return phase.kind === 'effort' && clockSeconds(phase, now) < reps
}

/** The facts that an answer makes: a set under way is done with it; any other clock runs on. */
export function answerEvents(state: WalkState, step: Step, answer: Answer, now: Moment): SessionEvent[] {
  const when = whenOf(now)
  return [
    ...endedBy(state, step, when),
    recordedEvent(step.id, answer, when),
    ...remarks(answer, step.id, when),
  ]
}

type When = { at: string | null; up: number | null }

function endedBy(state: WalkState, step: Step, when: When): SessionEvent[] {
  const { phase } = state
  const underWay = (phase.kind === 'effort' || phase.kind === 'pause') && phase.step === step.id
  if (!underWay || (step.kind !== 'set' && step.kind !== 'prep')) return []
  if (phase.kind === 'pause') {
    const group = phase.group
    return [
      { type: 'groupBegun', ...when, step: step.id, group, auto: true },
      { type: 'effortEnded', ...when, step: step.id, auto: false },
    ]
  }
  return [{ type: 'effortEnded', ...when, step: step.id, auto: false }]
}

/** The event that records an answer. */
export function recordedEvent(step: string, answer: Answer, when: When): SessionEvent {
  switch (answer.kind) {
    case 'set':
      return { type: 'setRecorded', ...when, step, result: answer.result }
    case 'piece':
      return { type: 'pieceRecorded', ...when, step, result: answer.result }
    case 'prep':
      return { type: 'prepRecorded', ...when, step, result: answer.result }
    case 'fuel':
      return { type: 'fuelRecorded', ...when, step, result: answer.result }
    case 'skipped':
      return { type: 'stepSkipped', ...when, step }
  }
}

/** A skipped step has no result to carry its words: they are a note about it. */
export function remarks(answer: Answer, about: string, when: When): SessionEvent[] {
  if (answer.kind !== 'skipped') return []
  const events: SessionEvent[] = []
  if (answer.note !== null) events.push({ type: 'noteAdded', ...when, about, text: answer.note, pain: false })
  if (answer.pain !== null) events.push({ type: 'noteAdded', ...when, about, text: answer.pain, pain: true })
  return events
}

const beats = new Set(['effortBegun', 'groupEnded', 'groupBegun', 'effortEnded', 'startForgotten'])

/** What taking the last thing back would take back: from which event on, what it was, and whether it is a
 * beat (which is asked about again). Null when there is nothing, or a closed part is in the way. */
export function undoOf(
  events: readonly SessionEvent[],
): { from: number; last: SessionEvent; isBeat: boolean } | null {
  const kept = effectiveEvents(events).filter(({ event }) => event.type !== 'opened')
  for (let index = kept.length - 1; index >= 0; index--) {
    const { event, index: from } = kept[index] as (typeof kept)[number]
    if (event.type === 'sessionStarted' || event.type === 'partClosed') return null
    if (event.type === 'sessionFinished' || event.type === 'sessionReopened') return null
    if (!('auto' in event) || !event.auto)
      return {
        from: firstOfKey(kept, index),
        last: event,
        isBeat: beats.has(event.type) || from !== firstOfKey(kept, index),
      }
  }
  return null
}

/** One key can make two facts at the same moment (a set ended and recorded): they are taken back together. */
function firstOfKey(kept: { event: SessionEvent; index: number }[], last: number): number {
  const { event, index } = kept[last] as (typeof kept)[number]
  const before = kept[last - 1]
  const together =
    before && before.event.type === 'effortEnded' && before.event.at === event.at && event.at !== null
  return together ? before.index : index
}
