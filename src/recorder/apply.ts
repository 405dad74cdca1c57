import { elapsedSeconds, momentOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import { latestSignal } from '../session/signals.ts'
import type { WalkState } from '../session/state.ts'
import { walk } from '../session/walk.ts'
import type { Effect, RecorderContext, RecorderModel, Updated } from './model.ts'

/** The recorder after these facts: state walked on (or replayed, where something was taken back), all of them
 * to be saved. Nothing changes for an empty row. */
export function applied(model: RecorderModel, events: SessionEvent[], context: RecorderContext): Updated {
  if (events.length === 0) return { model, effects: [] }
  const all = [...model.events, ...events]
  const replayed = events.some((event) => event.type === 'undone')
  const effects: Effect[] = [{ kind: 'append', events }]
  let state: WalkState = model.state
  if (replayed) state = replay({ prescription: state.prescription, events: all }, context.rampOf)
  else
    for (const event of events) {
      const next = walk(state, event)
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
