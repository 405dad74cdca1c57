import { derivedOf, type Known, lazily } from '../app/known.ts'
import { emptyText } from '../logbook/logbookFiles.ts'
import { thisMachine, todayOf } from '../logbook/machine.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { ownTextPath, readOwnText } from '../logbook/ownTexts.ts'
import { readSettings } from '../logbook/settings.ts'
import { type Logbook, openLogbook } from '../logbook/store.ts'
import type { Plan } from '../plan/model.ts'
import { readPlan } from '../plan/read.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { Prescription } from '../prescription/model.ts'
import { readPrescription } from '../prescription/read.ts'
import { liftNames } from '../progress/overview.ts'
import type { DoneSession } from '../progress/weeks.ts'
import { counted } from '../units/decimal.ts'
import { wordsAlike } from '../units/lists.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type Io, problemsError } from './command.ts'

/** What most commands need besides their words. */
export interface Context extends Known {
  readonly io: Io
}

export function contextOf({ io, logbookDir, sources, units }: CommandInput): Context {
  const reported = <Source extends (typeof sources)[number]>(source: Source): Source => {
    sources.push(source)
    return source
  }
  return lazily((context) => ({
    today: () => todayOf(io.now()),
    mornings: () => reported(readMornings(logbookDir)),
    settings: () => reported(readSettings(logbookDir, context.mornings)).settings,
    logbook: () => reported(bookOf(logbookDir, io)),
    entries: () => context.logbook.index(context.settings),
    ...derivedOf(context),
    asked: () => units,
    io: () => io,
  }))
}

/** The logbook in a folder, which says on a terminal that it has many sessions to read. */
export function bookOf(logbookDir: string, io: Io): Logbook {
  return openLogbook(logbookDir, thisMachine(), (sessions) => {
    if (io.terminal.err) io.err(`Reading ${counted(sessions, 'session')} once ...\n`)
  })
}

/** Every session of the logbook, newest first.
 * @param mayBeNone there is something to show without a session
 * @throws CommandError `no_sessions` for an empty logbook */
export function sessionsDone({ entries, logbook }: Context, mayBeNone = false): readonly IndexEntry[] {
  if (entries.length > 0 || mayBeNone) return entries
  if (logbook.damages.length > 0) {
    const message = 'No session in this logbook can be read. "pausebook verify" says what can be done.'
    throw new CommandError('no_sessions', message, { exit: 3 })
  }
  throw new CommandError('no_sessions', emptyText(logbook.directory))
}

/** Reads the plan in the logbook, with its text; null without one.
 * @throws CommandError `bad_plan` with every problem of it */
export function parsePlan(logbookDir: string): { plan: Plan; text: string } | null {
  const text = readOwnText(logbookDir, 'plan.txt')
  if (text === null) return null
  const reading = readPlan(text)
  if ('plan' in reading) return { ...reading, text }
  const path = ownTextPath(logbookDir, 'plan.txt')
  throw problemsError('bad_plan', 'plan', path, reading.problems, `Correct ${path}.`)
}

/** Reads the prescription in a file, with its warnings and the text of the file. What it means does not depend on
 * `--units`.
 * @param path of the file, or `-` for standard input
 * @throws CommandError `bad_prescription` with every problem of the file */
export function parsePrescription(
  context: Context,
  path: string,
): { prescription: Prescription; warnings: Diagnostic[]; text: string } {
  const bytes = context.io.readBytes(path, 'prescription')
  const reading = readPrescription(bytes, context.defaults)
  if ('prescription' in reading) return { ...reading, text: new TextDecoder().decode(bytes) }
  throw problemsError('bad_prescription', 'prescription', path, reading.problems, 'Correct the file.')
}

const mostNamed = 5

/** The lift of this name in any spelling, or the only one whose name contains it, which is then reported: `squat`
 * finds `front squat`.
 * @throws CommandError `no_such_lift` with the names that contain it, else those it may be a misspelling of, else the
 * most frequent ones */
export function liftMeant(name: string, sessions: readonly DoneSession[], io: Pick<Io, 'err'>): string {
  const key = exerciseKey(name)
  if (sessions.some((session) => session.lifted(key) !== null)) return name
  const names = liftNames(sessions).map((each) => each.name)
  const containing = namesWith(name, names, (word, known) => word === known)
  const [only, ...others] = containing
  if (only !== undefined && others.length === 0) {
    io.err(`pausebook: "${sanitize(name)}" is read as "${sanitize(only)}", the only lift that contains it.\n`)
    return only
  }
  const misspelt = namesWith(name, names, (word, known) => wordsAlike(word, [known]).length > 0)
  const near = [containing, misspelt, names].find(({ length }) => length > 0) ?? []
  const offered = near.slice(0, mostNamed).map((each) => `"${each}"`)
  const oneOf = offered.length > 1 ? 'one of ' : ''
  const advice = offered.length === 0 ? 'Nothing was lifted yet.' : `Write ${oneOf}${offered.join(', ')}.`
  throw new CommandError('no_such_lift', `No session has "${name}". ${advice}`)
}

/** The names with a word that matches, for each word of this one. */
function namesWith(
  name: string,
  names: readonly string[],
  isMeant: (word: string, known: string) => boolean,
): string[] {
  const wordsOf = (text: string) =>
    text
      .trim()
      .split(/[\s-]+/)
      .map(exerciseKey)
  return names.filter((each) =>
    wordsOf(name).every((word) => wordsOf(each).some((known) => isMeant(word, known))),
  )
}
