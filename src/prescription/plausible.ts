import { greatest } from 'd3-array'
import { speedsOnFoot } from '../figures/load.ts'
import { printNumber, roundTo } from '../units/decimal.ts'
import {
  formatClockSpan,
  metersPerSecondOf,
  paceIn,
  printDuration,
  printPace,
  secondsPerKmOf,
} from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { Mass } from '../units/model.ts'
import type { Span } from './model.ts'
import { printSpan } from './print.ts'
import {
  type Building,
  type IntervalNode,
  isSound,
  type LengthNode,
  type Node,
  type Pace,
  type PaceNode,
  type SpeedNode,
  type WeightNode,
} from './syntax.ts'

/* Warns of values that can be read but are implausible, and says what was probably meant. The limits are this
 * program's own, wide enough for the strongest athletes; only the paces refer to what has been run. */

/** Seconds a kilometre, for more than 400 m. `fast`: only the world's best over 800 m are a little faster.
 * `impossible`: nobody has been faster over 500 m (both from memory). `walk`: anything slower is walked (this
 * program's own). */
const paces = { fast: 130, impossible: 115, walk: 720 }
const longestMeters = 200_000
const mostPercent = 110
const mostEaten = { carbs: 500, protein: 200, kcal: 5000 }

/** Paces this close count as the same, and one this far from all others is an outlier. This program's own rule. */
const samePace = 0.05
const otherPace = 0.25
/** Repeats are run at most this much slower than goal pace; this program's own rule. */
const slowRepeat = 1.1

/** Asks about a pace without a unit that is far from every other pace of the day and would match one in the other
 * unit; null for any other pace. */
export function paceInOtherUnit(pace: Pace, others: readonly Pace[], unit: 'km' | 'mi'): string | null {
  if (!pace.isBare || others.length === 0) return null
  const factor = unit === 'km' ? 1 / paceIn(1, 'mi') : paceIn(1, 'mi')
  const isFar = others.every((each) => Math.abs(pace.secondsPerKm / each.secondsPerKm - 1) > otherPace)
  const like = others.find(
    (each) => Math.abs((pace.secondsPerKm * factor) / each.secondsPerKm - 1) <= samePace,
  )
  if (!isFar || like === undefined) return null
  const other = unit === 'km' ? 'mi' : 'km'
  return `${pace.text} is far from ${like.text}; did you mean ${pace.text.replace(/\/.*$/, '')}/${other}?`
}

/** Whether a pace without a unit is slower than a walk, and so was meant for less than a kilometre or a mile. With its
 * unit written, even a slow pace is meant as it is. */
function isSlowerThanWalk(node: PaceNode): boolean {
  return node.bare === true && secondsPerKmOf(node.from, node.per) > paces.walk
}

/** Asks about a pace that is probably the time of its interval, because it is slower than a walk (`5 km @ 20:00`) or
 * nobody runs it over that distance (`8 x 400 m @ 1:20`); null for any other. */
export function paceAsTime(node: PaceNode, interval: IntervalNode, building: Building): string | null {
  const { from, to, per } = node
  const [amount, ...others] = interval.amounts
  if (building.part.kind !== 'run' || node.wrong !== undefined || others.length > 0) return null
  if (amount?.kind !== 'distance' || amount.length.wrong !== undefined) return null
  const meters = metersOf(amount.length, building.lapMeters)
  const asked = `did you mean in ${formatClockSpan(node, null)}?`
  const isRun = (seconds: number) =>
    meters / seconds <= fastestOver(meters) && (seconds * 1000) / meters <= paces.walk
  if (isSlowerThanWalk(node)) {
    const isTime = isRun(from) && isRun(to)
    return isTime ? `${printPace(node)} is slower than a walk; ${asked}` : null
  }
  const whole = (from * 1000) / meters
  const isPossible = 1000 / secondsPerKmOf(from, per) <= fastestOver(meters)
  if (isPossible || whole < recordPace(meters) || whole > 1000) return null
  return `${printPace(node)} is ${timesOf(perKmOf(node), meters)} for ${printLength(amount.length)}; ${asked}`
}

/** Seconds a kilometre. */
function goalPaceOf({ goal, lapMeters }: Building): number | null {
  return goal === null ? null : (goal.seconds * 1000) / metersOf(goal.length, lapMeters)
}

/** Warns of a pace over more than 400 m that nobody, or almost nobody, holds, and of one slower than a walk. Only on
 * foot, since wheels are that fast. */
