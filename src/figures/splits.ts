import { formatClock, formatClockShort } from '../units/duration.ts'
import { figure, known, num } from './figure.ts'
import { positive, wholeFrom } from './given.ts'
import { judge, type Range, timeRange } from './range.ts'
import { mean, sampleDeviation, straightLine } from './statistics.ts'

export interface SplitFigures {
  /** Null with fewer than two splits, as are the next three. */
  meanSeconds: number | null
  /** Sample standard deviation. */
  sdSeconds: number | null
  /** Coefficient of variation. */
  cvPercent: number | null
  /** Slowest minus fastest. */
  rangeSeconds: number | null
  /** Slope of the straight line of seconds over the split's number, in percent of the mean; null with fewer than
   * three. */
  fadePercentPerSplit: number | null
}

/** Computes the statistics of full splits of the same length. `number` is the split's number in its item, from 1: a
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

/** Halves this close in pace, or in time, count as even. This program's own rule. */
const evenPercent = 0.5
const evenSeconds = 0.5
const noise = 1e-9

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
 * @throws RangeError for a distance or a time that is not above 0
 * Source: Abbiss 2008; This program's own rule. */
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

type NumberedSplits = readonly { number: number; seconds: number }[]

const fiveSplits = [225, 227, 228, 231, 234].map((seconds, index) => ({ number: index + 1, seconds }))
const clocks = (splits: readonly { seconds: number }[]) =>
  splits.map((split) => formatClockShort(split.seconds)).join(', ')

const splitTime = { symbol: 't', meaning: 'time of a full split; a shorter last one is left out', unit: 's' }
const holdsForFull = 'over full splits of the same length, two and more.'

export const evennessFigures = {
  'split-mean': figure<{ splits: NumberedSplits }>({
    title: 'Mean of the splits',
    aliases: ['mean', 'average'],
    equation: ['mean = sum of t / number of splits'],
    symbols: [splitTime],
    sources: ['Sample statistics'],
    holds: holdsForFull,
    holdsNot: 'for one split.',
    example: { splits: fiveSplits },
    work: ({ splits }) => [clocks(splits), `mean ${known(splitFigures(splits).meanSeconds, 's')}`],
  }),
  'split-deviation': figure<{ splits: NumberedSplits }>({
    title: 'Standard deviation of the splits',
    aliases: ['sd', 'standard-deviation', 'deviation'],
    equation: ['SD = square root of (sum of (t - mean)^2 / (n - 1))'],
    symbols: [splitTime, { symbol: 'n', meaning: 'number of splits', unit: '-' }],
    sources: ['Sample statistics'],
    holds: holdsForFull,
    holdsNot: 'for one split; with few splits it says little, so below six splits only --full shows it.',
    example: { splits: fiveSplits },
    work: ({ splits }) => {
      const { meanSeconds, sdSeconds } = splitFigures(splits)
      if (meanSeconds === null) return ['fewer than two splits: none']
      const squares = splits.map((split) => num((split.seconds - meanSeconds) ** 2))
      return [
        `mean ${num(meanSeconds)} s; squares of the differences: ${squares.join(' + ')}`,
        `/ (${splits.length} - 1), square root: SD ${known(sdSeconds, 's', 3)}`,
      ]
    },
  }),
  variation: figure<{ splits: NumberedSplits }>({
    title: 'Coefficient of variation of the splits',
    aliases: ['cv', 'coefficient-of-variation', 'evenness'],
    equation: ['CV = SD / mean x 100'],
    symbols: [{ symbol: 'SD', meaning: 'sample standard deviation (split-deviation)', unit: 's' }],
    sources: ['Sample statistics'],
    holds: holdsForFull,
    holdsNot: 'beside figures of speed taken every second: those are ten times as large.',
    example: { splits: fiveSplits },
    work: ({ splits }) => {
      const { sdSeconds, meanSeconds, cvPercent } = splitFigures(splits)
      return [`${known(sdSeconds, 's', 3)} / ${known(meanSeconds, 's')} x 100 = ${known(cvPercent, '%', 3)}`]
    },
  }),
  'split-range': figure<{ splits: NumberedSplits }>({
    title: 'Range of the splits',
    aliases: ['range', 'spread'],
    equation: ['range = slowest - fastest'],
    symbols: [],
    sources: ['Common practice'],
    holds: holdsForFull,
    holdsNot: 'for one split.',
    example: { splits: fiveSplits },
    work: ({ splits }) => {
      if (splits.length < 2) return ['fewer than two splits: none']
      const times = splits.map((split) => split.seconds)
      const [slowest, fastest] = [Math.max(...times), Math.min(...times)]
      return [`${num(slowest)} s - ${num(fastest)} s = ${known(splitFigures(splits).rangeSeconds, 's')}`]
    },
  }),
  fade: figure<{ splits: NumberedSplits }>({
    title: 'Fade',
    aliases: ['fade-per-split', 'slowing'],
    equation: ['fade = slope of the least-squares line of t over the number of the split / mean x 100'],
    symbols: [
      { symbol: 'number', meaning: 'of the split in its item; a skipped one leaves a gap', unit: '-' },
      { symbol: 'fade', meaning: 'positive: each split slower than the one before', unit: '% a split' },
    ],
    sources: ['Least squares', 'Common practice'],
    holds: 'over full splits of the same length, three and more.',
    holdsNot: 'for fewer; below six only --full shows it.',
    example: { splits: fiveSplits },
    work: ({ splits }) => {
      const { meanSeconds, fadePercentPerSplit } = splitFigures(splits)
      if (fadePercentPerSplit === null || meanSeconds === null) return ['fewer than three splits: none']
      const slope = (fadePercentPerSplit / 100) * meanSeconds
      return [
        splits.map((split) => `(${split.number}, ${formatClockShort(split.seconds)})`).join(' '),
        `slope ${num(slope, 3)} s a split / mean ${num(meanSeconds)} s x 100 = ${num(fadePercentPerSplit, 3)} % a split`,
      ]
    },
  }),
}

