import { isSameItem, type Step } from '../prescription/step.ts'
import { type Moment, momentAfter, momentOf } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { advances, phaseAfter, phaseRealigned } from './reduceAdvance.ts'
import { changes } from './reduceChange.ts'
import {
  type EventOf,
  type Handler,
  type Handlers,
  type PartState,
  type Recorded,
  type SessionState,
  stepOf,
  stepsPassedWith,
  stepUnderWay,
} from './state.ts'
import { inPart, passing } from './timers.ts'

/** What each event changes. One that cannot happen in the current phase leaves the state unchanged. */
const handlers: Handlers = {
  ...advances,
  ...changes,
  sessionStarted: (state, { date, bodyMassKg, maxima, lastLoads = [], fromPaper }, at) => ({
    ...state,
    date,
    bodyMassKg,
    maxima,
    lastLoads,
    fromPaper,
    startedAt: at,
  }),
  opened: (state, { boot }) => ({ ...state, boot }),
  effortBegun: (state, event, at) => withNewEnd(advances.effortBegun(state, event, at)),
  setRecorded: record,
  pieceRecorded: record,
  prepRecorded: record,
  fuelRecorded: record,
  mealRecorded: (state, { meal, result }) => ({ ...state, meals: [...state.meals, { when: meal, result }] }),
  stepSkipped: (state, event, at) =>
    skip(state, (step) => step.id === event.step && !state.skipped.has(step.id), at),
  itemSkipped: (state, event, at) =>
    skip(state, (step) => isSameItem(step, event) && !state.passed.has(step.id), at),
  noteAdded: (state, { about, text, pain }, at) => {
    const part = about === null ? null : (stepOf(state, about)?.part ?? null)
    return { ...state, notes: [...state.notes, { about, part, text, pain, at }] }
  },
  conditionsNoted: (state, { part, text }) => inPart(state, part, () => ({ conditions: text })),
  partClosed: closePart,
  sessionFinished: (state, _, at) =>
    state.finished ? state : { ...state, finished: true, finishedAt: state.endedBefore ?? at },
  // Reopens the parts, keeping their efforts and minutes; missing results can then be typed.
  sessionReopened: (state) =>
    state.finished
      ? {
          ...state,
          finished: false,
          finishedAt: null,
          endedBefore: state.finishedAt,
          partStates: state.partStates.map((part) => ({ ...part, closed: false })),
        }
      : state,
  // replay.ts drops these and the events they undo.
  undone: (state) => state,
}

/** Applies one event. */
export function applyEvent(state: SessionState, event: SessionEvent): SessionState {
  const at = momentOf(event, event.type === 'opened' ? event.boot : state.boot)
  const handle = handlers[event.type] as Handler<SessionEvent['type']>
  return handle(state, event, at)
}

/** A clock that runs after the session was reopened means more training, so the session gets a new end. */
function withNewEnd(state: SessionState): SessionState {
  return state.endedBefore === null || state.phase.kind === 'ready' ? state : { ...state, endedBefore: null }
}

/** Marks steps as skipped and drops their results. Without steps nothing changes. */
function skip(state: SessionState, isSkipped: (step: Step) => boolean, at: Moment | null): SessionState {
  const steps = state.steps.filter(isSkipped)
  if (steps.length === 0) return state
  const recorded = new Map(state.recorded)
  for (const step of steps) recorded.delete(step.id)
  const skipped = new Set([...state.skipped, ...steps.map((step) => step.id)])
  const passed = steps.flatMap((step) => [step.id, ...stepsPassedWith(state, step)])
  const next = { ...passing(state, passed), recorded, skipped }
  return { ...next, phase: phaseRealigned(next, at) }
}

/** The kind of step whose result each event records. */
const recordedKinds = {
  setRecorded: 'set',
  pieceRecorded: 'interval',
  prepRecorded: 'prep',
  fuelRecorded: 'fuel',
} as const

/** Records a result without stopping a clock. A step that was never begun then counts as passed. */
function record(
  state: SessionState,
  event: EventOf<keyof typeof recordedKinds>,
  at: Moment | null,
): SessionState {
  const step = stepOf(state, event.step)
  if (!step || step.kind !== recordedKinds[event.type]) return state
  const result = { kind: recordedKinds[event.type], result: event.result, at } as Recorded
  const recorded = new Map(state.recorded).set(step.id, result)
  const skipped = new Set(state.skipped)
  skipped.delete(step.id)
  const passed = passing(state, [step.id, ...stepsPassedWith(state, step)])
  const next = { ...passed, recorded, skipped, partStates: dated(state, step, result, at) }
  const typedAhead = at !== null && isRestBefore(state, step)
  return { ...next, phase: typedAhead ? phaseAfter(next, step, at) : phaseRealigned(next, at) }
}

/** Whether the current rest or recovery leads to this step. A result typed then had no start by key, so what follows
 * the step begins now. */
function isRestBefore(state: SessionState, step: Step): boolean {
  const { phase } = state
  if (state.passed.has(step.id)) return false
  if (phase.kind === 'rest' || phase.kind === 'roundPause') return phase.next === step.id
  return phase.kind === 'recovery' && stepsPassedWith(state, step).includes(phase.step)
}

/** A session from paper has only the clock times of its results, so those date the part. In a live session a
 * result that is typed while its clock runs ends that effort. */
function dated(state: SessionState, step: Step, result: Recorded, at: Moment | null): readonly PartState[] {
  if (at === null || state.endedBefore !== null) return state.partStates
  if (!state.fromPaper && stepUnderWay(state)?.id !== step.id) return state.partStates
  const took = result.kind === 'interval' ? (result.result.seconds ?? 0) : 0
  const begun = state.fromPaper ? momentAfter(at, -took) : null
  return state.partStates.map((part, index) =>
    index === step.part ? { ...part, begun: part.begun ?? begun, ended: at } : part,
  )
}

function closePart(state: SessionState, event: EventOf<'partClosed'>, at: Moment | null): SessionState {
  const { part, effort, minutes } = event
  if (!state.partStates[part]) return state
  const closed = inPart(state, part, () => ({ closed: true, effort, minutes }))
  const steps = state.steps.filter((step) => step.part === part).map((step) => step.id)
  const passed = passing(closed, steps)
  return { ...passed, phase: phaseRealigned(passed, at) }
}
