import { whenOf } from '../session/clock.ts'
import { stepOf } from '../session/state.ts'
import { undoOf } from '../session/undoOf.ts'
import { applied } from './apply.ts'
import { recording } from './back.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { stepTitle } from './titles.ts'
import { whatWas } from './whatWas.ts'

/** Taking back a result is done at once and said; a beat is asked about first. */
export function undo(model: RecorderModel, context: RecorderContext): Updated {
  const back = undoOf(model.events)
  if (!back) return { model, effects: [] }
  const what = back.times.length > 1 ? resultsWere(model, back.times) : whatWas(model.state, back.last)
  if (back.isBeat)
    return { model: { ...model, mode: { kind: 'undoing', from: back.from, what } }, effects: [] }
  return takeBack(model, { from: back.from, what }, context)
}

/** "the 4 results from repeat 1 of 4: 1.6 km to repeat 4 of 4: 1.6 km" */
function resultsWere({ state }: RecorderModel, steps: readonly string[]): string {
  const [first, last] = [steps[0], steps.at(-1)].map((id) => {
    const step = stepOf(state, id ?? '')
    return step ? stepTitle(step) : 'a step'
  })
  return `the ${steps.length} results from ${first} to ${last}`
}

/** Takes everything from that event on back. */
export function takeBack(
  model: RecorderModel,
  back: { from: number; what: string },
  context: RecorderContext,
): Updated {
  const notice = `taken back: ${back.what}`
  const event = { type: 'undone' as const, ...whenOf(model.now), from: back.from }
  return applied({ ...recording(model), notice, echo: null }, [event], context)
}
