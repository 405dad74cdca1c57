import { formatClock } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import { exampleBar, rackOf } from './bar.ts'
import { explanation, noise, num } from './figure.ts'
import { riegelSeconds } from './race.ts'
import { judge, type Range, secondsPerKm } from './splits.ts'
import { median } from './statistics.ts'

const effortAtTheLimit = 9.5

/** From this effort on, being ahead of a negative split's range is too fast. This program's own rule. */
const hardAhead = 9

/** Whether an effort is at least 9.5, from where on no advice asks for the target range or for more. False without an
 * effort.
 * Source: This program's own rule. */
export function isAtTheLimit(effort: number | null): boolean {
  return effort !== null && effort >= effortAtTheLimit
}

/** A stretch of an interval, and the time prescribed for it in seconds. */
export interface Stretch {
  meters: number
  range: Range
}

export interface IntervalUnderWay extends Stretch {
  seconds: number
  /** The last effort typed for this interval, 1 to 10; null without one. */
  effort: number | null
  /** The athlete wants a faster second half. */
  negative: boolean
}

/** Advice for the rest of an interval that cannot end in its range.
 * Source: This program's own rule. */
export const restAdvice = {
  outOfReach: 'The range is out of reach today: hold this pace, or stop here.',
  ahead: (lead: string) => `${lead} faster than the range: hold it or ease off.`,
}

const fasterThanRange = 0.01

/** What the time so far of a continuous run means for the rest of it, which may have a range of its own, as in a
 * progression. `endsInRange`: the paces that end in the range, at most 1 % faster than the fast end of what is left and
 * not slower than its slow end; `outOfReach`: only a faster pace would; `ahead`: only a slower one would; `keepOn`: ahead
 * where a faster second half is wanted, at an effort below 9. Seconds per kilometre. Null at its end, and at an effort of
 * at least 9.5 if only running faster would help.
 * Source: This program's own rule. */
export function restOfInterval(done: IntervalUnderWay, left: Stretch) {
  const meanSecondsPerKm = secondsPerKm(done.meters, done.seconds)
  if (left.meters <= 0) return null
  const paceOf = (seconds: number) => secondsPerKm(left.meters, seconds)
  const needed = {
    from: paceOf(done.range.from + left.range.from - done.seconds),
    to: paceOf(done.range.to + left.range.to - done.seconds),
  }
  const written = { from: paceOf(left.range.from), to: paceOf(left.range.to) }
  const aheadSecondsPerKm = secondsPerKm(done.meters, done.range.from) - meanSecondsPerKm
  const isHard = done.effort !== null && done.effort >= hardAhead
  if (done.negative && aheadSecondsPerKm > noise && !isHard) return { kind: 'keepOn' as const }
  const fastest = written.from * (1 - fasterThanRange)
  if (needed.to < fastest - noise) return { kind: 'outOfReach' as const }
  if (needed.from > written.to + noise) return { kind: 'ahead' as const, aheadSecondsPerKm }
  if (isAtTheLimit(done.effort)) return null
  const range = { from: Math.max(needed.from, fastest), to: Math.min(needed.to, written.to) }
  return { kind: 'endsInRange' as const, secondsPerKm: range, meanSecondsPerKm }
}

const repeatsWords = {
  ease: 'ease off: the range is fast enough',
  rangeLooksFast: 'the range looks fast today',
  restLonger: 'rest longer, ease off, or stop here',
  atLimit: 'You are at your limit: rest longer or stop here',
}

interface Repeat {
  seconds: number
  /** The value of the last typed digit. */
  precision: number
  range: Range
}

const tooFast = 0.02
const tooSlow = 0.03

/** What repeats outside their range suggest. The first two more than 2 % fast: ease; the first two slow: the
 * range looks fast; later two in a row slower than the range and more than 3 % slower than the median of those
 * before, each taken as a share of the middle of its own range: rest longer. Otherwise, if the last one was at an
 * effort of at least 9.5: at the limit. Null without advice. On a grade over 1 % only the effort counts.
 * @param done the repeats so far that have a target time, in order
 * @param effort of the last repeat, whatever its target; null without one, or where it was prescribed
 * Source: This program's own rule. */