export function warnOfPace(node: PaceNode, interval: IntervalNode, building: Building): void {
  const { from, to } = node
  if (building.part.kind !== 'run' || node.wrong !== undefined) return
  const text = printPace(node)
  if (isSlowerThanWalk(node))
    building.warn(node.at, `${text} is slower than a walk; a time for the whole interval is written with in`)
  const { length, meters } = longestOf(interval, building)
  if (length === null) return
  const wholes = [from, to].map((seconds) => (seconds * 1000) / meters)
  const asked = `did you mean in ${formatClockSpan(node, null)}?`
  const fast = tooFast(text, perKmOf(node), length, meters)
  if (fast !== null) {
    const isTime = wholes.every((each) => each >= paces.fast && each <= 1000)
    building.warn(node.at, `${fast}; ${isTime ? asked : 'check the pace'}`)
  } else if (node.bare === true && isTimeByGoal(perKmOf(node), wholes, building)) {
    const time = timesOf(perKmOf(node), meters)
    building.warn(
      node.at,
      `${text} is ${printLength(length)} in ${time}, far faster than goal pace; ${asked}`,
    )
  }
}

/** Whether a pace is far faster than goal pace, but would not be if read as the time of the interval. */
function isTimeByGoal(perKm: Span, wholes: readonly number[], building: Building): boolean {
  const goal = goalPaceOf(building)
  if (goal === null || perKm.from >= goal * (1 - otherPace)) return false
  return wholes.every((each) => each >= goal * (1 - otherPace) && each <= goal * slowRepeat)
}

/** Warns of a speed like `warnOfPace`. */
export function warnOfSpeed(node: SpeedNode, interval: IntervalNode, building: Building): void {
  const { length, meters } = longestOf(interval, building)
  if (building.part.kind !== 'run' || node.wrong !== undefined || length === null) return
  const perKm = (speed: number) => 1000 / metersPerSecondOf(speed, node.unit)
  const text = `${printSpan(node)} ${node.unit}`
  const fast = tooFast(text, { from: perKm(node.to), to: perKm(node.from) }, length, meters)
  if (fast !== null) building.warn(node.at, `${fast}; check the speed`)
}

/** The longest distance of an interval; a null length for one without any. */
function longestOf(
  { amounts }: IntervalNode,
  { lapMeters }: Building,
): { length: LengthNode | null; meters: number } {
  const lengths = amounts.flatMap((each) => (each.kind === 'distance' ? [each.length] : []))
  const length = greatest(lengths, (each) => metersOf(each, lapMeters))
  if (length === undefined || length.wrong !== undefined) return { length: null, meters: 0 }
  return { length, meters: metersOf(length, lapMeters) }
}

/** The problem with a pace that is too fast over a distance; null for any other, and up to 400 m. */
function tooFast(text: string, perKm: Span, length: LengthNode, meters: number): string | null {
  const isImpossible = perKm.from < paces.impossible || 1000 / perKm.from > fastestOver(meters)
  if (meters <= 400 || (perKm.from >= paces.fast && !isImpossible)) return null
  const who = isImpossible ? 'anyone' : 'almost anyone'
  return `${text} is ${printLength(length)} in ${timesOf(perKm, meters)}, faster than ${who} runs it`
}

/** In seconds a kilometre. */
function perKmOf({ from, to, per }: PaceNode): Span {
  return { from: secondsPerKmOf(from, per), to: secondsPerKmOf(to, per) }
}

/** The times that a pace gives over a distance: `1:36-1:40`. */
function timesOf({ from, to }: Span, meters: number): string {
  const timeAt = (seconds: number) => roundTo((seconds * meters) / 1000, 1)
  return formatClockSpan({ from: timeAt(from), to: timeAt(to) }, null)
}

/** Warns of more than 200 km in one interval. */
export function warnOfDistance(node: LengthNode, building: Building): void {
  if (node.wrong !== undefined || metersOf(node, building.lapMeters) <= longestMeters) return
  const advice = node.unit === 'km' ? `did you mean ${printNumber(node.value)} m?` : 'check the distance'
  building.warn(node.at, `${printLength(node)} in one interval is longer than 200 km; ${advice}`)
}

