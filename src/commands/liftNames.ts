import leven from 'leven'
import { exerciseKey } from '../prescription/exercise.ts'
import { liftNames } from '../progress/overview.ts'
import type { DoneSession } from '../progress/weeks.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type Io } from './command.ts'

/** Whether a lift is known in any spelling.
 * @throws CommandError `no_such_lift` with the nearest names, else the most frequent ones */
export function refuseUnknownLift(name: string, sessions: readonly DoneSession[]): void {
  if (!isKnown(name, sessions)) throw noSuchLift(name, sessions)
}

function noSuchLift(name: string, sessions: readonly DoneSession[]): CommandError {
  const names = liftNames(sessions).map((each) => each.name)
  const containing = namesContaining(name, names).map((each) => `"${each}"`)
  const advice =
    containing.length > 1 ? `Write one of ${containing.join(', ')}.` : adviceOf(exerciseKey(name), names)
  return new CommandError('no_such_lift', `No session has "${name}". ${advice}`)
}

/** The lift of a name, or the only one whose name contains it, which is told: `squat` finds `front squat`.
 * @throws CommandError as `refuseUnknownLift` */
export function liftMeant(name: string, sessions: readonly DoneSession[], io: Pick<Io, 'err'>): string {
  if (isKnown(name, sessions)) return name
  const names = liftNames(sessions).map((each) => each.name)
  const [only, ...others] = namesContaining(name, names)
  if (only === undefined || others.length > 0) throw noSuchLift(name, sessions)
  io.err(`pausebook: "${sanitize(name)}" is read as "${sanitize(only)}", the only lift with it\n`)
  return only
}

function isKnown(name: string, sessions: readonly DoneSession[]): boolean {
  const key = exerciseKey(name)
  return sessions.some((session) => session.lifted(key) !== null)
}

/** The names that contain a name as whole words. */
function namesContaining(name: string, names: readonly string[]): string[] {
  const wordsOf = (text: string) =>
    ` ${text
      .trim()
      .split(/[\s-]+/)
      .map(exerciseKey)
      .join(' ')} `
  const words = wordsOf(name)
  return words.trim() === '' ? [] : names.filter((each) => wordsOf(each).includes(words))
}

function adviceOf(key: string, names: readonly string[]): string {
  const near = names
    .map((name) => ({ name, distance: distanceOf(key, exerciseKey(name)) }))
    .filter(({ distance }) => distance <= Math.max(2, key.length / 3))
    .sort((a, b) => a.distance - b.distance)
  const [closest] = near
  if (closest !== undefined) return `Did you mean "${closest.name}"?`
  if (names.length === 0) return 'Nothing was lifted yet.'
  const some = names.slice(0, 5).map((name) => `"${name}"`)
  return `Most frequent: ${some.join(', ')}${names.length > 5 ? ' and others' : ''}.`
}

/** How far two names are apart, in edits; 1 if one contains the other: `squat` suggests `front squat`. */
function distanceOf(given: string, known: string): number {
  return given.length >= 3 && (known.includes(given) || given.includes(known)) ? 1 : leven(given, known)
}
