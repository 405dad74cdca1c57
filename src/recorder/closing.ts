import { whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { minutesMeasured } from '../session/partMinutes.ts'
import type { WalkState } from '../session/state.ts'
import { applied } from './apply.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'

/** The minutes that Enter alone takes for a part: what was said when it was closed before, else the live ones, else
 * work and recoveries; null when nothing is known. */
export function minutesOffered(state: WalkState, part: number): number | null {
  const said = state.partStates[part]?.minutes ?? null
  if (said !== null) return said
  const minutes = minutesMeasured(state, part)
  return minutes === null ? null : Math.max(1, Math.round(minutes))
}

/** Closes a part; with the last one the session is finished. */
export function closePart(
  model: RecorderModel,
  part: number,
  effort: number | null,
  minutes: number | null,
  context: RecorderContext,
): Updated {
  const when = whenOf(model.now)
  const events: SessionEvent[] = [{ type: 'partClosed', ...when, part, effort, minutes }]
  const others = model.state.partStates.every((each, index) => each.closed || index === part)
  if (others) events.push({ type: 'sessionFinished', ...when })
  return applied(model, events, context)
}
