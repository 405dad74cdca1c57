import { positive, wholeFrom } from './given.ts'
import { mean, sampleDeviation } from './statistics.ts'
import { straightLine } from './straightLine.ts'

export interface SplitFigures {
  /** Null below two splits, as are the next three. */
  meanSeconds: number | null
  /** Sample standard deviation. */
  sdSeconds: number | null
  /** Coefficient of variation. */
  cvPercent: number | null
  /** Slowest less fastest. */
  rangeSeconds: number | null
  /** Slope of the straight line of seconds over the split's number, in percent of the mean; null below three. */
  fadePercentPerSplit: number | null
}

/** What full splits of the same length say together. `number` is the split's number in its item, from 1: a
 * skipped one leaves a gap.
 * @throws RangeError for a time that is not above 0, or a number that is not whole
 * Source: Sample statistics; Least squares. */
export function splitFigures(splits: readonly { number: number; seconds: number }[]): SplitFigures {
  const seconds = splits.map((split) => positive(split.seconds, 'the time of a split'))
  const points = splits.map((split) => ({
    x: wholeFrom(split.number, 1, 'the number of a split'),
    y: split.seconds,
  }))
  const [meanSeconds, sdSeconds] = [mean(seconds), sampleDeviation(seconds)]
  if (meanSeconds === null || sdSeconds === null) {
    return {
      meanSeconds: null,
      sdSeconds: null,
      cvPercent: null,
      rangeSeconds: null,
      fadePercentPerSplit: null,
    }
  }
  const line = splits.length < 3 ? null : straightLine(points)
  return {
    meanSeconds,
    sdSeconds,
    cvPercent: (sdSeconds / meanSeconds) * 100,
    rangeSeconds: Math.max(...seconds) - Math.min(...seconds),
    fadePercentPerSplit: line === null ? null : (line.slope / meanSeconds) * 100,
  }
}

/** Pace in seconds per kilometre.
 * @throws RangeError for a distance or a time that is not above 0
 * Source: Common practice. */
export function secondsPerKm(meters: number, seconds: number): number {
  return (positive(seconds, 'the time') / positive(meters, 'the distance')) * 1000
}

/** Pace of an item: all its recorded seconds over all its recorded metres, in seconds per kilometre; null
 * without a split.
 * Source: Common practice. */
export function paceOfSplits(splits: readonly { meters: number; seconds: number }[]): number | null {
  if (splits.length === 0) return null
  const sumOf = (of: 'meters' | 'seconds') => splits.reduce((sum, split) => sum + split[of], 0)
  return secondsPerKm(sumOf('meters'), sumOf('seconds'))
}
