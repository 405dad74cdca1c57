import { formatClock } from '../units/duration.ts'
import { type Equipment, rackOf, usualPlates } from './bar.ts'
import { figure, num } from './figure.ts'
import { between, positive } from './given.ts'
import { judge, type Range } from './range.ts'
import { secondsPerKm } from './splits.ts'
import { median } from './statistics.ts'

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

export interface RepeatsAdvice {
  kind: 'ease' | 'rangeLooksFast' | 'restLonger'
  words: string
}

const tooFast = 0.02
const tooSlow = 0.03

/** What repeats that leave their range suggest. The first two more than 2 % fast: ease; the first two slow: the
 * range looks fast; later two in a row slower than the range and more than 3 % slower than the median of those
 * before: rest longer. Null when there is nothing to say, and never on a grade over 1 %.
 * @param done the repeats so far, in order: seconds, the value of the last typed digit, and the range of each
 * @throws RangeError for a time or a precision that is not above 0
 * Source: Invented. */
export function repeatsAdvice(
  done: readonly { seconds: number; precision: number; range: Range }[],
  gradePercent: number | null,
): RepeatsAdvice | null {
  if (Math.abs(gradePercent ?? 0) > 1 || done.length < 2) return null
  const lastTwo = done.slice(-2)
  const areSlow = lastTwo.every((each) => judge(each.seconds, each.range, each.precision) === 'slow')
  if (done.length === 2) {
    const areFast = lastTwo.every((each) => each.seconds < each.range.from * (1 - tooFast))
    if (areFast) return { kind: 'ease', words: 'ease, the range is there' }
    return areSlow ? { kind: 'rangeLooksFast', words: 'the range looks fast today' } : null
  }
  const before = median(done.slice(0, -2).map((each) => each.seconds))
  if (done.length < 4 || before === null || !areSlow) return null
  const haveFallenOff = lastTwo.every((each) => each.seconds > before * (1 + tooSlow))
  return haveFallenOff ? { kind: 'restLonger', words: 'rest longer, ease off, or stop here' } : null
}

/** Advice as data, and the words that are said, in pieces to be joined by a space; a number among the words
 * is a load in the unit that was given. */
export interface LoadAdvice {
  kind: 'lighter' | 'heavier' | 'failed'
  /** The load for the next set, rounded down to what can be made; null where nothing can. */
  load: number | null
  /** Share by which the load changes before it is rounded: -0.05 is 5 % less. */
  change: number
  words: (string | number)[]
}

export interface LastSet {
  /** The load on the bar, in any unit. */
  load: number
  /** As typed. */
  rpe: number | null
  failed: boolean
  /** The effort written for the set. */
  target: { from: number; to: number } | null
  cluster: boolean
  /** An earlier set of this exercise today had a failed repetition, or a pain note was made: nothing more
   * upward. */
  noHeavier: boolean
  /** The largest load that can be made at or below another; null where there is none. */
  atOrBelow: (load: number) => number | null
}

const usualTarget = 8
const quietPoints = 1
const shareAPoint = 0.04
const mostUp = 0.05
const mostDown = -0.1
const afterFailure = -0.05
const noise = 1e-9

/** What the last set's effort suggests for the next load: 4 % for each point between the effort typed and the
 * one written (8 where none is; for a cluster set only a written one), nothing within 1 point, at most 5 %
 * more or 10 % less, rounded down to the plates. After a failed repetition 5 % less, or fewer repetitions.
 * Null when there is nothing to say.
 * @throws RangeError for a load that is not above 0 or an RPE outside 1 to 10
 * Source: Helms 2018; Common practice. */
export function nextLoad(set: LastSet): LoadAdvice | null {
  const load = positive(set.load, 'the load')
  if (set.failed) {
    const lighter = set.atOrBelow(load * (1 + afterFailure) + noise)
    const words = [
      'usual advice: 5 % less',
      ...(lighter === null ? [] : ['(', lighter, ')']),
      'or fewer repetitions',
    ]
    return { kind: 'failed', load: lighter, change: afterFailure, words }
  }
  const points = pointsLeft(set)
  if (points === null || Math.abs(points) <= quietPoints + noise) return null
  const change = Math.min(mostUp, Math.max(mostDown, points * shareAPoint))
  if (change > 0 && set.noHeavier) return null
  const next = set.atOrBelow(load * (1 + change) + noise)
  if (next === null || (change > 0 && next <= load + noise)) return null
  return {
    kind: change > 0 ? 'heavier' : 'lighter',
    load: next,
    change,
    words: ['usual advice:', next, 'for the next set'],
  }
}

/** Points of effort between what was written and what was typed: positive when it was easier. */
function pointsLeft(set: LastSet): number | null {
  if (set.rpe === null) return null
  const rpe = between(set.rpe, 1, 10, 'an RPE')
  if (set.target === null && set.cluster) return null
  const target = set.target ?? { from: usualTarget, to: usualTarget }
  if (rpe < target.from) return target.from - rpe
  return rpe > target.to ? target.to - rpe : 0
}

/** Whether a load may be offered for the next set as it stands: never the failed one with full repetitions.
 * Source: Common practice. */
export function mayOffer(load: number, failedLoad: number | null): boolean {
  return failedLoad === null || load < failedLoad - noise
}

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
