import type { WarmUpOf } from '../prescription/expand.ts'
import type { Recording, Session, SessionEvent } from './model.ts'
import { applyEvent } from './reduce.ts'
import { type EventOf, isRecording, type SessionState, startOf } from './state.ts'

/** The format of the sessions this program writes. A newer one is refused. */
export const sessionFormat: Session['format'] = 1

/** The events without those that were undone. An undo that is among them was undone, too, so what it undid counts again.
 * `opened` stays, because it names the boot that the uptimes belong to. */
export function effectiveEvents(events: readonly SessionEvent[]): { event: SessionEvent; index: number }[] {
  const kept: { event: SessionEvent; index: number }[] = []
  let undoneFrom = events.length
  for (const [index, event] of [...events.entries()].reverse()) {
    const isUndone = index >= undoneFrom
    if (event.type === 'undone' && !isUndone) undoneFrom = event.from
    else if (!isUndone || event.type === 'opened') kept.push({ event, index })
  }
  return kept.reverse()
}

/** The state of a session after all of its events.
 * @param warmUpOf as of `startOf` */
export function replay(session: Pick<Session, 'prescription' | 'events'>, warmUpOf?: WarmUpOf): SessionState {
  const start = startOf(session.prescription, warmUpOf)
  return effectiveEvents(session.events).reduce((state, { event }) => applyEvent(state, event), start)
}

const asksBeforeUndo = new Set(['effortBegun', 'groupEnded', 'groupBegun', 'effortEnded', 'startForgotten'])

/** What one key press added, which `u` takes back in one go. */
export interface LastDone {
  /** The index of its first event. */
  from: number
  /** The event that names it: the last one that is not a remark about another. */
  last: SessionEvent
  /** The steps it recorded or skipped: several when their results were typed on one line. */
  results: string[]
  /** It contains a clock step, so undo asks first. */
  isAdvance: boolean
}

/** What undo would take back. Null if there is nothing, or if the session was finished last. */
export function undoOf(events: readonly SessionEvent[]): LastDone | null {
  const kept = effectiveEvents(events).filter(({ event }) => event.type !== 'opened')
  let isReopened = false
  for (const [place, { event, index }] of [...kept.entries()].reverse()) {
    if (event.type === 'sessionStarted') return null
    if (event.type === 'sessionReopened') {
      isReopened = true
      continue
    }
    if (event.type === 'sessionFinished' && !isReopened) return null
    // Closings before a reopening are kept: they hold the effort and the minutes.
    if (isReopened && (event.type === 'sessionFinished' || event.type === 'partClosed')) continue
    if ('auto' in event && event.auto) continue
    const together = kept.slice(firstOfKey(kept, place), place + 1)
    return {
      from: together[0]?.index ?? index,
      last: together.findLast((each) => isResult(each.event))?.event ?? event,
      results: together.flatMap((each) => (isResult(each.event) ? each.event.step : [])),
      isAdvance: together.some((each) => asksBeforeUndo.has(each.event.type)),
    }
  }
  return null
}

/** The index of the first event of the last key press. One key can add several events at the same moment (a set ended
 * and recorded, the results of a line), and they are undone together. */
function firstOfKey(kept: readonly { event: SessionEvent }[], last: number): number {
  const steps = new Set<string>()
  let first = last
  for (; first > 0; first--) {
    const event = kept[first]?.event
    const before = kept[first - 1]?.event
    if (!event || !before || !isSameKey(before, event)) break
    if (isResult(event)) steps.add(event.step)
    // No key records a step twice.
    if (isResult(before) && steps.has(before.step)) break
  }
  return first
}

/** Whether one key can have added two events in a row. */
function isSameKey(before: SessionEvent, event: SessionEvent): boolean {
  if (event.at === null || before.at !== event.at || before.up !== event.up) return false
  // Finished prep is closed together with a part.
  if (event.type === 'partClosed') return before.type === 'partClosed'
  if (before.type === 'effortEnded') return isResult(event) && event.step === before.step
  // A session from paper has only minutes and no uptime, so each of its results is undone alone.
  if (event.up === null) return false
  // A skip with a comment is followed by the comment as a note.
  if (event.type === 'noteAdded') return before.type === 'noteAdded' || before.type === 'stepSkipped'
  return isResult(event) && (before.type === 'noteAdded' || isResult(before))
}

/** Whether an event records a result or skips its step. */
function isResult(event: SessionEvent): event is Recording | EventOf<'stepSkipped'> {
  return isRecording(event) || event.type === 'stepSkipped'
}
