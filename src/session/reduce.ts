import { linkedSets } from '../prescription/expand.ts'
import type { PrescribedSet } from '../prescription/model.ts'
import {
  hasResult,
  isSameItem,
  isSet,
  isSibling,
  type RecoveryStep,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import { kilogramsOf } from '../units/mass.ts'
import { type Moment, momentAfter, momentOf } from './clock.ts'
import { shownLoadOf } from './load.ts'
import type { Recording, SessionEvent } from './model.ts'
import { advance, phaseAfter, realigned } from './reduceAdvance.ts'
import {
  type Change,
  type EventOf,
  inPart,
  isRecording,
  liftItemOf,
  type Phase,
  passing,
  type Recorded,
  recordedBy,
  type SessionState,
  stepAhead,
  stepOf,
  stepsPassedWith,
  stepUnderWay,
} from './state.ts'

/** The state after an event. One that cannot happen in the current phase leaves it unchanged. */
export function applyEvent(state: SessionState, event: SessionEvent): SessionState {
  const at = momentOf(event, event.type === 'opened' ? event.boot : state.boot)
  if (isRecording(event)) return record(state, event, at)
  switch (event.type) {
    case 'sessionStarted': {
      const { date, bodyMassKg, maxima, lastLoads = [], fromPaper } = event
      return { ...state, date, bodyMassKg, maxima, lastLoads, fromPaper, startedAt: at }
    }
    case 'opened':
      return { ...state, boot: event.boot }
    case 'mealRecorded':
      return { ...state, meals: [...state.meals, { when: event.meal, result: event.result }] }
    case 'stepSkipped':
      return skip(state, ({ id }) => id === event.step && !state.skipped.has(id), at)
    case 'itemSkipped':
      return skip(state, (step) => isSameItem(step, event) && !state.passed.has(step.id), at)
    case 'noteAdded': {
      const { about, text, pain } = event
      return { ...state, notes: [...state.notes, { about, text, pain, at }] }
    }
    case 'conditionsNoted':
      return inPart(state, event.part, () => ({ conditions: event.text }))
    case 'partClosed':
      return closePart(state, event, at)
    case 'sessionFinished':
      return state.finished ? state : { ...state, finished: true, finishedAt: state.endedBefore ?? at }
    case 'sessionReopened':
      return state.finished ? reopened(state) : state
    case 'paceSet': {
      const pace = new Map(state.pace)
      if (event.secondsPerRep === null) pace.delete(event.exercise)
      else pace.set(event.exercise, event.secondsPerRep)
      return { ...state, pace }
    }
    case 'loadChosen': {
      const chosenLoads = new Map(state.chosenLoads).set(event.step, event.load)
      return withoutHeavyWarmUps({ ...state, chosenLoads }, event.step, at)
    }
    case 'stepAdded':
      return addStep(state, event.step, event.like)
    case 'exerciseSwapped':
      return withoutHeavyWarmUps(swap(state, event), event.step, at)
    case 'itemMoved':
      return move(state, event.item, event.before)
    case 'dayCut':
      return cut(state, event, at)
    case 'undone':
      // replay.ts drops it and the events that it undoes.
      return state
    default:
      return at === null ? state : advance(state, event, at)
  }
}

/** Reopens the parts, keeping their efforts and minutes; missing results can then be typed. */
function reopened(state: SessionState): SessionState {
  const partStates = state.partStates.map((part) => ({ ...part, closed: false }))
  return { ...state, finished: false, finishedAt: null, endedBefore: state.finishedAt, partStates }
}

/** Marks steps as skipped and drops their results. */
function skip(state: SessionState, isSkipped: (step: Step) => boolean, at: Moment | null): SessionState {
  const steps = state.steps.filter(isSkipped)
  if (steps.length === 0) return state
  const recorded = new Map(state.recorded)
  for (const step of steps) recorded.delete(step.id)
  const skipped = new Set([...state.skipped, ...steps.map((step) => step.id)])
  const passed = steps.flatMap((step) => [step.id, ...stepsPassedWith(state, step)])
  return realigned({ ...passing(state, passed), recorded, skipped }, at)
}

/** Records a result without stopping a clock. A step that was never begun then counts as passed. */
function record(state: SessionState, event: Recording, at: Moment | null): SessionState {
  const step = stepOf(state, event.step)
  if (!step || !hasResult(step) || recordedBy(step.kind) !== event.type) return state
  const result = { kind: step.kind, result: event.result, at } as Recorded
  const recorded = new Map(state.recorded).set(step.id, result)
  const skipped = new Set(state.skipped)
  skipped.delete(step.id)
  const passed = passing(state, [step.id, ...stepsPassedWith(state, step)])
  const next = { ...withDates(passed, result, step, at), recorded, skipped }
  const typedAhead = at !== null && isRestBefore(state, step)
  return typedAhead ? { ...next, phase: phaseAfter(next, step, at) } : realigned(next, at)
}

/** Whether the current rest or recovery leads to this step. A result typed then had no start by key, so what follows
 * the step begins now. */
function isRestBefore(state: SessionState, step: Step): boolean {
  const { phase } = state
  if (state.passed.has(step.id)) return false
  if ('next' in phase) return phase.next === step.id
  return phase.kind === 'recovery' && stepsPassedWith(state, step).includes(phase.step)
}

/** Updates the beginning and the end of the part of a result. On paper only results have clock times, so those date the
 * part; live, a result typed while its clock runs ends that effort. */
function withDates(state: SessionState, result: Recorded, step: Step, at: Moment | null): SessionState {
  if (at === null || state.endedBefore !== null) return state
  if (!state.fromPaper && stepUnderWay(state)?.id !== step.id) return state
  const took = result.kind === 'interval' ? (result.result.seconds ?? 0) : 0
  const begun = state.fromPaper ? momentAfter(at, -took) : null
  return inPart(state, step.part, (part) => ({ begun: part.begun ?? begun, ended: at }))
}

function closePart(state: SessionState, event: EventOf<'partClosed'>, at: Moment | null): SessionState {
  const { part, effort, minutes } = event
  if (!state.partStates[part]) return state
  const closed = inPart(state, part, () => ({ closed: true, effort, minutes }))
  const steps = state.steps.filter((step) => step.part === part).map((step) => step.id)
  return realigned(passing(closed, steps), at)
}

/* Changes to the steps that are still to come. */

function cut(state: SessionState, { minutes, steps }: EventOf<'dayCut'>, at: Moment | null): SessionState {
  const left = steps.filter((id) => stepOf(state, id) && !state.passed.has(id))
  const change: Change = { kind: 'cut', minutes, steps: left }
  return left.length === 0 ? state : leaveOut({ ...state, changes: [...state.changes, change] }, left, at)
}

function leaveOut(state: SessionState, steps: readonly string[], at: Moment | null): SessionState {
  return realigned({ ...passing(state, steps), skipped: new Set([...state.skipped, ...steps]) }, at)
}

/** Leaves out the warm-up sets still to come that are as heavy as the working load has become. */
function withoutHeavyWarmUps(state: SessionState, id: string, at: Moment | null): SessionState {
  const set = stepOf(state, id)
  const load = set?.kind === 'set' ? shownLoadOf(state, set).shown : null
  if (set?.kind !== 'set' || load?.kind !== 'mass') return state
  const heavy = state.steps.filter(
    (step) =>
      step.kind === 'warm-up' &&
      isSameItem(step, set) &&
      step.exercise === set.exercise &&
      !state.passed.has(step.id) &&
      step.id !== stepUnderWay(state)?.id &&
      kilogramsOf(step.load) >= kilogramsOf(load),
  )
  const ids = heavy.map((step) => step.id)
  return ids.length === 0 ? state : leaveOut(state, ids, at)
}

/** Swaps the exercise from this step on. Without sets of its own, the doses and rests stay and the load must be typed
 * again. Warm-up sets still to come become those of the new exercise. */
function swap(state: SessionState, { step: id, name, sets, side }: EventOf<'exerciseSwapped'>): SessionState {
  const from = stepOf(state, id)
  if (from?.kind !== 'set' || (from.name === name && !sets) || state.passed.has(id)) return state
  const ahead = setsAhead(state, from)
  const steps = state.steps.map((step): Step => {
    const isWarmUp = step.kind === 'warm-up' && isSameItem(step, from) && step.exercise === from.exercise
    if (isWarmUp && !state.passed.has(step.id)) return { ...step, name }
    const set = ahead.find(({ id: each }) => each === step.id)
    if (set === undefined) return step
    const prescribed = set.insteadOf ?? set.name
    return { ...set, name, insteadOf: prescribed === name ? null : prescribed }
  })
  const change: Change = { kind: 'swapped', step: id, from: from.name, to: name }
  // Loads chosen for the previous exercise do not apply to this one.
  const chosenLoads = new Map(state.chosenLoads)
  for (const step of ahead) chosenLoads.delete(step.id)
  const swapped = { ...state, chosenLoads, steps, changes: [...state.changes, change] }
  return sets ? withSets(swapped, from, sets, side === undefined ? from.side : side) : swapped
}

/** The sets from this one on, as typed with the swap: as many as typed, except within a superset, whose
 * rounds stay; the last typed set repeats. */
function withSets(
  state: SessionState,
  from: SetStep,
  sets: readonly PrescribedSet[],
  side: SetStep['side'],
): SessionState {
  const ahead = setsAhead(state, from)
  const spare = new Set(from.superset ? [] : ahead.slice(sets.length).map(({ id }) => id))
  let next: SessionState = { ...state, steps: state.steps.filter(({ id }) => !spare.has(id)) }
  for (let count = ahead.length; !from.superset && count < sets.length; count++)
    next = addStep(next, `${from.id}+swap${count}`, from.id)
  const planned = setsAhead(next, from)
  const steps = next.steps.map((step): Step => {
    const place = planned.findIndex(({ id }) => id === step.id)
    const typed = sets[Math.min(place, sets.length - 1)]
    return step.kind === 'set' && typed ? { ...step, ...typed, side, loadFor: step.name } : step
  })
  return { ...next, steps: relinked(steps, from, state) }
}

/** The steps, with the rests and counts on the line of one set worked out again. */
function relinked(steps: readonly Step[], of: SetStep, state: SessionState): Step[] {
  const item = liftItemOf(state, of)
  const sets = steps.filter(isSet).filter((step) => isSameItem(step, of))
  const linked = new Map(item && linkedSets(sets, item).map((set) => [set.id, set]))
  return steps.map((step) => linked.get(step.id) ?? step)
}

function setsAhead(state: SessionState, from: SetStep): SetStep[] {
  const start = state.steps.findIndex((step) => step.id === from.id)
  const sets = state.steps.slice(start).filter(isSet)
  return sets.filter((step) => isSibling(step, from) && !state.passed.has(step.id))
}

function move(state: SessionState, item: [number, number], before: [number, number] | null): SessionState {
  const isOf = (step: Step, [part, index]: [number, number]) => step.part === part && step.item === index
  const moving = state.steps.filter((step) => isOf(step, item) && !state.passed.has(step.id))
  if (moving.length === 0 || (before && isOf(moving[0] as Step, before))) return state
  const staying = state.steps.filter((step) => !moving.includes(step))
  const found = before ? staying.findIndex((step) => isOf(step, before) && !state.passed.has(step.id)) : -1
  const at = found < 0 ? staying.length : found
  const steps = [...staying.slice(0, at), ...moving, ...staying.slice(at)]
  const change: Change = { kind: 'moved', part: item[0], item: item[1] }
  return realigned({ ...state, steps, changes: [...state.changes, change] }, null)
}

/** Adds one more set or repeat like another, after the last of its exercise or work (in a superset, after the last
 * round). A repeat brings its recovery along. A closed part cannot be extended.
 * @param id the id of the new step */
function addStep(state: SessionState, id: string, likeId: string): SessionState {
  const like = stepOf(state, likeId)
  if (!like || stepOf(state, id) || state.partStates[like.part]?.closed) return state
  if (like.kind !== 'set' && like.kind !== 'interval') return state
  const siblings = state.steps.filter((step) => isSibling(step, like))
  const total = siblings.length + 1
  const isInRound = like.kind === 'set' && like.superset
  const before = (isInRound ? state.steps.filter((step) => isSameItem(step, like)) : siblings).at(-1) ?? like
  const added: Step =
    like.kind === 'set'
      ? { ...like, id, number: total }
      : { ...like, id, number: total, split: false, endsInterval: true, short: false }
  const at = state.steps.indexOf(before) + 1
  const rows = [...recoveryFor(state, siblings, id), added]
  const all = [...state.steps.slice(0, at), ...rows, ...state.steps.slice(at)]
  const steps =
    like.kind === 'set'
      ? relinked(all, like, state)
      : all.map((step) => (isSibling(step, like) ? ({ ...step, of: total } as Step) : step))
  const change: Change = { kind: 'added', step: id }
  const next = { ...state, steps, changes: [...state.changes, change] }
  return { ...next, phase: phaseBefore(next, before.id, id) }
}

/** The recovery for an added repeat: like the one before the last repeat. */
function recoveryFor(state: SessionState, siblings: readonly Step[], id: string): RecoveryStep[] {
  const last = siblings.at(-1) as Step
  const recovery = siblings
    .flatMap((sibling) => {
      const before = state.steps[state.steps.indexOf(sibling) - 1]
      return before?.kind === 'recovery' && isSameItem(before, sibling) ? [before] : []
    })
    .at(-1)
  if (recovery === undefined) return []
  const sendOff = recovery.sendOff && { ...recovery.sendOff, from: last.id }
  return [{ ...recovery, id: `${id}-recovery`, countsWith: [last.id], sendOff }]
}

/** Turns the clock that has run since the last set or repeat into the rest or recovery before the new one. */
function phaseBefore(state: SessionState, before: string, added: string): Phase {
  const { phase } = state
  const ended = state.measured.get(before)?.ended ?? null
  const step = stepOf(state, before)
  const ahead = stepAhead(state)
  const isNext = ahead !== null && (ahead.id === added || ahead.id === `${added}-recovery`)
  if (phase.kind !== 'ready' || !isNext || !step || !ended || phase.since?.wall !== ended.wall) return phase
  return phaseAfter(state, step, ended)
}
