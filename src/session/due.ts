import { type Moment, secondsBetween, whenOf } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { endOfWait } from './press.ts'
import { applyEvent } from './reduce.ts'
import { type SessionState, stepOf } from './state.ts'
import { countdownOf, endOf } from './timers.ts'

/** The events that have come due by now without a key, each dated to the moment it was due, so that a program that
 * was not running catches up exactly. Empty while the clocks are stopped. */
export function dueEvents(state: SessionState, now: Moment): SessionEvent[] {
  const events: SessionEvent[] = []
  let current = state
  for (;;) {
    const event = nextDue(current, now)
    if (!event) return events
    const next = applyEvent(current, event)
    // An event that changes nothing would be due forever.
    if (next === current) return events
    events.push(event)
    current = next
  }
}

function nextDue(state: SessionState, now: Moment): SessionEvent | null {
  const end = endOf(state)
  if (!end || !countdownOf(state)?.byItself || secondsBetween(end, now) < 0) return null
  const when = whenOf(ofBoot(end, state.boot))
  const { phase } = state
  if (phase.kind === 'ready') return null
  if (phase.kind !== 'effort') return endOfWait(state, phase, when, true)
  const { step, group } = phase
  return stepOf(state, step)?.kind === 'set'
    ? { type: 'groupEnded', ...when, step, group, auto: true }
    : { type: 'effortEnded', ...when, step, auto: true }
}

/** An event that came due before the machine was restarted has no uptime of this boot. */
function ofBoot(moment: Moment, boot: string | null): Moment {
  return moment.boot === boot ? moment : { ...moment, up: null }
}
