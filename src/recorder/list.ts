/* A list with one picked line, in a window that may be shorter. */

/** The index `by` lines further, within a list of `count` lines. */
export function movedBy(index: number, by: number, count: number): number {
  return Math.max(0, Math.min(count - 1, index + by))
}

/** The first line shown of `count` in a window of `room` lines: the picked one is in the middle, except near the ends. */
export function windowStart(picked: number, count: number, room: number): number {
  return Math.max(0, Math.min(count - room, picked - Math.floor(room / 2)))
}
