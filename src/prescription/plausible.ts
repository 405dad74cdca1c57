import { greatest } from 'd3-array'
import { printNumber, roundTo } from '../units/decimal.ts'
import { formatClockSpan, paceIn, printDuration, printPace, secondsPerKmOf } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { DistanceUnit, Length, Mass } from '../units/model.ts'
import { scaled } from './expandRun.ts'
import type { Interval, Load, Span, Target } from './model.ts'
import { printSpan } from './print.ts'
import { type Context, isBare, isSound, placeOf } from './written.ts'

/* Warns of values that can be read but are implausible, and says what was probably meant. The limits are this
 * program's own, wide enough for the strongest athletes; only the paces refer to what has been run. */

/** Seconds a kilometre; anything slower is walked. */
const walk = 720
/** Seconds a kilometre of a brisk walk; nobody has a slower time in mind. */
const slowestMeant = 900
const mostPercent = 110

/** Paces this close count as the same, and one this far from all others is an outlier. This program's own rule. */
const samePace = 0.05
const otherPace = 0.25
/** Repeats are run at most this much slower than goal pace; this program's own rule. */
const slowRepeat = 1.1
/** Nobody runs repeats this much slower than goal pace, only a warm-up; this program's own rule. */
const slowRun = 1.5

export type Pace = Extract<Target, { kind: 'pace' }>

/** Asks about a pace without a unit that is far from every other pace of the day and would match one in the other
 * unit; null for any other pace. */
export function paceInOtherUnit(pace: Pace, all: readonly Pace[], unit: DistanceUnit): string | null {
  const others = all.filter((each) => each !== pace)
  if (!isBare(pace) || pace.per !== unit) return null
  const factor = unit === 'km' ? 1 / paceIn(1, 'mi') : paceIn(1, 'mi')
  const ratioTo = (other: Pace) => middleOf(pace) / middleOf(other)
  const like = others.find((each) => Math.abs(ratioTo(each) * factor - 1) <= samePace)
  if (like === undefined || others.some((each) => Math.abs(ratioTo(each) - 1) <= otherPace)) return null
  const other = unit === 'km' ? 'mi' : 'km'
  const text = printPace(pace)
  return `${text} is far from ${printPace(like)}; did you mean ${text.replace(/\/.*$/, '')}/${other}?`
}

/** In seconds a kilometre. */
function middleOf({ from, to, per }: Pace): number {
  return secondsPerKmOf((from + to) / 2, per)
}

/** Asks about a pace that is probably the time of its interval, because it is slower than a walk (`5 km @ 20:00`),
 * faster than the world record over that distance (`8 x 400 m @ 1:20`) or far from goal pace; null for any
 * other. With its unit written, only the record counts: even a slow pace is meant as it is.
 * @param per its unit, as it is probably meant */
export function paceAsTime(
  pace: Pace,
  per: Pace['per'],
  { amounts }: Interval,
  isRepeated: boolean,
  context: Context,
): string | null {
  const length = longestOf(amounts, context)
  if (context.part.kind !== 'run' || amounts.length > 1 || length === null) return null
  if (!isSound(pace) || !isSound(length)) return null
  const meters = metersOf(length, context.lapMeters)
  const asPace = perKmOf({ ...pace, per })
  const asTime = scaled(pace, 1000 / meters)
  const record = recordPace(meters)
  const isSlow = isBare(pace) && asPace.from > walk
  const isUnlikely =
    asPace.from < record || (isBare(pace) && isTimeByGoal(asPace, asTime, isRepeated, context))
  if ((!isSlow && !isUnlikely) || asTime.from < record || asTime.to > walk) return null
  const says = isSlow ? 'slower than a walk' : `${timesOf(asPace, meters)} for ${printLength(length)}`
  return `${printPace({ ...pace, per })} is ${says}; did you mean in ${formatClockSpan(pace, null)}?`
}

