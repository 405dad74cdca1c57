import { whenOf } from '../session/clock.ts'
import { undoOf } from '../session/press.ts'
import { applied } from './apply.ts'
import { recording } from './back.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { whatWas } from './whatWas.ts'

/** Taking back a result is done at once and said; a beat is asked about first. */
export function undo(model: RecorderModel, context: RecorderContext): Updated {
  const back = undoOf(model.events)
  if (!back) return { model, effects: [] }
  const what = whatWas(model.state, back.last)
  if (back.isBeat)
    return { model: { ...model, mode: { kind: 'undoing', from: back.from, what } }, effects: [] }
  return takeBack(model, { from: back.from, what }, context)
}

/** Takes everything from that event on back. */
export function takeBack(
  model: RecorderModel,
  back: { from: number; what: string },
  context: RecorderContext,
): Updated {
  const notice = `taken back: ${back.what}`
  const event = { type: 'undone' as const, ...whenOf(model.now), from: back.from }
  return applied({ ...recording(model), notice }, [event], context)
}
