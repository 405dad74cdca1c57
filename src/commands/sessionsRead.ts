import leven from 'leven'
import type { IndexEntry, Logbook } from '../logbook/model.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { liftNames } from '../progress/overview.ts'
import type { DoneSession } from '../progress/weeks.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { CommandError, type CommandInput, type Io } from './command.ts'

/** Reports on stderr what is damaged or was left out.
 * @returns the exit status: 3 for any damage, else 0 */
export function reportDamages(
  io: Pick<Io, 'err'>,
  { damages }: Pick<Logbook, 'damages'>,
  concerns: (file: string) => boolean = () => true,
): 0 | 3 {
  const told = damages.filter(({ file }) => concerns(file))
  for (const { file, wrong, done } of told) io.err(`pausebook: ${file}: ${wrong} ${done}\n`)
  return told.length > 0 ? 3 : 0
}

/** 3 if a session that would have counted is damaged or was left out, else 0. */
export function statusOf({ damages }: Pick<Logbook, 'damages'>): 0 | 3 {
  return damages.length > 0 ? 3 : 0
}

/** Every session of the logbook, newest first. Damage is reported on stderr and does not stop the command.
 * @throws CommandError `no_sessions` for an empty logbook */
export function sessionsDone({ io }: Pick<CommandInput, 'io'>, logbook: Logbook): IndexEntry[] {
  const entries = indexOf(io, logbook)
  reportDamages(io, logbook)
  if (entries.length > 0) return entries
  const message =
    logbook.damages.length > 0
      ? 'No session in this logbook can be read. "pausebook verify" says what can be done.'
      : 'There is no session in this logbook yet. Record one with "pausebook".'
  throw new CommandError('no_sessions', message, { exit: logbook.damages.length > 0 ? 3 : 1 })
}

/** Progress is shown only after this many milliseconds. */
const patience = 500
const between = 100

type Told = Pick<Io, 'terminal' | 'env' | 'now' | 'steer'>

/** A progress line on the terminal for long work; without a terminal nothing is shown. */
export interface ProgressLine {
  show(done: number, of: number): void
  clear(): void
}

/** @param what the name of the work: `reading session` */
export function progressLine(io: Told, what: string): ProgressLine {
  let shownAt = io.now().getTime() + patience
  let isShown = false
  const mayShow = io.terminal.err && io.env.TERM !== 'dumb'
  return {
    show(done, of) {
      const now = io.now().getTime()
      if (!mayShow || now < shownAt) return
      io.steer(`\r${what} ${done + 1} of ${of}`)
      shownAt = now + between
      isShown = true
    },
    clear() {
      if (isShown) io.steer('\r\u001b[K')
      isShown = false
    },
  }
}

/** Every session with its figures, newest first, with a progress line if many must be read again. */
export function indexOf(io: Told, logbook: Logbook): IndexEntry[] {
  const progress = progressLine(io, 'reading session')
  try {
    return logbook.index(progress.show)
  } finally {
    progress.clear()
  }
}

/** For a screen reader: a single line with the number of sessions to read. */
export function spokenProgress(io: Pick<Io, 'now' | 'out'>): ProgressLine {
  const saidAt = io.now().getTime() + patience
  let isSaid = false
  return {
    show(_done, of) {
      if (isSaid || io.now().getTime() < saidAt) return
      isSaid = true
      io.out(`reading ${of} sessions, it takes a moment\n`)
    },
    clear() {
      isSaid = true
    },
  }
}

/** Whether a lift is known in any spelling.
 * @throws CommandError `no_such_lift` with the nearest names, else the most frequent ones */
export function refuseUnknownLift(name: string, sessions: readonly DoneSession[]): void {
  const key = exerciseKey(name)
  if (sessions.some((session) => session.lifted(key) !== null)) return
  const names = liftNames(sessions).map((each) => each.name)
  const what = `No session has "${name}".`
  const containing = namesContaining(name, names).map((each) => `"${each}"`)
  const advice = containing.length > 1 ? `Write one of ${containing.join(', ')}.` : adviceOf(key, names)
  throw new CommandError('no_such_lift', `${what} ${advice}`)
}

/** The lift of a name, or the only one whose name contains it: `squat` finds `front squat`. */
export function liftMeant(name: string, sessions: readonly DoneSession[]): string {
  const key = exerciseKey(name)
  if (sessions.some((session) => session.lifted(key) !== null)) return name
  const names = liftNames(sessions).map((each) => each.name)
  const [only, ...others] = namesContaining(name, names)
  return only !== undefined && others.length === 0 ? only : name
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

/** The dates of `--from` and `--to`, both included; null for one that is not given.
 * @throws CommandError `bad_date` for an invalid date, or when the first is after the last */
export function parseDates(values: Readonly<Record<string, string | undefined>>): {
  from: string | null
  to: string | null
} {
  const given = (option: 'from' | 'to') =>
    parseDate(values[option], '1900', `Example: --${option} 2026-11-26.`)
  const [from, to] = [given('from'), given('to')]
  if (from !== null && to !== null && from > to) {
    const message = `--from ${from} is after --to ${to}. Give the earlier date first.`
    throw new CommandError('bad_date', message, { exit: 2 })
  }
  return { from, to }
}

/** Reads a local date from the command line; null when none is given.
 * @param from the earliest date accepted
 * @param advice what to write, as the second sentence of the error
 * @throws CommandError `bad_date` for an invalid date */
export function parseDate(text: string | undefined, from: string, advice: string): string | null {
  if (text === undefined) return null
  if (isCalendarDate(text) && text >= from) return text
  throw new CommandError('bad_date', `Invalid date "${text}". ${advice}`, { exit: 2 })
}
