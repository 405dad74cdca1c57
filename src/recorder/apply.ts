import { elapsedSeconds, momentOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { applyEvent } from '../session/reduce.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { latestSignal } from '../session/timers.ts'
import { type Effect, type RecorderModel, stay, type Updated } from './model.ts'

type WithoutTime<Event> = Event extends unknown ? Omit<Event, 'at' | 'up'> : never
/** What happens now: an event without its time. */
export type Fact = WithoutTime<SessionEvent>

export function applyFacts(model: RecorderModel, ...facts: Fact[]): Updated {
  const when = whenOf(model.now)
  const events = facts.map(({ type, ...fact }) => ({ type, ...when, ...fact }) as SessionEvent)
  return applyEvents(model, events)
}

/** Applies events to the state (after an undo, replays all of them) and saves them. Without events nothing
 * changes. */
export function applyEvents(model: RecorderModel, events: SessionEvent[]): Updated {
  if (events.length === 0) return stay(model)
  const all = [...model.events, ...events]
  const effects: Effect[] = [{ kind: 'append', events }]
  let state: SessionState = model.state
  if (events.some((event) => event.type === 'undone'))
    state = replay({ prescription: state.prescription, events: all }, model.context.warmUpOf)
  else
    for (const event of events) {
      const next = applyEvent(state, event)
      const at = momentOf(event, state.boot)
      const isLate = at !== null && elapsedSeconds(at, model.now) > latestSignal
      if (isBegunByClock(event) && next !== state && !isLate) effects.push({ kind: 'ring', signal: 'long' })
      state = next
    }
  const signalled = effects.some((effect) => effect.kind === 'ring') ? model.now : model.signalled
  return { model: withAside({ ...model, events: all, state, signalled }), effects }
}

/** Such an event sounds the long signal. */
function isBegunByClock(event: SessionEvent): boolean {
  return (event.type === 'effortBegun' || event.type === 'groupBegun') && event.auto
}

/** Takes an entry that was put aside back into the field once no effort runs. */
function withAside(model: RecorderModel): RecorderModel {
  const { mode, draft, aside, state } = model
  const isBack = mode.kind === 'recording' && draft === '' && state.phase.kind !== 'effort'
  return aside !== null && isBack ? { ...model, draft: aside, aside: null } : model
}

/** Back to recording, with the field as it was before; an entry put aside waits for the next rest. */
export function recording(model: RecorderModel): RecorderModel {
  const emptied: RecorderModel = { ...model, mode: { kind: 'recording' }, draft: '', notice: null }
  return model.state.phase.kind === 'effort' ? emptied : { ...emptied, draft: model.aside ?? '', aside: null }
}
