import { type Moment, momentAfter, secondsBetween } from './clock.ts'
import { countdownOf, endOf } from './countdown.ts'
import type { WalkState } from './state.ts'

export type Signal = 'short' | 'long'

/** The latest a signal may sound behind its moment: after a closed lid nothing of what was missed rings. Seconds. */
export const latestSignal = 1.5

/** The signal that falls between two looks at the clock: short at 3, 2 and 1 before an end, long at the end;
 * a jog by distance has one short signal at its expected end. Null when none falls there. */
export function signalBetween(state: WalkState, from: Moment, to: Moment): Signal | null {
  const end = endOf(state)
  const countdown = countdownOf(state)
  if (!end || !countdown) return null
  const marks: { seconds: number; signal: Signal }[] = countdown.expected
    ? [{ seconds: 0, signal: 'short' }]
    : [3, 2, 1, 0].map((seconds) => ({ seconds, signal: seconds === 0 ? 'long' : 'short' }))
  const start = state.phase.since
  const fallen = marks.filter(({ seconds }) => {
    const at = momentAfter(end, -seconds)
    if (start && isBefore(at, start)) return false
    return isBefore(from, at) && !isBefore(to, at) && secondsBetween(at, to) <= latestSignal
  })
  return fallen.at(-1)?.signal ?? null
}

function isBefore(one: Moment, other: Moment): boolean {
  return secondsBetween(one, other) > 0
}
