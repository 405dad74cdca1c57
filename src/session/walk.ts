import { type Moment, momentOf } from './clock.ts'
import { heldUpTo } from './hold.ts'
import type { SessionEvent } from './model.ts'
import type { WalkState } from './state.ts'
import { walkBeat } from './walkBeat.ts'
import { walkChange } from './walkChange.ts'
import { walkClosing } from './walkClosing.ts'
import { walkResult } from './walkResult.ts'

/** What is to happen outside when a session walks on: the shell does it, the walk only says so. */
export type Effect =
  /** Every fact is written down before the screen says so. */
  | { kind: 'save' }
  /** An effort began by itself: the long signal. */
  | { kind: 'signal'; signal: 'go' }

/** The state after one more event, and what is to happen outside. An event that cannot happen where the
 * session stands changes nothing. `undone` is not for here: replay.ts leaves out what was taken back. */
export function walk(state: WalkState, event: SessionEvent): { state: WalkState; effects: Effect[] } {
  const at = momentOf(event, event.type === 'opened' ? event.boot : state.boot)
  const before = at !== null && state.held !== null && stopsClock(event) ? heldUpTo(state, at) : state
  const next = stateAfter(before, event, at)
  const effects: Effect[] = [{ kind: 'save' }]
  if (next === before) return { state, effects }
  if ((event.type === 'groupBegun' || event.type === 'effortBegun') && event.auto)
    effects.push({ kind: 'signal', signal: 'go' })
  return { state: { ...next, latest: at ?? next.latest }, effects }
}

/** Whether an event can end one clock and begin another: what was held of the first must be counted before. */
function stopsClock(event: SessionEvent): boolean {
  return event.type !== 'held' && event.type !== 'resumed' && event.type !== 'opened'
}

function stateAfter(state: WalkState, event: SessionEvent, at: Moment | null): WalkState {
  switch (event.type) {
    case 'sessionStarted':
      return {
        ...state,
        date: event.date,
        bodyMassKg: event.bodyMassKg,
        maxima: event.maxima,
        fromPaper: event.fromPaper,
        startedAt: at,
      }
    case 'opened':
      return { ...state, boot: event.boot }
    case 'effortBegun':
    case 'groupEnded':
    case 'groupBegun':
    case 'effortEnded':
    case 'startForgotten':
    case 'restChanged':
    case 'held':
    case 'resumed':
      return at === null ? state : walkBeat(state, event, at)
    case 'setRecorded':
    case 'pieceRecorded':
    case 'prepRecorded':
    case 'fuelRecorded':
    case 'mealRecorded':
    case 'stepSkipped':
    case 'itemSkipped':
      return walkResult(state, event, at)
    case 'paceSet':
    case 'stepAdded':
    case 'exerciseSwapped':
    case 'itemMoved':
    case 'dayCut':
      return walkChange(state, event, at)
    case 'noteAdded':
    case 'conditionsNoted':
    case 'partClosed':
    case 'sessionFinished':
    case 'sessionReopened':
      return walkClosing(state, event, at)
    case 'undone':
      return state
  }
}
