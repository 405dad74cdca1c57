import { formatClock } from '../../units/duration.ts'
import { restOfPiece } from '../advice/continuous.ts'
import { nextLoad } from '../advice/nextLoad.ts'
import { repeatsAdvice } from '../advice/repeats.ts'
import { type Equipment, rackOf, usualPlates } from '../bar.ts'
import type { Range } from '../range.ts'
import { figure, num } from './figure.ts'

const garage: Equipment = { bar: 20, collar: 0, plates: usualPlates.kg }
const clock = (seconds: number) => formatClock(seconds, 1)

/** Source: see the entries. */
export const adviceFigures = {
  'next-load': figure<{ load: number; rpe: number; target: Range | null; equipment: Equipment }>({
    name: 'next-load',
    title: 'Advice: the next load',
    aliases: ['advice', 'usual-advice'],
    equation: [
      'change = 4 % x (written RPE - typed RPE), at most + 5 %, at least - 10 %',
      'nothing within 1 point; rounded down to the plates; after a failed repetition - 5 %',
    ],
    symbols: [
      {
        symbol: 'written RPE',
        meaning: 'nearest end of a written range; 8 where none is written',
        unit: '-',
      },
    ],
    sources: ['Helms 2018', 'Common practice'],
    holds: 'as usual advice, never more. For a cluster set only with a written effort.',
    holdsNot: 'upward after a failed repetition or a pain note that day.',
    example: { load: 92.5, rpe: 10, target: { from: 8, to: 8 }, equipment: garage },
    work: ({ load, rpe, target, equipment }) => {
      const { atOrBelow } = rackOf(equipment)
      const advice = nextLoad({
        load,
        rpe,
        failed: false,
        target,
        cluster: false,
        noHeavier: false,
        atOrBelow,
      })
      const written =
        target === null
          ? '8 (none written)'
          : target.from === target.to
            ? num(target.from)
            : `${num(target.from)}-${num(target.to)}`
      if (advice === null) return [`written ${written}, typed ${num(rpe)}: nothing to say`]
      return [
        `written ${written}, typed ${num(rpe)}: change ${num(advice.change * 100)} %`,
        `${num(load)} x ${num(1 + advice.change, 4)} = ${num(load * (1 + advice.change))}, rounded down ${num(advice.load ?? 0)}`,
      ]
    },
  }),
  'repeats-advice': figure<{ range: Range; seconds: readonly number[] }>({
    name: 'repeats-advice',
    title: 'Advice: repeats out of their range',
    aliases: ['repeats'],
    equation: [
      'the first two more than 2 % fast: "ease, the range is there"',
      'the first two slow: "the range looks fast today"',
      'later two in a row slow and more than 3 % slower than the median of those before:',
      '"rest longer, ease off, or stop here"',
    ],
    symbols: [],
    sources: ['Invented'],
    holds: "as coaches' practice.",
    holdsNot: 'on a grade over 1 %.',
    example: { range: { from: 107.5, to: 112.5 }, seconds: [109, 110, 109.5, 114, 114.5] },
    work: ({ range, seconds }) => {
      const done = seconds.map((each) => ({ seconds: each, precision: 0.1, range }))
      return [
        `range ${clock(range.from)} to ${clock(range.to)}; so far ${seconds.map(clock).join(', ')}`,
        repeatsAdvice(done, null)?.words ?? 'nothing to say',
      ]
    },
  }),
  'rest-of-piece': figure<{ done: { meters: number; seconds: number }; meters: number; range: Range }>({
    name: 'rest-of-piece',
    title: 'Advice: what the rest of a piece must be',
    aliases: ['remaining-splits'],
    equation: ['rest = (range of the whole piece - time so far) / metres left x 1000'],
    symbols: [],
    sources: ['Common practice'],
    holds: 'for a continuous piece with a pace or a time.',
    holdsNot: 'where the range is out of reach: then it is said so.',
    example: { done: { meters: 3000, seconds: 740 }, meters: 5000, range: { from: 1225, to: 1250 } },
    work: ({ done, meters, range }) => {
      const rest = restOfPiece(done, meters, range)
      if (rest === null) return ['the range is out of reach, or the piece is over']
      const from = rest.restSecondsPerKm.from
      return [
        `so far ${clock(rest.meanSecondsPerKm)}/km; ${num(rest.restMeters)} m left in ${rest.restSeconds.from === null ? 'any time' : clock(rest.restSeconds.from)} to ${clock(rest.restSeconds.to)}`,
        `${from === null ? 'anything' : clock(from)} to ${clock(rest.restSecondsPerKm.to)}/km`,
      ]
    },
  }),
}
