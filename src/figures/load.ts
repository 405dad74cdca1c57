import { sum } from 'd3-array'
import { metersInPaceUnit } from '../units/duration.ts'
import type { DistanceUnit } from '../units/model.ts'
import { explanation, figure, known, noise, num } from './figure.ts'
import { mean, sampleDeviation, straightLine } from './statistics.ts'

/** Session load of a part: its effort from 0 to 10 times its minutes.
 * Source: Foster 1998; Foster 2001. */
export function effortMinutes(effort: number, minutes: number): number {
  return effort * minutes
}

/** Session load of a session.
 * @param parts that were done; null for one without an effort or without minutes
 * Source: Foster 2001. */
export function sessionLoad(parts: readonly (number | null)[]) {
  const known = parts.filter((part) => part !== null)
  return {
    // Sum of the known parts; null without any.
    effortMinutes: known.length === 0 ? null : sum(known),
    // A part that was done has no effort or no minutes, so the sum is a minimum.
    atLeast: known.length < parts.length,
  }
}

/** Session load of a day.
 * Source: Foster 1998. */
export function dayLoad(sessions: readonly ReturnType<typeof sessionLoad>[]) {
  return {
    // The sum of the known sessions; 0 without a session.
    effortMinutes: sum(sessions, ({ effortMinutes }) => effortMinutes),
    // False if a session of the day, or a part of one, has no effort: the sum is a minimum.
    known: sessions.every(({ effortMinutes: load, atLeast }) => load !== null && !atLeast),
  }
}

/** Monotony needs at least this many days of training, and this much variation between days. This program's own
 * rule. */
const fewestTrainingDays = 3
const leastVariation = 0.05

/** A week of seven days: its sum, a minimum (`atLeast`) with an unknown day; `monotony`: mean of the days / their
 * standard deviation, null if a day is unknown, with fewer than three days of training, and if the coefficient of
 * variation is below 5 %; `strain`: sum x monotony. The publication does not say which standard deviation it means; this
 * uses the sample's (n - 1).
 * Source: Foster 1998; Foster 2001; This program's own rule. */
export function weekLoad(days: readonly ReturnType<typeof dayLoad>[]) {
  const loads = days.map((day) => day.effortMinutes)
  const total = sum(loads)
  const atLeast = days.some((day) => !day.known)
  const [middle, deviation] = [mean(loads) ?? 0, sampleDeviation(loads) ?? 0]
  const hasMonotony =
    !atLeast &&
    loads.filter((load) => load > 0).length >= fewestTrainingDays &&
    deviation >= middle * leastVariation
  const monotony = hasMonotony ? middle / deviation : null
  return { effortMinutes: total, atLeast, monotony, strain: monotony === null ? null : total * monotony }
}

interface PartLoad {
  name: string
  effort: number | null
  minutes: number | null
  effortMinutes: number | null
  /** From the end of the part before it; null if unknown. */
  gapMinutes: number | null
}

function partLine({ name, effort, minutes, effortMinutes, gapMinutes }: PartLoad): string {
  const load =
    effortMinutes === null
      ? 'not known'
      : `${known(effort)} x ${known(minutes, 'min')} = ${num(effortMinutes)}`
  return `${name}: ${load}${gapMinutes === null ? '' : `, ${num(gapMinutes, 1)} min after the part before`}`
}

/** The reduction of training volume in a taper, as shares.
 * Source: Bosquet 2007; Wang 2023. */
const taperCut = { least: 0.41, most: 0.6 }
/** How long a taper lasts, in weeks.
 * Source: Bosquet 2007. */
export const taperWeeks = 2

/** The distance of a taper week: 41 to 60 % less than the mean of the weeks before it.
 * @param weeks metres of the weeks before, at least one, each 0 or more
 * @returns metres
 * Source: Bosquet 2007; Wang 2023. */
export function taperMeters(weeks: readonly number[]): { mean: number; from: number; to: number } {
  const middle = mean(weeks) as number
  return { mean: middle, from: middle * (1 - taperCut.most), to: middle * (1 - taperCut.least) }
}

/** The fraction by which a day is cut for a race distance: the square root of the race's distance over the
 * distance of the day's goal, at most 1 and at least 0.4. Metres.
 * Source: This program's own rule. */
export function fractionForRace(raceMeters: number, goalMeters: number): number {
  return Math.min(1, Math.max(0.4, Math.sqrt(raceMeters / goalMeters)))
}

