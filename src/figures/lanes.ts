import { positive } from './given.ts'

/** How the standard track is laid out, in metres. Source: World Athletics track. */
const straight = 84.39
const kerbRadius = 36.5
const laneWidth = 1.22
/** Where a lane is measured: so far outside its inner line. */
const fromLine = 0.2

export const lanes = [1, 2, 3, 4, 5, 6, 7, 8] as const

/** One lap of the standard 400 m track in a lane, in metres. Lane 1 is 400 m by definition (measured 0.30 m
 * outside the kerb); the others are measured 0.20 m outside their inner line.
 * @throws RangeError for a lane outside 1 to 8
 * Source: World Athletics track. */
export function lapMetersOfLane(lane: number): number {
  if (!lanes.some((each) => each === lane)) {
    throw new RangeError(`a lane is a whole number from 1 to 8, and ${lane} arrived`)
  }
  if (lane === 1) return 400
  return 2 * straight + 2 * Math.PI * (kerbRadius + laneWidth * (lane - 1) + fromLine)
}

/** The time of one lap in a lane at a pace in seconds per kilometre.
 * @throws RangeError for a lane outside 1 to 8 or a pace that is not above 0
 * Source: World Athletics track. */
export function lapSeconds(secondsPerKm: number, lane: number): number {
  return (positive(secondsPerKm, 'the pace') * lapMetersOfLane(lane)) / 1000
}
