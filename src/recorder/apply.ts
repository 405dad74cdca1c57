import { elapsedSeconds, momentOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { beatEvents } from '../session/press.ts'
import { applyEvent } from '../session/reduce.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { latestSignal } from '../session/timers.ts'
import { noBeat, shortensWhat } from './availability.ts'
import type { Effect, RecorderContext, RecorderModel, Updated } from './model.ts'

/** The recorder after these facts: state walked on (or replayed, where something was taken back), all of them
 * to be saved. Nothing changes for an empty row. */
export function applied(model: RecorderModel, events: SessionEvent[], context: RecorderContext): Updated {
  if (events.length === 0) return { model, effects: [] }
  const all = [...model.events, ...events]
  const replayed = events.some((event) => event.type === 'undone')
  const effects: Effect[] = [{ kind: 'append', events }]
  let state: SessionState = model.state
  if (replayed) state = replay({ prescription: state.prescription, events: all }, context.rampOf)
  else
    for (const event of events) {
      const next = applyEvent(state, event)
      state = next.state
      const at = momentOf(event, state.boot)
      const isLate = at !== null && elapsedSeconds(at, model.now) > latestSignal
      if (!isLate && next.effects.some((effect) => effect.kind === 'signal'))
        effects.push({ kind: 'ring', signal: 'long' })
    }
  const signalled = effects.some((effect) => effect.kind === 'ring') ? model.now : model.signalled
  return { model: withDraft({ ...model, events: all, state, signalled }, events), effects }
}

/** A half-typed entry is put aside when a clock begins an effort by itself, and is back in the next rest. */
function withDraft(model: RecorderModel, events: SessionEvent[]): RecorderModel {
  const began = events.some(
    (event) => (event.type === 'effortBegun' || event.type === 'groupBegun') && event.auto,
  )
  const typing = model.mode.kind === 'recording'
  if (typing && began && model.draft.trim() !== '' && model.state.phase.kind === 'effort')
    return { ...model, aside: model.draft, draft: '' }
  if (typing && model.aside !== null && model.draft === '' && model.state.phase.kind !== 'effort')
    return { ...model, draft: model.aside, aside: null }
  return model
}

/** Back to recording, with the field as it was before; what was put aside waits for the next rest. */
export function recording(model: RecorderModel): RecorderModel {
  if (model.state.phase.kind === 'effort')
    return { ...model, mode: { kind: 'recording' }, draft: '', notice: null }
  return { ...model, mode: { kind: 'recording' }, draft: model.aside ?? '', aside: null, notice: null }
}

/** The key that moves the day on. A beat says nothing of its own; where there is none, why. */
export function beat(model: RecorderModel, context: RecorderContext): Updated {
  const events = beatEvents(model.state, model.now)
  const plain = { ...model, notice: null, pressedOnce: null }
  if (events.length > 0) return applied(plain, events, context)
  return { model: { ...plain, notice: noBeat(model.state) }, effects: [] }
}

/** This rest, or this pause, longer or shorter by one step. */
export function changeRest(model: RecorderModel, direction: 1 | -1, context: RecorderContext): Updated {
  const change = shortensWhat(model)
  if (!change) return { model: { ...model, notice: 'no rest counts down now' }, effects: [] }
  const seconds = change.by * direction
  return applied(
    { ...model, notice: null },
    [{ type: 'restChanged', ...whenOf(model.now), seconds }],
    context,
  )
}