export function repeatsAdvice(
  done: readonly Repeat[],
  gradePercent: number | null,
  effort: number | null,
): string | null {
  const isLevel = Math.abs(gradePercent ?? 0) <= 1
  return (isLevel ? outOfRange(done) : null) ?? (isAtTheLimit(effort) ? repeatsWords.atLimit : null)
}

function outOfRange(done: readonly Repeat[]): string | null {
  const lastTwo = done.slice(-2)
  const areSlow = lastTwo.every((each) => judge(each.seconds, each.range, each.precision) === 'slow')
  if (done.length === 2) {
    const areFast = lastTwo.every((each) => each.seconds < each.range.from * (1 - tooFast))
    return areFast ? repeatsWords.ease : areSlow ? repeatsWords.rangeLooksFast : null
  }
  const before = median(done.slice(0, -2).map(shareOfMiddle))
  if (done.length < 4 || before === null || !areSlow) return null
  const haveFallenOff = lastTwo.every((each) => shareOfMiddle(each) > before * (1 + tooSlow))
  return haveFallenOff ? repeatsWords.restLonger : null
}

/** Makes repeats of different lengths or targets comparable. */
function shareOfMiddle({ seconds, range }: { seconds: number; range: Range }): number {
  return seconds / ((range.from + range.to) / 2)
}

/** How far a heart rate or an effort is outside its range: above 0 for too high, below 0 for too low, 0 inside it.
 * Source: This program's own rule. */
export function outsideOf(value: number, range: Range): number {
  if (value > range.to) return value - range.to
  return value < range.from ? value - range.from : 0
}

/** Share of the highest heart rate from which running is hard.
 * Source: This program's own rule. */
export const hardHeartShare = 0.88
/** Effort, 0 to 10, from which running is hard.
 * Source: This program's own rule. */
export const hardEffort = 7
const hardPaceShare = 1.15
const longestHardRace = 10_000
const marathon = metersOf({ value: 1, unit: 'marathon' })

/** The slowest pace that is hard, in seconds per kilometre: 15 % slower than race pace. A race longer than 10 km is
 * first converted to an equal performance over 10 km, because easy running is hardly slower than a marathon. Null for a
 * race longer than that, which is slower than easy running.
 * Source: This program's own rule; Riegel 1981. */
export function slowestHardPace(goal: { meters: number; seconds: number }): number | null {
  if (goal.meters > marathon) return null
  const meters = Math.min(goal.meters, longestHardRace)
  return (riegelSeconds(goal.meters, goal.seconds, meters) / (meters / 1000)) * hardPaceShare
}

export interface LastSet {
  /** As typed. */
  rpe: number | null
  failed: boolean
  /** The prescribed effort of the set. */
  target: Range | null
  /** No advice to add load: pain was noted today, a repetition failed today, the sets start by the
   * clock (`every`), the load is 70 % of the maximum or less, or the lift is explosive. */
  noHeavier: boolean
}

const limitOfEffort = 10
const effortWithoutOne = 8
const pointsUp = 1.5
const pointsDown = 1
const shareAPoint = 0.04
const mostUp = 0.05
const mostDown = 0.1
const afterFailure = -0.05

/** The share by which to change the load after the last set's effort, -0.05 for 5 % less: 4 % for each point between the
 * typed effort and the prescribed one. Up only if it was at least 1.5 below the prescribed one, by at most 5 %; down if
 * it was at least 1 above the prescribed one, or at 10 without one (as if 8 were prescribed), by at most 10 %. After a
 * failed repetition 5 % less, or as much less as an effort of 10 would give: nobody fails with repetitions in reserve.
 * Null without advice.
 * Source: Helms 2018; This program's own rule. */
export function changeAfter({ rpe, failed, target, noHeavier }: LastSet): number | null {
  if (failed) {
    const points = target === null ? 0 : pointsLeft(limitOfEffort, target)
    return Math.max(-mostDown, Math.min(afterFailure, points * shareAPoint))
  }
  const points = rpe === null ? 0 : pointsLeft(rpe, target)
  if (points <= -pointsDown + noise) return Math.max(-mostDown, points * shareAPoint)
  return points < pointsUp - noise || noHeavier ? null : Math.min(mostUp, points * shareAPoint)
}

