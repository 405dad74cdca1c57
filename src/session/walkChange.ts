import type { Step } from '../prescription/step.ts'
import type { SessionEvent } from './model.ts'
import { phaseRealigned } from './phaseAfter.ts'
import { type Change, stepOf, type WalkState } from './state.ts'

type ChangeEvent = Extract<
  SessionEvent,
  { type: 'paceSet' | 'stepAdded' | 'exerciseSwapped' | 'itemMoved' | 'dayCut' }
>

/** What a change of the day does to the steps that are still to come. What was prescribed is kept beside it. */
export function walkChange(state: WalkState, event: ChangeEvent): WalkState {
  switch (event.type) {
    case 'paceSet': {
      const pace = new Map(state.pace)
      if (event.secondsPerRep === null) pace.delete(event.exercise)
      else pace.set(event.exercise, event.secondsPerRep)
      return { ...state, pace }
    }
    case 'stepAdded':
      return add(state, event.step, event.like)
    case 'exerciseSwapped':
      return swap(state, event.step, event.name)
    case 'itemMoved':
      return move(state, event.item, event.before)
    case 'dayCut': {
      const steps = event.steps.filter((id) => stepOf(state, id) && !state.passed.has(id))
      if (steps.length === 0) return state
      const cut = {
        ...state,
        passed: new Set([...state.passed, ...steps]),
        skipped: new Set([...state.skipped, ...steps]),
        changes: [...state.changes, { kind: 'cut', minutes: event.minutes, steps } satisfies Change],
      }
      return { ...cut, phase: phaseRealigned(cut, state.latest) }
    }
  }
}

/** One more, behind the last of its item and exercise; a repeat brings its recovery along. */
function add(state: WalkState, id: string, likeId: string): WalkState {
  const like = stepOf(state, likeId)
  if (!like || stepOf(state, id) || (like.kind !== 'set' && like.kind !== 'piece')) return state
  const siblings = state.steps.filter((step) => isSibling(step, like))
  const last = siblings.at(-1) as Step
  const added = { ...like, id, number: like.number + siblings.length } as Step
  const recovery = state.steps.find(
    (step) => step.kind === 'recovery' && step.part === like.part && step.item === like.item,
  )
  const rows: Step[] =
    like.kind === 'piece' && recovery?.kind === 'recovery'
      ? [{ ...recovery, id: `${id}-recovery`, countsWith: [last.id] }, added]
      : [added]
  const at = state.steps.indexOf(last) + 1
  const total = siblings.length + 1
  const steps = [...state.steps.slice(0, at), ...rows, ...state.steps.slice(at)].map((step): Step => {
    if (step.id !== id && !isSibling(step, like)) return step
    if (step.kind === 'set') {
      const restAfter = step.restAfter ?? (step.id === id ? null : restOf(state, step))
      return {
        ...step,
        of: total,
        number: step.id === id ? total : step.number,
        last: step.id === id,
        restAfter,
      }
    }
    return step.kind === 'piece'
      ? {
          ...step,
          of: total,
          number: step.id === id ? total : step.number,
          split: step.id === id ? false : step.split,
        }
      : step
  })
  return { ...state, steps, changes: [...state.changes, { kind: 'added', step: id }] }
}

/** The rest of the other sets of its item: the last of them had none, and is no longer the last. */
function restOf(state: WalkState, step: Step) {
  const other = state.steps.find(
    (each) =>
      each.kind === 'set' && each.part === step.part && each.item === step.item && each.restAfter !== null,
  )
  return other?.kind === 'set' ? other.restAfter : null
}

function isSibling(step: Step, like: Step): boolean {
  if (step.part !== like.part || step.item !== like.item) return false
  if (step.kind === 'set' && like.kind === 'set') return step.exercise === like.exercise
  return step.kind === 'piece' && like.kind === 'piece' && step.work === like.work
}

/** From this step on another exercise: the doses and the rests stay, the load must be typed anew. */
function swap(state: WalkState, id: string, name: string): WalkState {
  const from = stepOf(state, id)
  if (from?.kind !== 'set' || from.name === name) return state
  const start = state.steps.indexOf(from)
  const steps = state.steps.map((step, index): Step => {
    if (index < start || step.kind !== 'set' || !isSibling(step, from) || state.recorded.has(step.id))
      return step
    return { ...step, name, insteadOf: step.insteadOf ?? step.name }
  })
  const change: Change = { kind: 'swapped', step: id, from: from.name, to: name }
  return { ...state, steps, changes: [...state.changes, change] }
}

function move(state: WalkState, item: [number, number], before: [number, number] | null): WalkState {
  const isOf = (step: Step, [part, index]: [number, number]) => step.part === part && step.item === index
  const moving = state.steps.filter((step) => isOf(step, item) && !state.passed.has(step.id))
  if (moving.length === 0 || (before && isOf(moving[0] as Step, before))) return state
  const staying = state.steps.filter((step) => !moving.includes(step))
  const found = before ? staying.findIndex((step) => isOf(step, before) && !state.passed.has(step.id)) : -1
  const at = found < 0 ? staying.length : found
  const steps = [...staying.slice(0, at), ...moving, ...staying.slice(at)]
  const change: Change = { kind: 'moved', part: item[0], item: item[1] }
  return { ...state, steps, changes: [...state.changes, change] }
}