/** Warns of more than 500 kg, or more than 110 % of a maximum. */
export function warnOfLoad(weight: WeightNode, building: Building): void {
  if (weight.kind !== 'percent') {
    const { at, wrong, unit } = weight
    const value = weight.kind === 'mass' ? weight.to : weight.added
    warnOfMass('load', { at, value, unit, ...(wrong && { wrong }) }, building)
  } else if (weight.wrong === undefined && weight.to > mostPercent) {
    const text = `${printSpan(weight)}% of a maximum is more than anyone lifts`
    building.warn(weight.at, `${text}; write ${mostPercent}% or less`)
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

/** Warns of an implausible load, maximum, bar or body mass, and suggests the number with its decimal point moved. */
export function warnOfMass(what: keyof typeof masses, node: Node & Mass, building: Building): void {
  const { least, most, says } = masses[what]
  const isLikely = (value: number) => {
    const kg = kilogramsOf({ value, unit: node.unit })
    return kg >= least && kg <= most
  }
  if (node.wrong !== undefined || isLikely(node.value)) return
  const meant = [node.value / 10, node.value * 10].find(isLikely)
  const advice =
    meant === undefined ? 'check the number' : `did you mean ${printMass({ value: meant, unit: node.unit })}?`
  building.warn(node.at, `${says(printMass(node))}; ${advice}`)
}

/** Warns of more carbohydrate, protein or energy in one item than anyone eats. */
export function warnOfFood(
  bit: string,
  node: Node & { value: number; text: string },
  building: Building,
): void {
  const most = mostEaten[bit as keyof typeof mostEaten]
  if (most === undefined || node.wrong !== undefined || node.value <= most) return
  const amount = (value: number) =>
    bit === 'kcal' ? `${printNumber(value)} kcal` : `${bit} ${printNumber(value)} g`
  const limit = bit === 'kcal' ? `${most} kcal` : `${most} g`
  const less = node.value / 10
  const advice = less <= most ? `did you mean ${amount(less)}?` : 'check the number'
  building.warn(node.at, `${amount(node.value)} in one item is more than anyone eats (${limit}); ${advice}`)
}

/** Plausible speeds on wheels, water and machines, in metres a second: this program's own, with room for a bicycle
 * and a swimmer. */
const otherSpeeds = { slow: 0.2, fast: 25 }

/** The slowest and the fastest plausible speed in a part, in metres a second.
 * @param meters the distance, if known: nobody sprints a mile */
export function speedLimits(kind: string, meters: number | null = null): { slow: number; fast: number } {
  if (kind === 'cross') return otherSpeeds
  return meters === null ? speedsOnFoot : { ...speedsOnFoot, fast: fastestOver(meters) }
}

function isPlausibleSpeed(metersPerSecond: number, kind: string, meters: number | null = null): boolean {
  const { slow, fast } = speedLimits(kind, meters)
  return metersPerSecond >= slow && metersPerSecond <= fast
}

/** The warning for an implausible time over a distance, with the time that was probably meant: hours and
 * minutes read as minutes and seconds, or the other way round; null if the time is plausible.
 * @param what the distance, in words
 * @param kind of the part */
export function implausibleTime(
  what: string,
  meters: number,
  seconds: number,
  kind: string,
): { message: string; meant: number | null } | null {
  if (isPlausibleSpeed(meters / seconds, kind, meters)) return null
  const tooFast = meters / seconds > speedLimits(kind, meters).fast
  const other = tooFast ? seconds * 60 : seconds / 60
  const meant = isPlausibleSpeed(meters / other, kind, meters) ? other : null
  const text = printDuration(seconds)
  const inSeconds = text.endsWith('s') || seconds > 3600 ? '' : ` (${printNumber(seconds)} s)`
  const verdict = tooFast ? 'faster than any human' : 'slower than a walk'
  const message = `${what} in ${text}${inSeconds} is ${verdict}`
  return { message: meant === null ? message : `${message}: did you mean ${printDuration(meant)}?`, meant }
}

/** Reports a pace or a speed that nobody can hold.
 * @param what it is, in words
 * @param metersPerSecond of both its ends
 * @returns whether both are plausible */
export function checkSpeeds(
  node: Node,
  what: string,
  metersPerSecond: readonly number[],
  building: Building,
): boolean {
  const { kind } = building.part
  const { slow, fast } = speedLimits(kind)
  const odd = metersPerSecond.find((each) => !isPlausibleSpeed(each, kind))
  if (odd === undefined) return true
  const limit = odd > fast ? `faster than any human (${fast} m/s)` : `slower than a walk (${slow} m/s)`
  if (isSound(node)) building.report(node.at, `${what} is ${limit}`)
  return false
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
  const after = paces.findIndex(([length]) => length >= meters)
  const [low, high] = [paces[Math.max(0, after - 1)] ?? paces[0], paces[after] ?? paces.at(-1)]
  if (!low || !high || after <= 0 || low === high) return (after === 0 ? paces[0] : paces.at(-1))?.[1] ?? 0
  const share = Math.log(meters / low[0]) / Math.log(high[0] / low[0])
  return low[1] + share * (high[1] - low[1])
}

/** The fastest believable speed on foot over a distance in metres, in metres a second: a tenth faster than the world
 * record. */
function fastestOver(meters: number): number {
  return meters < 100 ? speedsOnFoot.fast : (1000 / recordPace(meters)) * fasterThanRecord
}