/** Points of effort between prescribed and typed: positive if it was easier. Without a prescribed
 * effort only 10 counts. */
function pointsLeft(rpe: number, target: LastSet['target']): number {
  if (target === null) return rpe >= limitOfEffort ? effortWithoutOne - rpe : 0
  return -outsideOf(rpe, target)
}

const explosiveLift = /\b(cleans?|snatch(es)?|jerks?|jumps?|throws?|swings?|push[ -]press(es)?)\b/i

/** Whether a lift is done as fast as possible, so that its effort says little about the load.
 * @param name as written
 * Source: This program's own rule. */
export function isExplosive(name: string): boolean {
  return explosiveLift.test(name)
}

/** Up to this percentage of the maximum nothing heavier is advised. This program's own rule. */
export const lightPercent = 70

/** How much lighter a load really is after rounding to what can be made: 70 after 72.5 is `3 % less`.
 * Source: This program's own rule. */
export function lessText(before: number, after: number): string {
  return `${num((1 - after / before) * 100, 0)} % less`
}

/** After more days than this without training, the next load is a tenth lighter.
 * Source: This program's own rule. */
export const longGapDays = 21
/** After more days than this, a fifth lighter.
 * Source: This program's own rule. */
export const longerGapDays = 56

/** The share of a load to take off after this many days without training, more than `longGapDays`.
 * Source: This program's own rule. */
export function lessAfter(days: number): number {
  return days > longerGapDays ? 0.2 : 0.1
}

const clock = (seconds: number) => formatClock(seconds, 1)

