import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { Moment } from '../session/clock.ts'
import { isPainNoted, isWarningNoted } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { activeSeconds } from '../session/timers.ts'
import { bestSoFar, changeOfLoad, loadAdvice, runCostAdvice } from './advice/loads.ts'
import { effortTargetAdvice, repeatAdvice, restOfIntervalAdvice } from './advice/runs.ts'
import { type RecorderModel, stepNow } from './model.ts'

/** The one most useful advice at this moment; null without any. It never blocks. */
export function adviceOf(model: RecorderModel): string | null {
  const { state, context, now } = model
  if (!context.advice || isWarningNoted(state)) return null
  return (
    loadAdvice(model) ??
    // First, as the pace could be right at a heart rate that is too high.
    effortTargetAdvice(state, context.hrMax, 'over') ??
    (isPainNoted(state) ? null : askingAdvice(model)) ??
    changeOfLoad(model) ??
    timeAdvice(state, now)
  )
}

/** Never after pain, because this advice asks for more, or for the same at any price. */
function askingAdvice(model: RecorderModel): string | null {
  const { state, context } = model
  return (
    restOfIntervalAdvice(state) ??
    repeatAdvice(state) ??
    effortTargetAdvice(state, context.hrMax, 'under') ??
    bestSoFar(model) ??
    runCostAdvice(model)
  )
}

/** Minutes ahead of or behind the plan within a part, if more than five. */
function timeAdvice(state: SessionState, now: Moment): string | null {
  const step = stepNow(state)
  const part = step ? state.partStates[step.part] : null
  if (!step || !part?.begun || part.closed) return null
  // A skipped step counts neither as spent nor as saved time.
  const steps = state.steps.filter((each) => each.part === step.part && !state.skipped.has(each.id))
  const ahead = steps.filter((each) => !state.passed.has(each.id))
  if (ahead.length === steps.length) return null
  // The rest before the steps ahead is expected too.
  const expected = expectedSecondsOf(steps, state.prescription) - expectedSecondsOf(ahead, state.prescription)
  const minutes = Math.round((activeSeconds(state, part.begun, now) - expected) / 60)
  // Results that are typed in afterwards do not tell how long they took.
  const isByClock = steps.every((each) => !state.recorded.has(each.id) || state.measured.has(each.id))
  if (Math.abs(minutes) <= 5 || !isByClock) return null
  return minutes > 0 ? `about ${minutes} min behind in this part` : `about ${-minutes} min ahead in this part`
}
