import type { Step } from '../prescription/step.ts'
import { askedStep, stepsToAsk } from '../session/asking.ts'
import type { WalkState } from '../session/state.ts'
import { isOffered, stepNow, stepUnderWay } from './availability.ts'
import { enterElsewhere } from './enterElsewhere.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { readTyped } from './reading.ts'
import { stepTitle } from './titles.ts'

/** Enter: records what is typed, or what the empty field offers, and never guesses. */
export function enter(model: RecorderModel, context: RecorderContext): Updated {
  if (model.mode.kind !== 'recording') return enterElsewhere(model, context)
  const step = askedStep(model.state)
  if (!step) return said(model, 'no result is asked for now')
  if (model.draft.trim() === '' && !isOffered(model.state, step))
    return said(model, nothingOpen(model.state, step))
  return readTyped(model, [step, ...stepsToAsk(model.state).filter((each) => each.id !== step.id)], context)
}

function nothingOpen(state: WalkState, step: Step): string {
  const title = stepTitle(step)
  const underWay = stepUnderWay(state)
  if (underWay?.id === step.id) return `${title} is under way: Space ends it, or type its time`
  if (underWay)
    return `nothing is open: Space ends the ${stepTitle(underWay)}, or type the result of ${title}`
  const now = stepNow(state)
  if (now?.kind === 'ramp')
    return `nothing is open: Space begins the ${stepTitle(now)}, or type the result of ${title}`
  return `nothing is open: Space begins ${title}, or type its result`
}

function said(model: RecorderModel, notice: string): Updated {
  return { model: { ...model, notice }, effects: [] }
}
