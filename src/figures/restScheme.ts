import { notNegative, wholeFrom } from './given.ts'

/** All rest inside a set scheme, in seconds: the pauses inside each set and the rests between the sets;
 * none after the last repetition.
 * @throws RangeError for fewer than one set or group, or a time below 0
 * Source: Tufano 2017. */
export function restSeconds(scheme: {
  sets: number
  groupsPerSet: number
  pauseSeconds: number
  restSeconds: number
}): number {
  const sets = wholeFrom(scheme.sets, 1, 'the sets')
  const groups = wholeFrom(scheme.groupsPerSet, 1, 'the groups of a set')
  const pause = notNegative(scheme.pauseSeconds, 'the pause')
  return sets * (groups - 1) * pause + (sets - 1) * notNegative(scheme.restSeconds, 'the rest')
}
