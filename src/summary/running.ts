import { goalSecondsPerKm, lapMetersOf } from '../prescription/pieceTarget.ts'
import type { SessionState } from '../session/state.ts'
import { metersOf } from '../units/length.ts'
import type { Summary } from './model.ts'
import { type DoneWork, worksDone } from './performed.ts'
import { runningItemOf } from './runningItem.ts'

/** The run parts, or the cross parts, of a session. Metres and seconds are sums of what is known; a
 * recovery by distance counts as metres when a piece before it was recorded and it was not skipped
 * itself, and never as seconds. A goal is for running: cross parts are held against none. */
export function runningOf(state: SessionState, kind: 'run' | 'cross'): Summary['running'] {
  const works = worksDone(state, kind)
  const goal = kind === 'run' ? goalOf(state) : null
  const workMeters = knownSum(works, 'meters')
  return {
    meters: workMeters + recoveryMeters(state, kind),
    seconds: knownSum(works, 'seconds'),
    workMeters,
    goal,
    items: works.map((work) => runningItemOf(work, goal?.secondsPerKm ?? null)),
  }
}

function goalOf(state: SessionState): Summary['running']['goal'] {
  const { goal } = state.prescription
  const secondsPerKm = goalSecondsPerKm(state.prescription)
  if (!goal || secondsPerKm === null) return null
  return {
    meters: metersOf(goal.length, lapMetersOf(state.prescription)),
    seconds: goal.seconds,
    secondsPerKm,
  }
}

function knownSum(works: readonly DoneWork[], of: 'meters' | 'seconds'): number {
  return works.flatMap((work) => work.splits).reduce((sum, { result }) => sum + (result[of] ?? 0), 0)
}

function recoveryMeters(state: SessionState, kind: 'run' | 'cross'): number {
  return state.steps.reduce((sum, step) => {
    const counts =
      step.kind === 'recovery' &&
      state.parts[step.part]?.kind === kind &&
      !state.skipped.has(step.id) &&
      step.countsWith.some((id) => state.recorded.has(id))
    return counts ? sum + (step.meters ?? 0) : sum
  }, 0)
}
