import { positive } from './given.ts'
import { secondsPerKm } from './splits.ts'

/** So near in pace, or in time, the halves are even. Invented. */
const evenPercent = 0.5
const evenSeconds = 0.5
const noise = 1e-9

export interface Halves {
  firstSecondsPerKm: number
  secondSecondsPerKm: number
  /** Of the second half's pace to the first's: negative is faster. */
  changePercent: number
  shape: 'negative' | 'even' | 'positive'
}

/** The recorded distance cut in the middle, a split astride it shared by distance, and the two paces
 * compared: even within 0.5 % or within 0.5 s of each other's time. Null below two splits: the halves of
 * one are the same by construction.
 * @throws RangeError for a distance or a time that is not above 0
 * Source: Abbiss 2008; Invented. */
export function halvesOf(splits: readonly { meters: number; seconds: number }[]): Halves | null {
  if (splits.length < 2) return null
  const meters = splits.reduce((sum, split) => sum + positive(split.meters, 'the distance of a split'), 0)
  const seconds = splits.reduce((sum, split) => sum + positive(split.seconds, 'the time of a split'), 0)
  const half = meters / 2
  let [covered, first] = [0, 0]
  for (const split of splits) {
    const share = Math.min(1, Math.max(0, (half - covered) / split.meters))
    first += split.seconds * share
    covered += split.meters
  }
  const second = seconds - first
  const changePercent = ((second - first) / first) * 100
  const even =
    Math.abs(changePercent) <= evenPercent + noise || Math.abs(second - first) <= evenSeconds + noise
  return {
    firstSecondsPerKm: secondsPerKm(half, first),
    secondSecondsPerKm: secondsPerKm(half, second),
    changePercent,
    shape: even ? 'even' : changePercent < 0 ? 'negative' : 'positive',
  }
}
