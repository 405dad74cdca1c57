import type { Moment } from './clock.ts'
import { inPart } from './measuring.ts'
import type { SessionEvent } from './model.ts'
import { phaseRealigned } from './phaseAfter.ts'
import { stepOf, type WalkState } from './state.ts'

type ClosingEvent = Extract<
  SessionEvent,
  { type: 'noteAdded' | 'conditionsNoted' | 'partClosed' | 'sessionFinished' | 'sessionReopened' }
>

/** Words, and the ends of parts and of the session. */
export function walkClosing(state: WalkState, event: ClosingEvent, at: Moment | null): WalkState {
  switch (event.type) {
    case 'noteAdded': {
      const part = event.about === null ? null : (stepOf(state, event.about)?.part ?? null)
      return {
        ...state,
        notes: [...state.notes, { about: event.about, part, text: event.text, pain: event.pain }],
      }
    }
    case 'conditionsNoted':
      return inPart(state, event.part, () => ({ conditions: event.text }))
    case 'partClosed': {
      if (!state.partStates[event.part]) return state
      const closed = inPart(state, event.part, () => ({
        closed: true,
        effort: event.effort,
        minutes: event.minutes,
      }))
      const rest = state.steps.filter((step) => step.part === event.part).map((step) => step.id)
      const passed = { ...closed, passed: new Set([...state.passed, ...rest]) }
      return { ...passed, phase: phaseRealigned(passed, at) }
    }
    case 'sessionFinished':
      return state.finished ? state : { ...state, finished: true, finishedAt: at }
    case 'sessionReopened':
      return state.finished ? reopened(state) : state
  }
}

/** Its parts are open again, with their efforts and minutes; what was not done can be typed. */
function reopened(state: WalkState): WalkState {
  const partStates = state.partStates.map((part) => ({ ...part, closed: false }))
  return { ...state, finished: false, finishedAt: null, partStates }
}
