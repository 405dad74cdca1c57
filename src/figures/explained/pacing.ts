import { formatClock, formatClockShort } from '../../units/duration.ts'
import { halvesOf } from '../halves.ts'
import { judge, type Range, timeRange } from '../range.ts'
import { paceOfSplits } from '../splits.ts'
import { figure, num } from './figure.ts'

type Measured = readonly { meters: number; seconds: number }[]

const fiveSplits = [225, 227, 228, 231, 234].map((seconds, index) => ({ number: index + 1, seconds }))
const measured = fiveSplits.map(({ seconds }) => ({ meters: 1000, seconds }))
const sum = (splits: Measured, of: 'meters' | 'seconds') =>
  splits.reduce((total, split) => total + split[of], 0)
const perKm = (seconds: number) => `${formatClock(seconds, 1)}/km`

/** Source: see the entries. */
export const pacingFigures = {
  pace: figure<{ splits: Measured }>({
    name: 'pace',
    title: 'Pace of a piece of work',
    aliases: ['speed'],
    equation: ['pace = all recorded seconds / all recorded metres x 1000'],
    symbols: [{ symbol: 'pace', meaning: 'time for a kilometre; times 1.609344 for a mile', unit: 's/km' }],
    sources: ['Common practice', 'Yard and pound 1959'],
    holds: 'for what has both a time and a distance; recoveries are left out.',
    holdsNot: 'for what was done without a time.',
    example: { splits: measured },
    work: ({ splits }) => {
      const pace = paceOfSplits(splits)
      if (pace === null) return ['nothing has both a time and a distance']
      return [
        `${num(sum(splits, 'seconds'))} s / ${num(sum(splits, 'meters'))} m x 1000 = ${num(pace)} s/km = ${perKm(pace)}`,
      ]
    },
  }),
  halves: figure<{ splits: Measured }>({
    name: 'halves',
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
    sources: ['Abbiss 2008', 'Invented'],
    holds: 'for a continuous piece. For repeats it is said as "first and second half of the repeats".',
    holdsNot: 'for one split: its halves are not known. The thresholds are invented.',
    example: { splits: measured },
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
    name: 'in-range',
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
    sources: ['Invented'],
    holds: 'for pieces with a pace or a time as target.',
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
