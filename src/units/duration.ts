import { printNumber, toDecimals } from './decimal.ts'
import { metersIn } from './length.ts'
import { numberAndWord, positive, secondsIn } from './words.ts'

/** Writes seconds like a clock: 7 is `0:07`, 367 is `6:07`, 3731 is `1:02:11`.
 * Rounds before splitting into minutes and seconds, so that no clock shows `:60`.
 * @param seconds 0 or more; a negative number gets a minus sign
 * @param decimals digits after the point: 0, 1 or 2 */
export function formatClock(seconds: number, decimals: 0 | 1 | 2 = 0): string {
  const scale = 10 ** decimals
  const units = Math.round(Math.abs(seconds) * scale)
  const whole = Math.floor(units / scale)
  const fraction = decimals === 0 ? '' : `.${String(units % scale).padStart(decimals, '0')}`
  const sign = seconds < 0 && units > 0 ? '-' : ''
  return `${sign}${clockOf(whole)}${fraction}`
}

/** Writes seconds with as many decimals as they have, up to hundredths: 109.2 is `1:49.2`, 227 is `3:47`.
 * @param precision the smallest digit to show even when it is 0: 1, 0.1 or 0.01; null: 1 */
export function formatClockShort(seconds: number, precision: number | null = null): string {
  const hundredths = Math.round(seconds * 100)
  const needed = hundredths % 100 === 0 ? 0 : hundredths % 10 === 0 ? 1 : 2
  const wanted = precision === null || precision >= 1 ? 0 : precision >= 0.1 ? 1 : 2
  return formatClock(seconds, Math.max(needed, wanted) as 0 | 1 | 2)
}

/** Writes a span of seconds for the screen, a single clock if both ends round to the same: `4:05-4:10`.
 * @param decimals null: as many as each end has, as in `formatClockShort` */
export function formatClockSpan({ from, to }: { from: number; to: number }, decimals: 0 | 1 | null): string {
  const clock = (seconds: number) =>
    decimals === null ? formatClockShort(seconds) : formatClock(seconds, decimals)
  return [...new Set([from, to].map(clock))].join('-')
}

