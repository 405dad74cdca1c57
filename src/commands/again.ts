import { equipmentWith } from '../app/earlierDays.ts'
import { rackOf } from '../figures/bar.ts'
import { LogbookError } from '../logbook/errors.ts'
import type { DigestEntry, Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import { exerciseKey } from '../prescription/exerciseKey.ts'
import type { Prescription } from '../prescription/model.ts'
import { printCommented } from '../prescription/printCommented.ts'
import { againOf } from '../progress/again.ts'
import type { AtHand } from '../progress/loadStep.ts'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import type { WalkState } from '../session/state.ts'
import { jsonOf } from '../summary/json.ts'
import type { MassUnit } from '../units/model.ts'
import type { CommandInput, ExitCode } from './command.ts'
import { loadSettings } from './loadSettings.ts'
import { digestOf } from './sessionsRead.ts'

/** Prints the day of a session once more as notation, with what its results suggest, each change a comment.
 * @throws LogbookError for a session that is not there or cannot be read */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const { session, entry } = logbook.read(input.words[0] ?? 'newest')
  const state = replay(session)
  const names = exerciseKeys(session.prescription)
  const { prescription, changes } = againOf(
    state,
    earlierStates(io, logbook, entry.id, names),
    atHandWith(settings, session.prescription),
  )
  for (const { file, wrong, done } of logbook.damages) io.err(`pausebook: ${file}: ${wrong} ${done}\n`)
  const count = `${changes.length === 0 ? 'no load' : changes.length === 1 ? '1 load' : `${changes.length} loads`} changed`
  const head = `The day of ${entry.date} (${entry.id}) again; ${count}, paces as they were.`
  const text = printCommented(
    prescription,
    [head],
    changes.map(({ part, item, reason }) => ({ part, item, text: reason })),
  )
  io.out(
    input.json ? jsonOf({ session: entry.id, changes: changes.map(({ reason }) => reason), text }) : text,
  )
  return 0
}

/** The sessions before one, newest first, read one after the other: only those with any of these exercises. */
function* earlierStates(
  io: CommandInput['io'],
  logbook: Logbook,
  id: string,
  names: ReadonlySet<string>,
): Generator<WalkState> {
  const entries = digestOf(io, logbook)
  const place = entries.findIndex((entry) => entry.id === id)
  for (const entry of entries.slice(place + 1)) {
    if (!hasAny(entry, names)) continue
    const session = readable(logbook, entry.id)
    if (session !== null) yield replay(session)
  }
}

/** Null for a damaged one: it is told with the others, and the next before it is asked. */
function readable(logbook: Logbook, id: string): Session | null {
  try {
    return logbook.read(id).session
  } catch (error) {
    if (error instanceof LogbookError) return null
    throw error
  }
}

function hasAny(entry: DigestEntry, names: ReadonlySet<string>): boolean {
  return entry.day.lifts.some((lift) => names.has(exerciseKey(lift.name)))
}

function exerciseKeys(prescription: Prescription): ReadonlySet<string> {
  return new Set(
    prescription.parts.flatMap((part) =>
      part.kind === 'lift'
        ? part.items.flatMap((item) => item.exercises.map((exercise) => exerciseKey(exercise.name)))
        : [],
    ),
  )
}

/** Reckoned once a unit: all that a bar and its plates can make. */
function atHandWith(settings: Settings, prescription: Prescription): (unit: MassUnit) => AtHand {
  const known = new Map<MassUnit, AtHand>()
  return (unit) => {
    const equipment = equipmentWith(settings)(unit, prescription)
    const masses = equipment.plates.filter((plate) => plate.pairs > 0).map((plate) => plate.mass)
    const atHand = known.get(unit) ?? {
      rack: rackOf(equipment),
      smallest: masses.length > 0 ? Math.min(...masses) : unit === 'kg' ? 1.25 : 2.5,
    }
    known.set(unit, atHand)
    return atHand
  }
}