/** Whether a pace is far from goal pace, but would not be if read as the time of the interval. */
function isTimeByGoal(asPace: Span, asTime: Span, isRepeated: boolean, context: Context): boolean {
  const goalPace = goalPaceOf(context)
  if (goalPace === null) return false
  const tooFast = goalPace * (1 - otherPace)
  const isFar = asPace.from < tooFast || (isRepeated && asPace.from > goalPace * slowRun)
  return isFar && asTime.from >= tooFast && asTime.to <= goalPace * slowRepeat
}

/** Whether a pace is near goal pace as it is written. */
export function isByGoal(pace: Pace, context: Context): boolean {
  const goalPace = goalPaceOf(context)
  return goalPace !== null && Math.abs(perKmOf(pace).from / goalPace - 1) <= otherPace
}

/** In seconds a kilometre. */
function goalPaceOf({ goal, lapMeters }: Context): number | null {
  return goal && (goal.seconds * 1000) / metersOf(goal.length, lapMeters)
}

/** The longest distance of an interval; null for one without any. */
function longestOf(amounts: Interval['amounts'], { lapMeters }: Context): Length | null {
  const lengths = amounts.flatMap((each) => (each.kind === 'distance' ? [each.length] : []))
  return greatest(lengths, (each) => metersOf(each, lapMeters)) ?? null
}

/** In seconds a kilometre. */
function perKmOf(pace: Pace): Span {
  return scaled(pace, secondsPerKmOf(1, pace.per))
}

/** The times that a pace gives over a distance: `1:36-1:40`. */
function timesOf({ from, to }: Span, meters: number): string {
  const timeAt = (seconds: number) => roundTo((seconds * meters) / 1000, 1)
  return formatClockSpan({ from: timeAt(from), to: timeAt(to) }, null)
}

/** Warns of more than 500 kg, or more than 110 % of a maximum. */
export function warnOfLoad(load: Load, context: Context): void {
  if (load.kind !== 'percent') {
    const value = load.kind === 'mass' ? load.to : load.added
    warnOfMass('load', { value, unit: load.unit }, context, load)
  } else if (isSound(load) && load.to > mostPercent) {
    const text = `${printSpan(load)}% of a maximum is more than anyone lifts`
    context.doubt(placeOf(load), `${text}; write ${mostPercent}% or less`)
  }
}

/** In kilograms. A load taken off the bodyweight is negative. */
const masses = {
  load: {
    least: Number.NEGATIVE_INFINITY,
    most: 500,
    says: (mass: string) => `${mass} is more than anyone lifts (500 kg)`,
  },
  bar: { least: 0, most: 60, says: (mass: string) => `no bar weighs ${mass} (at most 60 kg)` },
  athlete: {
    least: 25,
    most: 300,
    says: (mass: string) => `hardly any athlete weighs ${mass} (25 to 300 kg)`,
  },
}

/** Warns of an implausible load, maximum, bar or body mass, and suggests the number with its decimal point moved.
 * @param written the value of the line that has this mass */
export function warnOfMass(
  what: keyof typeof masses,
  mass: Mass,
  context: Context,
  written: object = mass,
): void {
  const { least, most, says } = masses[what]
  const isLikely = (value: number) => {
    const kg = kilogramsOf({ value, unit: mass.unit })
    return kg >= least && kg <= most
  }
  if (!isSound(written) || isLikely(mass.value)) return
  const meant = [mass.value / 10, mass.value * 10].find(isLikely)
  const advice =
    meant === undefined ? 'check the number' : `did you mean ${printMass({ value: meant, unit: mass.unit })}?`
  context.doubt(placeOf(written), `${says(printMass(mass))}; ${advice}`)
}

/** The slowest and fastest speed accepted on foot, in metres a second: a slow walk, and faster than any human has run.
 * This program's own. */
const speedsOnFoot = { slow: 0.5, fast: 12.5 }

/** Plausible speeds on wheels, water and machines, in metres a second: this program's own, with room for a bicycle
 * and a swimmer. */
const otherSpeeds = { slow: 0.2, fast: 25 }

