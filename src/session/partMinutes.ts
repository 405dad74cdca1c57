import { elapsedSeconds } from './clock.ts'
import type { SessionState } from './state.ts'

/** Minutes a part took: by the clock with stopped time taken out, but at least its recorded work and the recoveries
 * in between, as the clock need not have run throughout. Null when neither is known. */
export function minutesMeasured(state: SessionState, part: number): number | null {
  const { begun = null, ended = null, heldByEnd = 0 } = state.partStates[part] ?? {}
  const byClock = begun && ended ? elapsedSeconds(begun, ended) - heldByEnd : 0
  const seconds = Math.max(byClock, secondsOfWork(state, part))
  return seconds > 0 ? seconds / 60 : null
}

function secondsOfWork(state: SessionState, part: number): number {
  let seconds = 0
  for (const step of state.steps) {
    if (step.part !== part) continue
    const recorded = state.recorded.get(step.id)
    if (recorded?.kind === 'piece') seconds += recorded.result.seconds ?? 0
    const counts = step.kind === 'recovery' && step.countsWith.some((id) => state.recorded.has(id))
    if (counts) seconds += step.expectedSeconds ?? 0
  }
  return seconds
}
