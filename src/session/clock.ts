import { roundTo } from '../units/decimal.ts'

/** A point in time as the machine saw it. Within one boot, elapsed time is the difference of uptimes, which count on
 * during sleep and do not jump when the clock is set. Across boots it is the difference of wall times. */
export interface Moment {
  /** Milliseconds since 1970, by the wall clock. */
  wall: number
  /** Minutes by which local time is ahead of UTC. */
  offset: number
  /** Seconds since the machine started; null when unknown. */
  up: number | null
  /** The boot of the machine to which `up` belongs. */
  boot: string | null
}

/** Seconds from one moment to another; negative when the second came first. */
export function secondsBetween(from: Moment, to: Moment): number {
  if (from.boot !== null && from.boot === to.boot && from.up !== null && to.up !== null)
    return to.up - from.up
  return (to.wall - from.wall) / 1000
}

/** Seconds from one moment to another, at least 0. */
export function elapsedSeconds(from: Moment, to: Moment): number {
  return Math.max(0, secondsBetween(from, to))
}

/** The moment some seconds after another (before it when negative). */
export function momentAfter(moment: Moment, seconds: number): Moment {
  return {
    ...moment,
    wall: moment.wall + seconds * 1000,
    up: moment.up === null ? null : Math.max(0, moment.up + seconds),
  }
}

/** The moment of an event; null for an event from paper whose time is unknown.
 * @param boot the boot of the machine to which the event's uptime belongs */
export function momentOf(
  event: { at: string | null; up: number | null },
  boot: string | null,
): Moment | null {
  if (event.at === null) return null
  return { wall: Date.parse(event.at), offset: offsetOf(event.at), up: event.up, boot }
}

/** A moment in the form an event stores: local time with its offset, to the millisecond, and the uptime. */
export function whenOf(moment: Moment): { at: string; up: number | null } {
  return { at: timeTextOf(moment), up: moment.up === null ? null : roundTo(moment.up, 3) }
}

/** `2026-11-26T06:40:00.000+01:00` */
export function timeTextOf(moment: { wall: number; offset: number }): string {
  const local = new Date(Math.round(moment.wall) + moment.offset * 60_000).toISOString().slice(0, -1)
  const minutes = Math.abs(moment.offset)
  const sign = moment.offset < 0 ? '-' : '+'
  return `${local}${sign}${twoDigits(Math.floor(minutes / 60))}:${twoDigits(minutes % 60)}`
}

function offsetOf(time: string): number {
  const offset = /([+-])(\d\d):(\d\d)$/.exec(time)
  if (!offset) return 0
  const minutes = Number(offset[2]) * 60 + Number(offset[3])
  return offset[1] === '-' ? -minutes : minutes
}

function twoDigits(value: number): string {
  return String(value).padStart(2, '0')
}
