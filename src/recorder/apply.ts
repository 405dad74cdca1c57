import { whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { dated, type Fact } from '../session/newEvents.ts'
import { applyEvent } from '../session/reduce.ts'
import { replay } from '../session/replay.ts'
import { type RecorderModel, stay, type Updated } from './model.ts'

/** Applies and saves what happens now. */
export function applyFacts(model: RecorderModel, ...facts: Fact[]): Updated {
  return applyEvents(model, dated(facts, whenOf(model.now)))
}

/** Applies events to the state (after an undo, replays all of them) and saves them. Without events nothing
 * changes. */
export function applyEvents(model: RecorderModel, events: SessionEvent[]): Updated {
  if (events.length === 0) return stay(model)
  const all = [...model.events, ...events]
  const { prescription } = model.state
  const state = events.some(({ type }) => type === 'undone')
    ? replay({ prescription, events: all }, model.context.warmUpOf)
    : events.reduce(applyEvent, model.state)
  return { model: { ...model, events: all, state }, effects: [{ kind: 'append', events }] }
}

/** Takes back the events after the first `from`. */
export function takeBack(model: RecorderModel, from: number): Updated {
  return model.events.length > from ? applyFacts(model, { type: 'undone', from }) : stay(model)
}

/** Returns to the model before keys that were not meant, except for what time and the disk have done since; the events
 * of those keys are undone. */
export function takeBackTo(before: RecorderModel, model: RecorderModel): Updated {
  const { events, state, saved, now, signalled, lastPress } = model
  return takeBack({ ...before, events, state, saved, now, signalled, lastPress }, before.events.length)
}

/** Back to recording, with an empty field. */
export function recording(model: RecorderModel): RecorderModel {
  return { ...model, mode: { kind: 'recording' }, draft: '', notice: null }
}