/** The slowest and the fastest plausible speed in a part, in metres a second.
 * @param meters the distance, null if unknown: nobody sprints a mile */
export function speedLimits(kind: string, meters: number | null): { slow: number; fast: number } {
  if (kind === 'cross') return otherSpeeds
  return meters === null ? speedsOnFoot : { ...speedsOnFoot, fast: fastestOver(meters) }
}

/** What is wrong with some speeds, in metres a second; null if nothing is. */
function verdictOn(speeds: readonly number[], kind: string, meters: number | null): string | null {
  const { slow, fast } = speedLimits(kind, meters)
  if (speeds.some((speed) => speed > fast)) return 'faster than any human'
  return speeds.some((speed) => speed < slow) ? 'slower than a walk' : null
}

/** The warning for an implausible time over a distance, with the time that was probably meant: hours and
 * minutes read as minutes and seconds, or the other way round, unless that is a stroll; null if the time is plausible.
 * @param what the distance, in words
 * @param kind of the part */
export function implausibleTime(
  what: string,
  meters: number,
  { from, to }: Span,
  kind: string,
): { message: string; meant: Span | null } | null {
  const speedsAt = (factor: number) => [meters / (from * factor), meters / (to * factor)]
  const verdict = verdictOn(speedsAt(1), kind, meters)
  if (verdict === null) return null
  const factor = verdict.startsWith('faster') ? 60 : 1 / 60
  const isStroll = kind !== 'cross' && (from * factor * 1000) / meters > slowestMeant
  const isMeant = !isStroll && verdictOn(speedsAt(factor), kind, meters) === null
  const text = printDuration(from)
  const inSeconds = text.endsWith('s') || from > 3600 ? '' : ` (${printNumber(from)} s)`
  const question = isMeant ? `: did you mean ${printDuration(from * factor)}?` : ''
  return {
    message: `${what} in ${text}${inSeconds} is ${verdict}${question}`,
    meant: isMeant ? { from: from * factor, to: to * factor } : null,
  }
}

/** Reports a pace or a speed that nobody holds over the distance.
 * @param what it is, in words
 * @param speeds of both its ends, in metres a second */
export function checkSpeeds(
  target: Target,
  what: string,
  speeds: readonly number[],
  { amounts }: Interval,
  context: Context,
): void {
  if (!isSound(target)) return
  const length = longestOf(amounts, context)
  const verdict = verdictOn(speeds, context.part.kind, length && metersOf(length, context.lapMeters))
  const over = length === null ? '' : ` over ${printLength(length)}`
  if (verdict !== null) context.report(placeOf(target), `${what} is ${verdict}${over}`)
}

/** Men's world records: metres and seconds (World Athletics; from memory). */
const records: readonly (readonly [meters: number, seconds: number])[] = [
  [100, 9.58],
  [200, 19.19],
  [400, 43.03],
  [800, 100.91],
  [1500, 206],
  [5000, 755.36],
  [10_000, 1571],
  [21_097.5, 3450],
  [42_195, 7235],
]
/** How much faster than the record a time may be; this program's own rule. */
const fasterThanRecord = 1.1

/** Seconds a kilometre of the world record at a distance in metres, interpolated by the logarithm of the distance. */
function recordPace(meters: number): number {
  const paces = records.map(([length, seconds]) => [length, (seconds * 1000) / length] as const)
  const low = paces.findLast(([length]) => length < meters)
  const high = paces.find(([length]) => length >= meters)
  // Nothing is known of shorter and longer distances.
  if (low === undefined || high === undefined) return (low ?? high)?.[1] ?? 0
  const share = Math.log(meters / low[0]) / Math.log(high[0] / low[0])
  return low[1] + share * (high[1] - low[1])
}

/** The fastest believable speed on foot over a distance in metres, in metres a second: a tenth faster than the world
 * record. */
function fastestOver(meters: number): number {
  return meters < 100 ? speedsOnFoot.fast : (1000 / recordPace(meters)) * fasterThanRecord
}
