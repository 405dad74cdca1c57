import leven from 'leven'
import { exerciseKey } from '../prescription/exerciseKey.ts'
import type { DoneSession } from '../progress/doneSession.ts'
import { liftNames } from '../progress/overview.ts'
import { printableOf } from './io.ts'
import { CommandError } from './port.ts'

/** Whether a lift is known in any spelling.
 * @throws CommandError `no_such_lift` with the names that come near, else with those that were lifted oftenest */
export function refuseUnknownLift(name: string, sessions: readonly DoneSession[]): void {
  const key = exerciseKey(name)
  if (sessions.some((session) => session.hasLifted(key))) return
  const names = liftNames(sessions).map((each) => each.name)
  const what = `No session has "${printableOf(name)}".`
  throw new CommandError('no_such_lift', `${what} ${adviceOf(key, names)}`)
}

function adviceOf(key: string, names: readonly string[]): string {
  const near = names
    .map((name) => ({ name, distance: distanceOf(key, exerciseKey(name)) }))
    .filter(({ distance }) => distance <= Math.max(2, key.length / 3))
    .sort((a, b) => a.distance - b.distance)
  const [closest] = near
  if (closest !== undefined) return `Did you mean "${printableOf(closest.name)}"?`
  if (names.length === 0) return 'Nothing was lifted yet.'
  const some = names.slice(0, 5).map((name) => `"${printableOf(name)}"`)
  return `Lifted were ${some.join(', ')}${names.length > 5 ? ' and others' : ''}.`
}

/** A part of a name comes near: `squat` is meant for `front squat`. */
function distanceOf(given: string, known: string): number {
  return given.length >= 3 && (known.includes(given) || given.includes(known)) ? 1 : leven(given, known)
}
