import { beatEvents } from '../session/press.ts'
import { applied } from './apply.ts'
import { noBeat } from './availability.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'

/** The key that moves the day on. A beat says nothing of its own; where there is none, why. */
export function beat(model: RecorderModel, context: RecorderContext): Updated {
  const events = beatEvents(model.state, model.now)
  const plain = { ...model, notice: null, pressedOnce: null }
  if (events.length > 0) return applied(plain, events, context)
  return { model: { ...plain, notice: noBeat(model.state) }, effects: [] }
}
