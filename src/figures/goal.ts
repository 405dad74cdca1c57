import { positive } from './given.ts'
import { secondsPerKm } from './splits.ts'

/** So near the goal's pace, running is at goal pace. Invented. */
const nearShare = 0.02
const noise = 1e-9

/** Pace of a goal in seconds per kilometre; metres and seconds.
 * @throws RangeError for a distance or a time that is not above 0
 * Source: Common practice. */
export function goalPace(meters: number, seconds: number): number {
  return secondsPerKm(meters, seconds)
}

/** What a pace is off the goal's, in seconds per kilometre: negative is faster.
 * @throws RangeError for a pace that is not above 0
 * Source: Common practice. */
export function offGoal(pace: number, goal: number): number {
  return positive(pace, 'the pace') - positive(goal, 'the goal pace')
}

/** Whether a pace lies within 2 % of the goal's, the ends in.
 * @throws RangeError for a pace that is not above 0
 * Source: Invented. */
export function isAtGoalPace(pace: number, goal: number): boolean {
  return Math.abs(offGoal(pace, goal)) <= goal * nearShare + noise
}

/** The share of running, by distance, that was within 2 % of goal pace: 0 to 1; null without any.
 * @throws RangeError for a distance or a pace that is not above 0
 * Source: Invented. */
export function shareAtGoalPace(
  pieces: readonly { meters: number; secondsPerKm: number }[],
  goal: number,
): number | null {
  let [near, all] = [0, 0]
  for (const piece of pieces) {
    all += positive(piece.meters, 'the distance')
    if (isAtGoalPace(piece.secondsPerKm, goal)) near += piece.meters
  }
  return all === 0 ? null : near / all
}
