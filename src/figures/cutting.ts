import { metersInPaceUnit } from '../units/pace.ts'
import { between, positive, wholeFrom } from './given.ts'

const noise = 1e-9

/** The fraction by which a day is cut for a race distance: the square root of the race's distance over the
 * distance of the day's goal, at most 1 and at least 0.4. Metres.
 * @throws RangeError for a distance that is not above 0
 * Source: Invented. */
export function fractionForRace(raceMeters: number, goalMeters: number): number {
  const ratio = positive(raceMeters, 'the race') / positive(goalMeters, 'the goal')
  return Math.min(1, Math.max(0.4, Math.sqrt(ratio)))
}

/** @throws RangeError that says what arrived */
function fractionOf(fraction: number): number {
  return between(positive(fraction, 'the fraction'), 0, 1, 'the fraction')
}

/** A distance cut by a fraction, in its own unit: rounded to 0.5 km or mi from 2 up and to 0.1 km or 0.05 mi
 * below, never to nothing, never longer than it was.
 * @param value of the distance in `unit`
 * @throws RangeError for a distance that is not above 0 or a fraction outside 0 to 1
 * Source: Invented. */
export function cutDistance(value: number, fraction: number, unit: 'km' | 'mi'): number {
  const share = fractionOf(fraction)
  const cut = positive(value, 'the distance') * share
  const inOne = cut >= 2 - noise ? 2 : unit === 'km' ? 10 : 20
  const steps = Math.max(1, Math.round(cut * inOne + noise))
  return Math.min(value, steps / inOne)
}

/** The same in metres, rounded in `unit`.
 * @throws RangeError for a distance that is not above 0 or a fraction outside 0 to 1
 * Source: Invented. */
export function cutMeters(meters: number, fraction: number, unit: 'km' | 'mi'): number {
  const size = metersInPaceUnit[unit]
  return Math.min(meters, cutDistance(meters / size, fraction, unit) * size)
}

/** A time cut by a fraction, in seconds: rounded to a minute from 10 minutes up and to 15 seconds below,
 * never to nothing, never longer than it was.
 * @throws RangeError for a time that is not above 0 or a fraction outside 0 to 1
 * Source: Invented. */
export function cutSeconds(seconds: number, fraction: number): number {
  const share = fractionOf(fraction)
  const cut = positive(seconds, 'the time') * share
  const step = cut >= 600 - noise ? 60 : 15
  return Math.min(seconds, Math.max(1, Math.round(cut / step + noise)) * step)
}

/** A number of sets or repeats cut by a fraction: rounded up, never below 1.
 * @throws RangeError for a count that is not whole or a fraction outside 0 to 1
 * Source: Invented. */
export function cutCount(count: number, fraction: number): number {
  const share = fractionOf(fraction)
  return Math.max(1, Math.ceil(wholeFrom(count, 1, 'the count') * share - noise))
}
