import { isSameItem, type Step } from '../prescription/step.ts'
import { type Moment, momentAfter, momentOf } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { applyAdvance, phaseAfter, phaseRealigned } from './reduceAdvance.ts'
import { applyChange } from './reduceChange.ts'
import {
  type PartState,
  type Recorded,
  type SessionState,
  stepOf,
  stepsPassedWith,
  stepUnderWay,
} from './state.ts'
import { inPart, passing } from './timers.ts'

/** Applies one event. An event that cannot happen in the current phase leaves the state unchanged. `undone` never
 * arrives here: replay.ts drops the undone events first. */
export function applyEvent(state: SessionState, event: SessionEvent): SessionState {
  const at = momentOf(event, event.type === 'opened' ? event.boot : state.boot)
  switch (event.type) {
    case 'sessionStarted':
      return {
        ...state,
        date: event.date,
        bodyMassKg: event.bodyMassKg,
        maxima: event.maxima,
        lastLoads: event.lastLoads ?? [],
        fromPaper: event.fromPaper,
        startedAt: at,
      }
    case 'opened':
      return { ...state, boot: event.boot }
    case 'effortBegun':
      return at === null ? state : withNewEnd(applyAdvance(state, event, at))
    case 'groupEnded':
    case 'groupBegun':
    case 'effortEnded':
    case 'startForgotten':
    case 'restChanged':
    case 'held':
    case 'resumed':
      return at === null ? state : applyAdvance(state, event, at)
    case 'setRecorded':
    case 'pieceRecorded':
    case 'prepRecorded':
    case 'fuelRecorded':
      return record(state, event, at)
    case 'mealRecorded':
      return { ...state, meals: [...state.meals, { when: event.meal, result: event.result }] }
    case 'stepSkipped':
      return skip(
        state,
        state.steps.filter((step) => step.id === event.step && !state.skipped.has(step.id)),
        at,
      )
    case 'itemSkipped':
      return skip(
        state,
        state.steps.filter((step) => isSameItem(step, event) && !state.passed.has(step.id)),
        at,
      )
    case 'paceSet':
    case 'loadChosen':
    case 'stepAdded':
    case 'exerciseSwapped':
    case 'itemMoved':
    case 'dayCut':
      return applyChange(state, event, at)
    case 'noteAdded':
      return addNote(state, event)
    case 'conditionsNoted':
      return inPart(state, event.part, () => ({ conditions: event.text }))
    case 'partClosed':
      return closePart(state, event, at)
    case 'sessionFinished':
      return state.finished ? state : { ...state, finished: true, finishedAt: state.endedBefore ?? at }
    case 'sessionReopened':
      return state.finished ? reopen(state) : state
    case 'undone':
      return state
  }
}

/** A clock that runs after the session was reopened means more training, so the session gets a new end. */
function withNewEnd(state: SessionState): SessionState {
  return state.endedBefore === null || state.phase.kind === 'ready' ? state : { ...state, endedBefore: null }
}

type Event<T extends SessionEvent['type']> = Extract<SessionEvent, { type: T }>

/** Marks steps as skipped and drops their results. Without steps nothing changes. */
function skip(state: SessionState, steps: Step[], at: Moment | null): SessionState {
  if (steps.length === 0) return state
  const recorded = new Map(state.recorded)
  for (const step of steps) recorded.delete(step.id)
  const skipped = new Set([...state.skipped, ...steps.map((step) => step.id)])
  const passed = new Set([
    ...state.passed,
    ...steps.map((step) => step.id),
    ...steps.flatMap((step) => stepsPassedWith(state, step)),
  ])
  const next = { ...state, recorded, skipped, passed }
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
  event: Event<keyof typeof recordedKinds>,
  at: Moment | null,
): SessionState {
  const step = stepOf(state, event.step)
  if (!step || step.kind !== recordedKinds[event.type]) return state
  const result = { kind: recordedKinds[event.type], result: event.result, at } as Recorded
  const recorded = new Map(state.recorded).set(step.id, result)
  const skipped = new Set(state.skipped)
  skipped.delete(step.id)
  const passed = new Set([...state.passed, step.id, ...stepsPassedWith(state, step)])
  const next = { ...state, recorded, skipped, passed, partStates: dated(state, step, result, at) }
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

function addNote(state: SessionState, { about, text, pain }: Event<'noteAdded'>): SessionState {
  const part = about === null ? null : (stepOf(state, about)?.part ?? null)
  return { ...state, notes: [...state.notes, { about, part, text, pain }] }
}

function closePart(state: SessionState, event: Event<'partClosed'>, at: Moment | null): SessionState {
  const { part, effort, minutes } = event
  if (!state.partStates[part]) return state
  const closed = inPart(state, part, () => ({ closed: true, effort, minutes }))
  const steps = state.steps.filter((step) => step.part === part).map((step) => step.id)
  const passed = passing(closed, steps)
  return { ...passed, phase: phaseRealigned(passed, at) }
}

/** Reopens the parts, keeping their efforts and minutes; missing results can then be typed. */
function reopen(state: SessionState): SessionState {
  const partStates = state.partStates.map((part) => ({ ...part, closed: false }))
  return { ...state, finished: false, finishedAt: null, endedBefore: state.finishedAt, partStates }
}