export const adviceFigures = {
  'next-load': explanation({
    title: 'Advice: the next load',
    aliases: ['advice', 'usual-advice'],
    equation: [
      'change = 4 % x (written RPE - typed RPE), at most + 5 %, at least - 10 %: of the load, with weight on the body of all that is moved',
      'up only where the set came in 1.5 or more below a written RPE;',
      'down where it came in 1 or more above a written RPE, or at RPE 10 without one (as if 8 were written)',
      'after a failed repetition - 5 %, or as much less as RPE 10 gives against the written RPE:',
      'only advice: nothing changes the load by itself',
      'rounded to the nearest load that can be made; where none is within 10 %: 2 repetitions fewer',
    ],
    symbols: [['written RPE', 'nearest end of a written range', '-']],
    sources: ['Helms 2018', "This program's own rule"],
    holds: 'as usual advice. The 4 % is published; the limits are not.',
    holdsNot:
      'upward after a failed repetition or a pain note that day, for sets started by the clock (every), for 70 % of the maximum or less, and for cleans, snatches, jerks, jumps, throws, swings and the push press.',
    example: () => {
      const set = { rpe: 10, target: { from: 8, to: 8 }, failed: false, noHeavier: false }
      const change = changeAfter(set)!
      const wanted = 92.5 * (1 + change)
      return [
        `RPE 8 written, 10 typed: change ${num(change * 100)} %`,
        `92.5 x ${num(1 + change)} = ${num(wanted)} kg, the nearest that can be made ${num(rackOf(exampleBar).nearest(wanted))} kg`,
      ]
    },
  }),
  next: explanation({
    title: 'What comes next: the same day again',
    aliases: ['again', 'progression', 'what-comes-next'],
    equation: [
      'for each line the first that applies:',
      'a sign that needs a doctor: unchanged',
      'more than 21 days without the lift, without running to a pace, or for a long run without one half as long: 10 % less, half the repeats or half the run (easy running before a race);',
      'more than 56 days: 20 % less;',
      'what that took off a run comes back, in the eight weeks after, once the day was done well: three quarters, then all of it, before a faster range',
      'pain that covers it: unchanged',
      'too hard (failed, or half of the sets 1 above the written effort):',
      'same load; twice in a row at that load 5 % less (with assistance: of the mass moved), after weeks away at once what they take off;',
      'legs after a run faster than written or at effort 9: unchanged, run the',
      'written pace first',
      'effort 1 above the written one, or 10 without one: same',
      'complete twice in a row (lighter days between and days in pain do not count) at the written effort (8.5 without one), below 9.5: the next load, 2.5 to 5 % more;',
      'where there is none, up to two repetitions more, then the next load, at most 10 % more,',
      'or where there is none a set more with the repetitions as before, up to five sets',
      'none of this, and no faster range, in a taper or race week of the plan, or when one begins within a week;',
      'running: four fifths of what is written in range at effort 8 or less, at no more than a written heart rate and without pain, twice in a row: range 1 % faster (that of the goal stays); both days within 21 days of each other;',
      'faster than the range at effort 9, or with a leg lift too hard after it: same range;',
      'fewer than half of what was run in it: 2 % slower',
    ],
    sources: ['Mujika and Padilla 2000', "This program's own rule"],
    holds:
      "as a proposal for a day like it. The source is for how slowly strength goes; every limit is this program's own.",
    holdsNot:
      'for a plan: of the block it knows the taper alone. Pain from the hip down, in the back or in an unknown place covers all running and every lift but seated or lying ones of the upper body; of neck or ribs those as well; of shoulder, arm or wrist every upper-body lift and what is held in the hands; a later 0 ends it.',
    example: () => {
      const less = lessAfter(5 * 7)
      const wanted = 92.5 * (1 - less)
      return [
        `5 weeks since the last time: ${num(less * 100)} % less`,
        `92.5 x ${num(1 - less)} = ${num(wanted)} kg, the nearest that can be made ${num(rackOf(exampleBar).nearest(wanted))} kg`,
      ]
    },
  }),
  'repeats-advice': explanation({
    title: 'Advice: repeats outside their range',
    aliases: ['repeats'],
    equation: [
      `the first two more than 2 % fast: "${repeatsWords.ease}"`,
      `the first two slow: "${repeatsWords.rangeLooksFast}"`,
      'later two in a row slow and more than 3 % slower than the median of those before,',
      'each as time / middle of its own range:',
      `"${repeatsWords.restLonger}"`,
      'else, the last one at an effort of 9.5 or more:',
      `"${repeatsWords.atLimit}"`,
    ],
    sources: ["This program's own rule"],
    holds: 'for repeats with a pace or a time; the effort also for those with a heart rate.',
    holdsNot: 'on a grade over 1 %, where only the effort counts; after a pain note nothing is said.',
    example: () => {
      const range = { from: 107.5, to: 112.5 }
      const times = [109, 110, 109.5, 114, 114.5]
      const done = times.map((seconds) => ({ seconds, precision: 0.1, range }))
      return [
        `range ${clock(range.from)} to ${clock(range.to)}; so far ${times.map(clock).join(', ')}`,
        repeatsAdvice(done, null, null)!,
      ]
    },
  }),
  'rest-of-interval': explanation({
    title: 'Advice: the pace for the rest of an interval',
    aliases: ['remaining-splits', 'rest-of-piece'],
    equation: [
      'rest = (range of the whole interval - time so far) / metres left x 1000',
      'shown: the part of it inside the range of what is left, the fast end of which is widened by 1 %',
      `all of it faster: "${restAdvice.outOfReach}"`,
      `all of it slower: "${restAdvice.ahead('4 s/km')}"`,
    ],
    sources: ["This program's own rule"],
    holds: 'for a continuous run with a pace or a time.',
    holdsNot:
      'after a pain note, or from an effort of 9.5: then it asks for nothing. With "negative" a pace ahead of the range is compared with the last split instead.',
    example: () => {
      const done = { meters: 3000, seconds: 740, range: { from: 735, to: 750 } }
      const left = { meters: 2000, range: { from: 490, to: 500 } }
      const rest = restOfInterval({ ...done, effort: null, negative: false }, left)
      if (rest?.kind !== 'endsInRange') return []
      const { from, to } = rest.secondsPerKm
      return [
        `so far ${clock(rest.meanSecondsPerKm)}/km; 2000 m left in ${clock(1225 - 740)} to ${clock(1250 - 740)}`,
        `${clock(from)} to ${clock(to)}/km`,
      ]
    },
  }),
}