function clockOf(whole: number): string {
  const two = (value: number) => String(value).padStart(2, '0')
  const minutes = Math.floor(whole / 60)
  if (minutes < 60) return `${minutes}:${two(whole % 60)}`
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(whole % 60)}`
}

/** Writes seconds as a bare clock, exactly (with all digits of the fraction): `4:05`, `0:55.5`.
 * @param seconds more than 0, at most a thousand million (above that a clock would need an exponent) */
export function printClock(seconds: number): string {
  const [whole = '0', fraction = ''] = printNumber(seconds).split('.')
  return clockOf(Number(whole)) + (fraction === '' ? '' : `.${fraction}`)
}
const largestClock = 1e9

/** Writes a span of seconds as clocks: `4:05-4:10`, a single one if both ends are equal. */
export function printClockSpan({ from, to }: { from: number; to: number }): string {
  return from === to ? printClock(from) : `${printClock(from)}-${printClock(to)}`
}

/** Writes a duration in the notation: `45 s` below a minute, else `2:30`, `1:02:11`. Reading it gives
 * exactly the same number.
 * @param seconds more than 0 */
export function printDuration(seconds: number): string {
  return seconds < 60 || seconds > largestClock ? `${printNumber(seconds)} s` : printClock(seconds)
}

/** Writes seconds as hours and minutes, rounded to a minute: `6:40 h`.
 * @param seconds less than 60 h */
export function printHours(seconds: number): string {
  return `${formatClock(seconds / 60)} h`
}

/** Writes a time as people say it: `5 min` for whole minutes, else `90 s`. Reading it gives exactly the same number.
 * @param seconds 0 or more */
export function printTime(seconds: number): string {
  const isWhole = seconds > 0 && seconds % 60 === 0
  return isWhole ? `${printNumber(seconds / 60)} min` : `${printNumber(seconds)} s`
}

/** Writes a span of seconds in the notation: `78-82 s`, as times of a lap are called, from 100 s on `1:40-1:45`; a
 * single value if both ends are equal. */
export function printDurationSpan(span: { from: number; to: number }): string {
  if (span.from === span.to) return printDuration(span.from)
  if (span.to < 100 || span.to > largestClock) return `${printNumber(span.from)}-${printNumber(span.to)} s`
  return printClockSpan(span)
}

/** Reads seconds from `m:ss` or `h:mm:ss` (either with a fraction), or from a number with a unit of time: `45 s`,
 * `2 min`. Null for other text, and for a time that is 0 or not finite. */
export function readDuration(text: string): number | null {
  const clock = /^(?:(\d{1,6}):)?(\d{1,9}):(\d\d)(?:\.(\d{1,30}))?$/.exec(text.trim())
  if (clock !== null) {
    const [, hours, minutes = '', seconds = '', fraction = '0'] = clock
    if (Number(seconds) > 59 || (hours !== undefined && (minutes.length !== 2 || Number(minutes) > 59)))
      return null
    return positive(secondsOfClock(Number(hours ?? 0), Number(minutes), Number(seconds), fraction))
  }
  const read = numberAndWord(text)
  const unit = secondsIn(read?.word ?? '')
  return read && unit && positive(read.value * unit)
}

/** Appends the fraction as digits, so that `88.4 s` and `1:28.4` give the same number. */
function secondsOfClock(hours: number, minutes: number, seconds: number, fraction: string): number {
  return Number(`${printNumber(hours * 3600 + minutes * 60 + seconds)}.${fraction}`)
}

/* Pace: seconds per kilometre, mile or 500 m. */

export const metersInPaceUnit = { km: metersIn.km, mi: metersIn.mi, '500 m': 500 } as const
export type PaceUnit = keyof typeof metersInPaceUnit

/** Converts a pace in seconds per `unit` to seconds per kilometre. */
export function secondsPerKmOf(seconds: number, unit: PaceUnit): number {
  return (seconds / metersInPaceUnit[unit]) * 1000
}

/** Converts a pace, or a difference of paces, in seconds per kilometre to seconds per `unit`. */
export function paceIn(secondsPerKm: number, unit: PaceUnit): number {
  return (secondsPerKm / 1000) * metersInPaceUnit[unit]
}

export function metersPerSecondOf(value: number, unit: 'km/h' | 'mph'): number {
  return (value * (unit === 'km/h' ? 1000 : metersInPaceUnit.mi)) / 3600
}

/** Writes a pace for the screen, from seconds per kilometre: `3:57/km`, `6:21/mi`, `3:57.4/km`. */
export function formatPace(secondsPerKm: number, unit: PaceUnit, decimals: 0 | 1 | 2 = 0): string {
  return `${formatClock(paceIn(secondsPerKm, unit), decimals)}/${unit}`
}

/** Writes a pace in the notation: `4:05-4:10/km`. Reading it gives exactly the same pace. */
export function printPace(pace: { from: number; to: number; per: PaceUnit }): string {
  return `${printClockSpan(pace)}/${pace.per}`
}

/** How far a time is from its target: `18 s ahead`, `0.4 s behind`, from 100 s on `3:25 behind`.
 * @param seconds below 0: ahead */
export function gapText(seconds: number): string {
  const off = Math.abs(seconds)
  const size = off < 100 ? `${toDecimals(off, Number.isInteger(seconds) ? 0 : 1)} s` : formatClock(off)
  return `${size} ${seconds < 0 ? 'ahead' : 'behind'}`
}

/** `18 s ahead of the goal`, `3:25 behind the goal`, `exactly the goal`. */
export function offGoalText(seconds: number): string {
  return `${seconds === 0 ? 'exactly' : gapText(seconds).replace('ahead', 'ahead of')} the goal`
}
