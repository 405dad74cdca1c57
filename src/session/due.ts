import { type Moment, secondsBetween, whenOf } from './clock.ts'
import type { SessionEvent } from './model.ts'
import { applyEvent } from './reduce.ts'
import { intervalAfter, type SessionState, stepOf } from './state.ts'
import { countdownOf, endOf } from './timers.ts'

/** The events that have come due by now without a key, each dated to the moment it was due, so that a program that
 * was not running catches up exactly. Empty while the clocks are stopped. */
export function dueEvents(state: SessionState, now: Moment): SessionEvent[] {
  const events: SessionEvent[] = []
  let current = state
  for (;;) {
    const event = nextDue(current, now)
    if (!event) return events
    const next = applyEvent(current, event).state
    if (next === current) return events
    events.push(event)
    current = next
  }
}

function nextDue(state: SessionState, now: Moment): SessionEvent | null {
  const end = endOf(state)
  if (!end || !countdownOf(state)?.byItself || secondsBetween(end, now) < 0) return null
  const auto = { ...whenOf(ofBoot(end, state.boot)), auto: true }
  const { phase } = state
  switch (phase.kind) {
    case 'pause':
      return { type: 'groupBegun', ...auto, step: phase.step, group: phase.group }
    case 'roundPause':
    case 'rest':
      return { type: 'effortBegun', ...auto, step: phase.next }
    case 'recovery': {
      const next = intervalAfter(state, phase.step)
      if (next === null) return { type: 'effortEnded', ...auto, step: phase.step }
      return { type: 'effortBegun', ...auto, step: next.id }
    }
    case 'effort': {
      const step = stepOf(state, phase.step)
      if (step?.kind === 'set') return { type: 'groupEnded', ...auto, step: phase.step, group: phase.group }
      return { type: 'effortEnded', ...auto, step: phase.step }
    }
    case 'ready':
      return null
  }
}

/** An event that came due before the machine was restarted has no uptime of this boot. */
function ofBoot(moment: Moment, boot: string | null): Moment {
  return moment.boot === boot ? moment : { ...moment, up: null }
}