/** A distance in metres cut by a fraction from 0 to 1: rounded to 0.5 km or mi from 2 up and to 0.1 km or 0.05 mi
 * below, never 0, never longer than before.
 * Source: This program's own rule. */
export function cutMeters(meters: number, fraction: number, unit: DistanceUnit): number {
  const size = metersInPaceUnit[unit]
  const cut = (meters / size) * fraction
  const stepsInUnit = cut >= 2 - noise ? 2 : unit === 'km' ? 10 : 20
  const steps = Math.max(1, Math.round(cut * stepsInUnit + noise))
  return Math.min(meters, (steps / stepsInUnit) * size)
}

/** A time cut by a fraction from 0 to 1, in seconds: rounded to a minute from 10 minutes up and to 15 seconds below,
 * never 0, never longer than before.
 * Source: This program's own rule. */
export function cutSeconds(seconds: number, fraction: number): number {
  const cut = seconds * fraction
  const step = cut >= 600 - noise ? 60 : 15
  return Math.min(seconds, Math.max(1, Math.round(cut / step + noise)) * step)
}

/** A number of sets or repeats cut by a fraction from 0 to 1: rounded up, at least 1.
 * Source: This program's own rule. */
export function cutCount(count: number, fraction: number): number {
  return Math.max(1, Math.ceil(count * fraction - noise))
}

