import { whenOf } from '../session/clock.ts'
import { applied } from './apply.ts'
import { shortensWhat } from './availability.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'

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
