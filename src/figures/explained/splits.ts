import { formatClockShort } from '../../units/duration.ts'
import { splitFigures } from '../splits.ts'
import { figure, known, num } from './figure.ts'

type Numbered = readonly { number: number; seconds: number }[]

const fiveSplits = [225, 227, 228, 231, 234].map((seconds, index) => ({ number: index + 1, seconds }))
const clocks = (splits: readonly { seconds: number }[]) =>
  splits.map((split) => formatClockShort(split.seconds)).join(', ')

const number = { symbol: 't', meaning: 'time of a full split; a shorter last one is left out', unit: 's' }
const holdsForFull = 'over full splits of the same length, two and more.'

/** Source: see the entries. */
export const splitEntries = {
  'split-mean': figure<{ splits: Numbered }>({
    name: 'split-mean',
    title: 'Mean of the splits',
    aliases: ['mean', 'average'],
    equation: ['mean = sum of t / number of splits'],
    symbols: [number],
    sources: ['Sample statistics'],
    holds: holdsForFull,
    holdsNot: 'for one split.',
    example: { splits: fiveSplits },
    work: ({ splits }) => [clocks(splits), `mean ${known(splitFigures(splits).meanSeconds, 's')}`],
  }),
  'split-deviation': figure<{ splits: Numbered }>({
    name: 'split-deviation',
    title: 'Standard deviation of the splits',
    aliases: ['sd', 'standard-deviation', 'deviation', 'spread'],
    equation: ['SD = square root of (sum of (t - mean)^2 / (n - 1))'],
    symbols: [number, { symbol: 'n', meaning: 'number of splits', unit: '-' }],
    sources: ['Sample statistics'],
    holds: holdsForFull,
    holdsNot: 'for one split; with few splits it says little, so it stands behind --full below six.',
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
  variation: figure<{ splits: Numbered }>({
    name: 'variation',
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
  'split-range': figure<{ splits: Numbered }>({
    name: 'split-range',
    title: 'Range of the splits',
    aliases: ['range'],
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
  fade: figure<{ splits: Numbered }>({
    name: 'fade',
    title: 'Fade',
    aliases: ['fade-per-split', 'slowing'],
    equation: ['fade = slope of the least-squares line of t over the number of the split / mean x 100'],
    symbols: [
      { symbol: 'number', meaning: 'of the split in its item; a skipped one leaves a gap', unit: '-' },
      { symbol: 'fade', meaning: 'positive: each split slower than the one before', unit: '% a split' },
    ],
    sources: ['Least squares', 'Common practice'],
    holds: 'over full splits of the same length, three and more.',
    holdsNot: 'for fewer; behind --full below six.',
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
