import type { Step } from '../prescription/step.ts'
import { elapsedSeconds, localTimeOf, momentOf } from '../session/clock.ts'
import { askedStep, stepsToAsk } from '../session/prompt.ts'
import { stepOf, type WalkState } from '../session/state.ts'
import { isOffered, stepNow, stepUnderWay } from './availability.ts'
import { enterElsewhere } from './enterElsewhere.ts'
import { stepTitle } from './labels.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { readTyped } from './record.ts'

/** Enter: records what is typed, or what the empty field offers, and never guesses. */
export function enter(model: RecorderModel, context: RecorderContext): Updated {
  if (model.mode.kind !== 'recording') return enterElsewhere(model, context)
  const step = askedStep(model.state)
  if (!step) return said(model, 'no result is asked for now')
  if (model.draft.trim() === '' && !isOffered(model.state, step))
    return said(model, nothingOpen(model.state, step))
  const done = doneBySpace(model)
  const already = done && `done already: ${stepTitle(done)}; Enter again: ${stepTitle(step)} too`
  if (already && model.draft.trim() === '' && step.kind === 'prep' && model.notice !== already)
    return said(model, already)
  return readTyped(model, [step, ...stepsToAsk(model.state).filter((each) => each.id !== step.id)], context)
}

/** How long after Space the Enter that follows a set out of habit may still come, in seconds (invented). */
const habitSeconds = 5

/** The item of prep that Space has just ended, and recorded with it: an Enter behind it is meant for it. */
function doneBySpace({ events, state, now, echo }: RecorderModel): Step | null {
  const [ended, recorded] = events.slice(-2)
  if (ended?.type !== 'effortEnded' || recorded?.type !== 'prepRecorded') return null
  const at = momentOf(recorded, state.boot)
  if (at === null || elapsedSeconds(at, now) > habitSeconds) return null
  // What Enter records is echoed, what Space ends is not.
  const isByEnter = echo !== null && localTimeOf(echo.at) === recorded.at
  return isByEnter ? null : stepOf(state, recorded.step)
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