export const loadFigures = {
  'session-load': figure<{ parts: readonly PartLoad[] }>({
    title: 'Session load, minutes, and the gaps between parts',
    aliases: ['effort', 'effort-minutes', 'load', 'minutes', 'gap', 'duration', 'gap-minutes'],
    equation: [
      "session load = sum of each part's effort x its minutes",
      "minutes of the session = sum of the parts' minutes",
      'gap = start of a part - end of the part before it',
    ],
    symbols: [
      [
        'effort',
        '0 rest, 1 very, very easy, 2 easy, 3 moderate, 4 somewhat hard, 5 hard, 7 very hard, 10 maximal',
        '-',
      ],
      [
        'minutes',
        'as offered when a part is closed (without the time its clock was stopped), or typed',
        'min',
      ],
    ],
    sources: ['Foster 1998', 'Foster 2001', "This program's own rule"],
    holds: 'when each part is rated on its own, about half an hour after it.',
    holdsNot:
      "between two people. A missing effort is not 0: the sum is then a minimum (210+). The scale is not that of the RPE of a set. The minutes leave out the gaps, this program's own rule; from paper a gap is known only with clock times.",
    example: {
      parts: [
        { name: 'run', effort: 8, minutes: 62, effortMinutes: 496, gapMinutes: null },
        { name: 'lift', effort: 7, minutes: 48, effortMinutes: 336, gapMinutes: 95 },
      ],
    },
    work: ({ parts }) => {
      const { effortMinutes, atLeast } = sessionLoad(parts.map((part) => part.effortMinutes))
      return [
        ...parts.map(partLine),
        `session ${known(effortMinutes)}${atLeast && effortMinutes !== null ? '+, at least' : ''}`,
      ]
    },
  }),
  'week-load': explanation({
    title: 'Session load of a week, and its monotony',
    aliases: ['week', 'monotony', 'strain', 'day-load'],
    equation: [
      'week = sum of seven days; a day without a session is 0',
      'monotony = mean of the days / their sample standard deviation (n - 1)',
      'load x monotony (with progress load --full)',
    ],
    symbols: [['day', 'sum of its sessions, not known when one, or a part of one, has no effort', '-']],
    sources: ['Foster 1998', 'Foster 2001', "This program's own rule"],
    holds:
      "for seven known days, three of them with training, whose SD is 5 % of their mean or more (both limits are this program's own).",
    holdsNot:
      "as a forecast of injury or a threshold: there is no evidence for either. The publication does not say which standard deviation it means; this is the sample's, which makes the figures 0.926 times what the other would.",
    example: () => {
      const loads = [360, 0, 315, 160, 0, 720, 180]
      const week = weekLoad(loads.map((effortMinutes) => ({ effortMinutes, known: true })))
      const [total, monotony] = [num(week.effortMinutes), num(week.monotony!, 6)]
      return [
        `${loads.join(' + ')} = ${total}`,
        `mean ${known(mean(loads), '', 4)} / SD ${known(sampleDeviation(loads), '', 4)} = monotony ${monotony}`,
        `${total} x ${monotony} = ${num(week.strain!)} load x monotony`,
      ]
    },
  }),
  trend: explanation({
    title: 'Straight-line trend',
    aliases: ['straight-line', 'least-squares', 'slope'],
    equation: [
      'slope = sum of (x - mean x)(y - mean y) / sum of (x - mean x)^2',
      'standard error of the slope = SD of the residuals (n - 2) / square root of that sum',
      '95 % interval = slope +- t(n - 2) x standard error',
    ],
    symbols: [
      ['x', 'time since the first point', 'weeks'],
      ['y', 'the figure', 'its own'],
    ],
    sources: ['Least squares', 't distribution', "This program's own rule"],
    holds:
      'as a description of what was, from 4 sessions over 21 days on; where the interval spans 0: "no change that can be told from noise".',
    holdsNot: 'as a forecast. Estimates from clusters, from straight sets and after a run are never joined.',
    example: () => {
      const points = [100, 101, 103.5, 103, 105].map((y, x) => ({ x, y }))
      const { meanX, meanY, slope, slopeError } = straightLine(points)!
      return [
        points.map(({ x, y }) => `(${x}, ${y})`).join(' '),
        `means ${num(meanX)} and ${num(meanY)}; slope ${num(slope)} +- ${known(slopeError, '', 3)} kg a week`,
      ]
    },
  }),
  taper: explanation({
    title: 'Distance of a taper week',
    aliases: ['plan', 'race-week', 'peaking'],
    equation: ['from = m x (1 - 0.60)', 'to   = m x (1 - 0.41)'],
    symbols: [
      ['m', 'mean distance of the four weeks before the taper', 'km'],
      ['from, to', 'distance of a taper week', 'km'],
    ],
    sources: ['Bosquet 2007', 'Wang 2023', "This program's own rule"],
    holds:
      'Trained endurance athletes: gains were largest with two weeks and 41 to 60 % less volume, intensity and frequency kept.',
    holdsNot:
      'It is the mean of many studies: people differ. This program\'s own rules: the mean is that of the latest four weeks with a known distance (what was done, for weeks that are over); "race week" counts as a taper week; plan --new counts running without a distance at 6:00/km, makes every fourth week a third shorter and the last two a taper; plan points out weeks 20 % or more off what was planned, heavy leg days followed within two days by hard running, and heavy legs or a long run on one of the two days before the race; plan --move tells a hard day by its day file, else by words such as tempo, track and legs.',
    example: () => {
      const weeks = [42, 45, 30, 51]
      const { mean, from, to } = taperMeters(weeks)
      return [
        `m = (${weeks.join(' + ')}) / 4 = ${num(mean)} km`,
        `from = ${num(mean)} x 0.40 = ${num(from)} km`,
        `to = ${num(mean)} x 0.59 = ${num(to)} km`,
      ]
    },
  }),
  cut: explanation({
    title: 'Cutting a day',
    aliases: ['cutting', 'fraction', 'short day'],
    equation: [
      'to minutes (--minutes, --by, --to, t): cut in this order until the day is expected to fit',
      '1 accessories from the last (a superset, and rounds against the clock, lose rounds first); 2 the cool-down down to 5 min; 3 repeats down to half; 4 back-off sets of the main lifts; 5 their sets down to 2, the heaviest stay, and rounds against the clock down to half; 6 continuous running down to half; 7 the warm-up down to 10 min',
      'with t a step is done or left out: the cool-down, the warm-up and a run without splits keep their length',
      'too short for that: the run only, or the lift only',
      'for a race (--for): running x f, f = square root of (race distance / goal distance), at most 1, at least 0.4; lifts stay',
      'distance or time: to 0.5 km or mi from 2 up, to 100 m or 0.05 mi below; halves are rounded up; races, loads, rests and paces stay',
    ],
    symbols: [['f', 'fraction of the day that is left', '-']],
    sources: ["This program's own rule"],
    holds: 'in the spirit of the common advice to halve a long day.',
    holdsNot: 'as a plan: it is a proposal to be edited.',
    example: () => {
      const f = fractionForRace(5000, 10_000)
      return [
        `f = square root of (5000 / 10000) = ${num(f, 4)}`,
        `5000 m x ${num(f, 4)} = ${num(5000 * f)} m, rounded ${num(cutMeters(5000, f, 'km'))} m`,
        `6 repeats x ${num(f, 4)} = ${num(6 * f)}, rounded up ${cutCount(6, f)}`,
      ]
    },
  }),
}