type MeasuredSplits = readonly { meters: number; seconds: number }[]

const fiveKilometers = fiveSplits.map(({ seconds }) => ({ meters: 1000, seconds }))
const sum = (splits: MeasuredSplits, of: 'meters' | 'seconds') =>
  splits.reduce((total, split) => total + split[of], 0)
const perKm = (seconds: number) => `${formatClock(seconds, 1)}/km`

export const pacingFigures = {
  pace: figure<{ splits: MeasuredSplits }>({
    title: 'Pace of an interval',
    aliases: ['speed'],
    equation: ['pace = all recorded seconds / all recorded metres x 1000'],
    symbols: [{ symbol: 'pace', meaning: 'time for a kilometre; times 1.609344 for a mile', unit: 's/km' }],
    sources: ['Common practice', 'Yard and pound 1959'],
    holds: 'for what has both a time and a distance; recoveries are left out.',
    holdsNot: 'for what was done without a time.',
    example: { splits: fiveKilometers },
    work: ({ splits }) => {
      const pace = paceOfSplits(splits)
      if (pace === null) return ['nothing has both a time and a distance']
      return [
        `${num(sum(splits, 'seconds'))} s / ${num(sum(splits, 'meters'))} m x 1000 = ${num(pace)} s/km = ${perKm(pace)}`,
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
    symbols: [
      {
        symbol: 'half',
        meaning: 'of the recorded distance; a split astride the middle is shared by distance',
        unit: 'm',
      },
    ],
    sources: ['Abbiss 2008', "This program's own rule"],
    holds: 'for a continuous run. For repeats it is said as "first and second half of the repeats".',
    holdsNot:
      "across a split that was skipped or has no distance or no time, for a ladder, for one split, whose halves are not known, and for fewer than four repeats. The thresholds and the four are this program's own rule.",
    example: { splits: fiveKilometers },
    work: ({ splits }) => {
      const halves = halvesOf(splits)
      if (halves === null) return ['fewer than two splits: none']
      return [
        `${num(sum(splits, 'meters'))} m cut at ${num(sum(splits, 'meters') / 2)} m`,
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
      {
        symbol: 'from, to',
        meaning: "the time range, or a pace range scaled to the split's length",
        unit: 's',
      },
      { symbol: 'd', meaning: 'value of the last typed digit: 1 for 6:07, 0.1 for 6:07.2', unit: 's' },
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
}
