import { advanceEvents } from '../session/advance.ts'
import { elapsedSeconds, momentOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { applyEvent } from '../session/reduce.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { latestSignal } from '../session/timers.ts'
import {
  type Effect,
  type RecorderContext,
  type RecorderModel,
  restStep,
  stay,
  type Updated,
  whyNoAdvance,
  withNotice,
} from './model.ts'

/** Adds these events to the recorder: applies them to the state (or replays it after an undo), and saves all of them.
 * No events change nothing. */
export function applyEvents(model: RecorderModel, events: SessionEvent[], context: RecorderContext): Updated {
  if (events.length === 0) return stay(model)
  const all = [...model.events, ...events]
  const replayed = events.some((event) => event.type === 'undone')
  const effects: Effect[] = [{ kind: 'append', events }]
  let state: SessionState = model.state
  if (replayed) state = replay({ prescription: state.prescription, events: all }, context.warmUpOf)
  else
    for (const event of events) {
      const next = applyEvent(state, event)
      const at = momentOf(event, state.boot)
      const isLate = at !== null && elapsedSeconds(at, model.now) > latestSignal
      if (isBegunByClock(event) && next !== state && !isLate) effects.push({ kind: 'ring', signal: 'long' })
      state = next
    }
  const signalled = effects.some((effect) => effect.kind === 'ring') ? model.now : model.signalled
  return { model: withDraft({ ...model, events: all, state, signalled }, events), effects }
}

/** An effort or a group that the clock begins is the moment of the long signal. */
function isBegunByClock(event: SessionEvent): boolean {
  return (event.type === 'effortBegun' || event.type === 'groupBegun') && event.auto
}

/** Puts a half-typed entry aside when the clock begins an effort; it returns in the next rest. */
function withDraft(model: RecorderModel, events: SessionEvent[]): RecorderModel {
  const began = events.some(isBegunByClock)
  const typing = model.mode.kind === 'recording'
  if (typing && began && model.draft.trim() !== '' && model.state.phase.kind === 'effort')
    return { ...model, aside: model.draft, draft: '' }
  if (typing && model.aside !== null && model.draft === '' && model.state.phase.kind !== 'effort')
    return { ...model, draft: model.aside, aside: null }
  return model
}

/** Back to recording, with the field as it was before; an entry put aside waits for the next rest. */
export function recording(model: RecorderModel): RecorderModel {
  const emptied: RecorderModel = { ...model, mode: { kind: 'recording' }, draft: '', notice: null }
  return model.state.phase.kind === 'effort' ? emptied : { ...emptied, draft: model.aside ?? '', aside: null }
}

/** Space moves the session on, or says why it cannot. */
export function advance(model: RecorderModel, context: RecorderContext): Updated {
  const events = advanceEvents(model.state, model.now)
  const cleared = { ...model, notice: null, pressedOnce: null }
  if (events.length > 0) return applyEvents(cleared, events, context)
  return stay({ ...cleared, notice: whyNoAdvance(model.state) })
}

/** Makes this rest or pause longer or shorter by one step. */
export function changeRest(model: RecorderModel, direction: 1 | -1, context: RecorderContext): Updated {
  const by = restStep(model)
  if (by === null) return withNotice(model, 'no rest counts down now')
  const event: SessionEvent = { type: 'restChanged', ...whenOf(model.now), seconds: by * direction }
  return applyEvents({ ...model, notice: null }, [event], context)
}
