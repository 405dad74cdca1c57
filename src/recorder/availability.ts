import type { PieceStep, SetStep, Step } from '../prescription/step.ts'
import { readEntry } from '../session/entry/entry.ts'
import { promptOf } from '../session/prompt.ts'
import { openSteps, type SessionState, stepAhead, stepOf, stepsAhead } from '../session/state.ts'
import { isTimed } from '../session/timers.ts'
import type { RecorderModel } from './model.ts'

/* What the keys of the recorder act on at the moment; null where a key has nothing to act on. */

/** The step that is now: under way, or next. */
export function stepNow(state: SessionState): Step | null {
  const { phase } = state
  switch (phase.kind) {
    case 'effort':
    case 'pause':
    case 'recovery':
      return stepOf(state, phase.step)
    case 'rest':
    case 'roundPause':
      return stepOf(state, phase.next)
    case 'ready':
      return stepAhead(state)
  }
}

/** The step whose effort is under way; null in a rest or between items. */
export function stepUnderWay(state: SessionState): Step | null {
  const { phase } = state
  return phase.kind === 'effort' || phase.kind === 'pause' ? stepOf(state, phase.step) : null
}

/** The set by time that is under way; null for anything else. */
export function holdUnderWay(state: SessionState): SetStep | null {
  const step = stepUnderWay(state)
  return step?.kind === 'set' && step.dose.kind === 'time' ? step : null
}

/** The rest or pause that ↑ and ↓ change, and by how many seconds. */
export function shortensWhat({ state }: RecorderModel): { by: number } | null {
  const { phase } = state
  if (phase.kind === 'rest') return phase.seconds === null ? null : { by: 15 }
  if (phase.kind === 'recovery') {
    const step = stepOf(state, phase.step)
    return step?.kind === 'recovery' && isTimed(step) ? { by: 15 } : null
  }
  return phase.kind === 'pause' || phase.kind === 'roundPause' ? { by: 5 } : null
}

/** The set that is now, whose exercise can be swapped or paced. */
export function swappable({ state }: RecorderModel): SetStep | null {
  const step = stepNow(state)
  if (step?.kind === 'set') return step
  const next =
    step?.kind === 'ramp' ? state.steps.find((each) => each.kind === 'set' && isSameItem(each, step)) : null
  return next?.kind === 'set' ? next : null
}

/** The set or repeat that one more is added to: that of now, else the last one done in a rest between items. */
export function isPausedSet({ state }: RecorderModel): SetStep | PieceStep | null {
  const step = stepNow(state)
  const before = doneBefore(state, step)
  if (before) return before
  if (step?.kind === 'set' || step?.kind === 'piece') return step
  if (step?.kind === 'recovery' || step?.kind === 'ramp') {
    const next = state.steps
      .slice(state.steps.indexOf(step))
      .find((each) => (each.kind === 'set' || each.kind === 'piece') && isSameItem(each, step))
    if (next?.kind === 'set' || next?.kind === 'piece') return next
  }
  const done = state.steps.filter((each) => state.passed.has(each.id)).at(-1)
  const isOpen = done !== undefined && !state.partStates[done.part]?.closed
  return isOpen && (done.kind === 'set' || done.kind === 'piece') ? done : null
}

/** The last set or repeat of the item that was just done, until the first effort of the next one begins. */
function doneBefore(state: SessionState, next: Step | null): SetStep | PieceStep | null {
  const { kind } = state.phase
  if (!next || kind === 'effort' || kind === 'pause' || kind === 'recovery') return null
  const done = state.steps.filter((each) => state.passed.has(each.id)).at(-1)
  if (done?.kind !== 'set' && done?.kind !== 'piece') return null
  if (state.skipped.has(done.id) || isSameItem(done, next) || state.partStates[done.part]?.closed) return null
  return state.steps.some((each) => isSameItem(each, next) && state.passed.has(each.id)) ? null : done
}

export function isSameItem(one: Step, other: Step): boolean {
  return one.part === other.part && one.item === other.item
}

/** Steps by their item, the items in the order of their first steps. */
export function stepsByItem(steps: readonly Step[]): Step[][] {
  const items = new Map<string, Step[]>()
  for (const step of steps) {
    const key = `${step.part}.${step.item}`
    const known = items.get(key)
    if (known) known.push(step)
    else items.set(key, [step])
  }
  return [...items.values()]
}

/** What `s` skips: the current step, unless it is done. */
export function skippedByKey({ state }: RecorderModel): Step | null {
  return state.finished ? null : stepNow(state)
}

/** Only these are closed with an effort and minutes. */
const asking = new Set(['run', 'cross', 'lift'])

export function asksForEffort(state: SessionState, part: number): boolean {
  return asking.has(state.parts[part]?.kind ?? '')
}

/** The part that `f` closes: that of the last result, else the first that was begun, one that asks for its effort
 * before prep and fuel; else the next one. */
export function partToClose(state: SessionState): number | null {
  const last = stepOf(state, [...state.recorded.keys()].at(-1) ?? '')
  if (last && !state.partStates[last.part]?.closed && asksForEffort(state, last.part)) return last.part
  const touched = state.partStates.findIndex(
    (part, index) => !part.closed && isTouched(state, index) && asksForEffort(state, index),
  )
  if (touched >= 0) return touched
  const open = state.partStates.findIndex((part, index) => !part.closed && isTouched(state, index))
  if (open >= 0) return open
  const next = state.partStates.findIndex((part) => !part.closed)
  return next < 0 ? null : next
}

/** Whether anything of a part is done or under way. */
function isTouched(state: SessionState, part: number): boolean {
  if (state.partStates[part]?.begun) return true
  return state.steps.some((step) => step.part === part && state.passed.has(step.id))
}

/** Whether the empty field has something to record: an open result, a set under way, or an item that needs no clock. */
export function isOffered(state: SessionState, step: Step): boolean {
  if (openSteps(state).length > 0) return true
  if (step.kind === 'prep' || step.kind === 'fuel') return true
  const { phase } = state
  return (phase.kind === 'effort' || phase.kind === 'pause') && phase.step === step.id && step.kind === 'set'
}

/** Why the empty field cannot be recorded though something is to enter: a load or a time must be typed; null where it
 * can. */
export function whyNotOffered(state: SessionState, step: Step): string | null {
  const prompt = promptOf(state, step.id)
  const reading = prompt ? readEntry('', prompt) : null
  return reading?.outcome === 'error' ? reading.message : null
}

/** Why there is nothing to begin or to end; null where there is. */
export function noBeat(state: SessionState): string | null {
  if (state.finished) return 'the session is closed'
  if (state.phase.kind !== 'ready') return null
  const next = stepAhead(state)
  if (!next) return 'everything is done: f closes the part'
  return stepsAhead(state).every((step) => step.kind === 'fuel')
    ? 'a meal is recorded by Enter, or skipped by s'
    : null
}
