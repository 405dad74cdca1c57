import { formatClock, printClockSpan } from './duration.ts'
import { metersIn } from './length.ts'

/** Metres of a pace's unit. */
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

/** Metres a second of a speed in km/h or mph. */
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
