import { positive } from '../given.ts'
import type { Range } from '../range.ts'
import { secondsPerKm } from '../splits.ts'

export interface RestOfPiece {
  /** Mean pace so far, in seconds per kilometre. */
  meanSecondsPerKm: number
  restMeters: number
  /** What the rest must be run in to finish in the range: seconds, and seconds per kilometre. `from` is null
   * where any time above 0 is still in the range. */
  restSeconds: { from: number | null; to: number }
  restSecondsPerKm: { from: number | null; to: number }
}

/** A continuous piece under way: the mean so far, and what the rest must be to finish in the range. Null at its
 * end, and where the range is out of reach because the time is gone already.
 * @param range of the whole piece, in seconds
 * @throws RangeError for a distance, a time or a range that is not above 0
 * Source: Common practice. */
export function restOfPiece(
  done: { meters: number; seconds: number },
  totalMeters: number,
  range: Range,
): RestOfPiece | null {
  const meanSecondsPerKm = secondsPerKm(done.meters, done.seconds)
  const restMeters = positive(totalMeters, 'the distance') - done.meters
  const to = positive(range.to, 'the range') - done.seconds
  const from = positive(range.from, 'the range') - done.seconds
  if (restMeters <= 0 || to <= 0) return null
  const pace = (seconds: number) => secondsPerKm(restMeters, seconds)
  return {
    meanSecondsPerKm,
    restMeters,
    restSeconds: { from: from > 0 ? from : null, to },
    restSecondsPerKm: { from: from > 0 ? pace(from) : null, to: pace(to) },
  }
}
