import { sum } from 'd3-array'
import { formatClockShort } from '../units/duration.ts'
import { figure, known, noise, num, perKm } from './figure.ts'
import { mean, sampleDeviation, straightLine } from './statistics.ts'

type NumberedSplits = readonly { number: number; seconds: number }[]

/** Computes the statistics of full splits of the same length: mean, sample standard deviation, coefficient of
 * variation, and slowest minus fastest; the fade is the slope of the straight line of seconds over the split's number,
 * in percent of the mean. Null with fewer than two splits, the fade with fewer than three. `number` is the split's
 * number in its item, from 1: a skipped one leaves a gap.
 * Source: Sample statistics; Least squares. */
export function splitFigures(splits: NumberedSplits) {
  const seconds = splits.map((split) => split.seconds)
  const points = splits.map((split) => ({ x: split.number, y: split.seconds }))
  const [meanSeconds, sdSeconds] = [mean(seconds), sampleDeviation(seconds)]
  const isTooFew = meanSeconds === null || sdSeconds === null
  const line = splits.length < 3 ? null : straightLine(points)
  return {
    meanSeconds: isTooFew ? null : meanSeconds,
    sdSeconds,
    cvPercent: isTooFew ? null : (sdSeconds / meanSeconds) * 100,
    rangeSeconds: isTooFew ? null : Math.max(...seconds) - Math.min(...seconds),
    fadePercentPerSplit: isTooFew || line === null ? null : (line.slope / meanSeconds) * 100,
  }
}

type MeasuredSplits = readonly { meters: number; seconds: number }[]
const metersOf = (splits: readonly { meters: number }[]) => sum(splits, ({ meters }) => meters)
const secondsOf = (splits: MeasuredSplits) => sum(splits, ({ seconds }) => seconds)

/** Pace in seconds per kilometre.
 * Source: Common practice. */
export function secondsPerKm(meters: number, seconds: number): number {
  return (seconds / meters) * 1000
}

/** Pace of an item: all its recorded seconds over all its recorded metres, in seconds per kilometre; null
 * without a split.
 * Source: Common practice. */
export function paceOfSplits(splits: MeasuredSplits): number | null {
  return splits.length === 0 ? null : secondsPerKm(metersOf(splits), secondsOf(splits))
}

/** Halves this close in pace, or in time, count as even. This program's own rule. */
const evenPercent = 0.5
const evenSeconds = 0.5

export interface Halves {
  firstSecondsPerKm: number
  secondSecondsPerKm: number
  /** The second half's pace relative to the first's: negative is faster. */
  changePercent: number
  shape: 'negative' | 'even' | 'positive'
}

/** Cuts the recorded distance in the middle, divides the split at the cut by distance, and compares the two
 * paces: even within 0.5 % or within 0.5 s of each other's time. Null with fewer than two splits, because the halves of
 * one split are equal by construction. The caller leaves out splits with a gap and intervals of different lengths.
 * Source: Abbiss 2008; This program's own rule. */
