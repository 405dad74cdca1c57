import { printNumber } from '../units/decimal.ts'
import { printDuration } from '../units/duration.ts'

/** Metres a second between which anyone moves. On foot: no one has run faster than 12.5, and half a metre is
 * slower than a walk. On wheels, water and machines: invented, with room for a bicycle and a swimmer. */
const limits = { run: { slow: 0.5, fast: 12.5 }, cross: { slow: 0.2, fast: 25 } }
type Limits = keyof typeof limits

export function limitsOf(kind: string): Limits {
  return kind === 'cross' ? 'cross' : 'run'
}

export function isPlausibleSpeed(metersPerSecond: number, kind: Limits): boolean {
  return metersPerSecond >= limits[kind].slow && metersPerSecond <= limits[kind].fast
}

/** What to say of a time that nobody needs for a distance, with the time that was most likely meant: hours and
 * minutes taken for minutes and seconds, or the other way round; null when the time is plausible.
 * @param what the distance, in words */
export function implausibleTime(
  what: string,
  meters: number,
  seconds: number,
  kind: Limits,
): { message: string; meant: number | null } | null {
  if (isPlausibleSpeed(meters / seconds, kind)) return null
  const tooFast = meters / seconds > limits[kind].fast
  const other = tooFast ? seconds * 60 : seconds / 60
  const meant = isPlausibleSpeed(meters / other, kind) ? other : null
  const said = printDuration(seconds)
  const inSeconds = said.endsWith('s') || seconds > 3600 ? '' : ` (${printNumber(seconds)} s)`
  const verdict = tooFast ? 'faster than anyone is' : 'slower than a walk'
  const message = `${what} in ${said}${inSeconds} is ${verdict}`
  return { message: meant === null ? message : `${message}: did you mean ${printDuration(meant)}?`, meant }
}

/** What to say of a speed that nobody has; null when it is plausible.
 * @param what the pace or speed, in words */
export function implausibleSpeed(what: string, metersPerSecond: number, kind: Limits): string | null {
  if (isPlausibleSpeed(metersPerSecond, kind)) return null
  const tooFast = metersPerSecond > limits[kind].fast
  const limit = tooFast
    ? `faster than anyone is (${limits[kind].fast} m/s)`
    : `slower than a walk (${limits[kind].slow} m/s)`
  return `${what} is ${limit}`
}
