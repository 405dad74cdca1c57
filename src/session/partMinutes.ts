import { elapsedSeconds } from './clock.ts'
import type { WalkState } from './state.ts'

/** Minutes a part took: by the clock, held time taken out; else its recorded work and the recoveries by time
 * between; null when neither is known. */
export function minutesMeasured(state: WalkState, part: number): number | null {
  const { begun, ended, heldSeconds } = state.partStates[part] ?? {}
  if (begun && ended) {
    const seconds = elapsedSeconds(begun, ended) - (heldSeconds ?? 0)
    if (seconds > 0) return seconds / 60
  }
  const seconds = secondsOfWork(state, part)
  return seconds > 0 ? seconds / 60 : null
}

function secondsOfWork(state: WalkState, part: number): number {
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
