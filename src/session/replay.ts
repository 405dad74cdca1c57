import { expand, type WarmUpOf } from '../prescription/expand.ts'
import type { Session, SessionEvent } from './model.ts'
import { applyEvent } from './reduce.ts'
import { type SessionState, startOf } from './state.ts'

/** The events that count, without undone ones. `opened` stays, because it tells which boot the uptimes belong to. */
export function effectiveEvents(events: readonly SessionEvent[]): { event: SessionEvent; index: number }[] {
  const kept: { event: SessionEvent; index: number }[] = []
  events.forEach((event, index) => {
    if (event.type !== 'undone') {
      kept.push({ event, index })
      return
    }
    for (let last = kept.length - 1; last >= 0 && (kept[last]?.index ?? 0) >= event.from; last--)
      if (kept[last]?.event.type !== 'opened') kept.splice(last, 1)
  })
  return kept
}

/** The state of a session after all of its events.
 * @param warmUpOf makes up the warm-up sets; by default there are none, which changes no result */
export function replay(
  session: Pick<Session, 'prescription' | 'events'>,
  warmUpOf: WarmUpOf = () => [],
): SessionState {
  const start = startOf(session.prescription, expand(session.prescription, warmUpOf))
  return effectiveEvents(session.events).reduce((state, { event }) => applyEvent(state, event), start)
}