export function halvesOf(splits: MeasuredSplits): Halves | null {
  if (splits.length < 2) return null
  const half = metersOf(splits) / 2
  const first = ofFirstHalf(splits, (split) => split.seconds)
  const second = secondsOf(splits) - first
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

/** How much of an amount belongs to the first half of the distance: a split astride the middle is shared by distance.
 * Source: This program's own rule. */
export function ofFirstHalf<Split extends { meters: number }>(
  splits: readonly Split[],
  amountOf: (split: Split) => number,
): number {
  const half = metersOf(splits) / 2
  let [covered, first] = [0, 0]
  for (const split of splits) {
    first += amountOf(split) * Math.min(1, Math.max(0, (half - covered) / split.meters))
    covered += split.meters
  }
  return first
}

/** By how much a single target value is widened each way. This program's own rule. */
const widenedShare = 0.01
const widenedSeconds = 0.5

export interface Range {
  from: number
  to: number
}

/** The range for a time, in seconds. A single value is widened by 1 %, at least 0.5 s, each
 * way; two values are used as given, in either order.
 * Source: This program's own rule. */
export function timeRange(target: Range): Range {
  const { from, to } = target
  if (from !== to) return { from: Math.min(from, to), to: Math.max(from, to) }
  const wide = Math.max(from * widenedShare, widenedSeconds)
  return { from: from - wide, to: to + wide }
}

/** The range for the time of a split, from a pace in seconds per kilometre: scaled to the split's length, then
 * a single value widened.
 * Source: This program's own rule. */
export function timeRangeOfPace(secondsPerKm: Range, meters: number): Range {
  const km = meters / 1000
  return timeRange({ from: secondsPerKm.from * km, to: secondsPerKm.to * km })
}

/** Whether a time is in its range, including its ends and half of the last typed digit.
 * @param precision the value of that digit: 1 for 6:07, 0.1 for 6:07.2
 * Source: This program's own rule. */
export function judge(seconds: number, range: Range, precision: number): 'fast' | 'in' | 'slow' {
  const spare = precision / 2 + noise
  if (seconds < range.from - spare) return 'fast'
  return seconds > range.to + spare ? 'slow' : 'in'
}

const fiveSplits = [225, 227, 228, 231, 234].map((seconds, index) => ({ number: index + 1, seconds }))
const fiveKilometers = fiveSplits.map(({ seconds }) => ({ meters: 1000, seconds }))

export const pacingFigures = {
  pace: figure<{ splits: MeasuredSplits }>({
    title: 'Pace of an interval',
    aliases: ['speed'],
    equation: ['pace = all recorded seconds / all recorded metres x 1000'],
    symbols: [['pace', 'time for a kilometre; times 1.609344 for a mile', 's/km']],
    sources: ['Common practice', 'Yard and pound 1959'],
    holds: 'for what has both a time and a distance; recoveries are left out.',
    holdsNot: 'for what was done without a time.',
    example: { splits: fiveKilometers },
    work: ({ splits }) => {
      const pace = paceOfSplits(splits)!
      return [
        `${num(secondsOf(splits))} s / ${num(metersOf(splits))} m x 1000 = ${num(pace)} s/km = ${perKm(pace)}`,
      ]
    },
  }),
  halves: figure<{ splits: MeasuredSplits }>({
    title: 'First and second half',
    aliases: ['negative-split', 'positive-split', 'even-split', 'negative', 'positive', 'even'],
    equation: [
      'change = (second - first) / first x 100, of the paces of the halves',
      'even: change within 0.5 %, or the times of the halves within 0.5 s',
      'else negative (faster) or positive (slower)',
    ],
    symbols: [['half', 'of the recorded distance; a split astride the middle is shared by distance', 'm']],
    sources: ['Abbiss 2008', "This program's own rule"],
    holds: 'for a continuous run; for repeats, as "first and second half of the repeats".',
    holdsNot:
      "across a split that was skipped or has no distance or no time, for a ladder, for one split, whose halves are not known, and for fewer than four repeats. The thresholds and the four are this program's own rule.",
    example: { splits: fiveKilometers },
    work: ({ splits }) => {
      const halves = halvesOf(splits)!
      return [
        `${num(metersOf(splits))} m cut at ${num(metersOf(splits) / 2)} m`,
        `first ${perKm(halves.firstSecondsPerKm)}, second ${perKm(halves.secondSecondsPerKm)}`,
        `change ${num(halves.changePercent)} %: ${halves.shape}`,
      ]
    },
  }),
  'in-range': figure<{ target: Range; splits: readonly { seconds: number; precision: number }[] }>({
    title: 'In the range',
    aliases: ['target', 'target-range', 'judged'],
    equation: [
      'in: from - d/2 <= t <= to + d/2',
      'a single value v is widened to v - w ... v + w, w = max(1 % of v, 0.5 s)',
    ],
    symbols: [
      ['from, to', "the time range, or a pace range scaled to the split's length", 's'],
      ['d', 'value of the last typed digit: 1 for 6:07, 0.1 for 6:07.2', 's'],
    ],
    sources: ["This program's own rule"],
    holds: 'for intervals with a pace or a time as target.',
    holdsNot: 'for effort, heart rate or words as target: nothing is judged there.',
    example: {
      target: { from: 107.5, to: 112.5 },
      splits: [109.2, 107.4, 113].map((seconds) => ({ seconds, precision: 0.1 })),
    },
    work: ({ target, splits }) => {
      const range = timeRange(target)
      const verdicts = splits.map((split) => judge(split.seconds, range, split.precision))
      return [
        `range ${formatClockShort(range.from)} to ${formatClockShort(range.to)}`,
        ...splits.map((split, index) => `${formatClockShort(split.seconds)} ${verdicts[index]}`),
        `${verdicts.filter((verdict) => verdict === 'in').length} of ${splits.length} in`,
      ]
    },
  }),
  splits: figure<{ splits: NumberedSplits }>({
    title: 'Splits of the same length: mean, deviation, range, fade',
    aliases: [
      ...['mean', 'average', 'split-mean'],
      ...['sd', 'standard-deviation', 'deviation', 'split-deviation'],
      ...['cv', 'variation', 'coefficient-of-variation', 'evenness'],
      ...['range', 'spread', 'split-range', 'fade', 'fade-per-split', 'slowing'],
    ],
    equation: [
      'mean = sum of t / n, range = slowest - fastest',
      'SD = square root of (sum of (t - mean)^2 / (n - 1)), CV = SD / mean x 100',
      'fade = slope of the least-squares line of t over the number of the split / mean x 100',
    ],
    symbols: [
      ['t', 'time of a full split; a shorter last one is left out', 's'],
      ['n', 'how many they are', '-'],
      ['SD, CV', 'sample standard deviation, coefficient of variation', 's, %'],
      ['number', 'of the split in its item; a skipped one leaves a gap', '-'],
      ['fade', 'positive: each split slower than the one before', '% a split'],
    ],
    sources: ['Sample statistics', 'Least squares', 'Common practice'],
    holds: 'for two or more full splits of the same length; the fade for three or more.',
    holdsNot:
      'for few of them: below six only --full shows SD, CV and fade. The CV is not that of speeds sampled every second, which is ten times as large.',
    example: { splits: fiveSplits },
    work: ({ splits }) => {
      const { meanSeconds, sdSeconds, cvPercent, rangeSeconds, fadePercentPerSplit } = splitFigures(splits)
      const times = splits.map(({ seconds }) => seconds)
      const mean = num(meanSeconds!)
      const squares = times.map((seconds) => num((seconds - meanSeconds!) ** 2)).join(' + ')
      const slope = ((fadePercentPerSplit ?? 0) / 100) * meanSeconds!
      return [
        splits.map(({ number, seconds }) => `(${number}, ${formatClockShort(seconds)})`).join(' '),
        `mean ${mean} s; range ${num(Math.max(...times))} s - ${num(Math.min(...times))} s = ${known(rangeSeconds, 's')}`,
        `squares of the differences: ${squares}; / (${splits.length} - 1), square root: SD ${known(sdSeconds, 's', 3)}`,
        `CV ${known(sdSeconds, 's', 3)} / ${mean} s x 100 = ${known(cvPercent, '%', 3)}`,
        fadePercentPerSplit === null
          ? 'fewer than three splits: no fade'
          : `slope ${num(slope, 3)} s a split / mean ${mean} s x 100 = ${num(fadePercentPerSplit, 3)} % a split`,
      ]
    },
  }),
}
