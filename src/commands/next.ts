import { equipmentWith } from '../app/earlierDays.ts'
import { rackOf } from '../figures/bar.ts'
import { LogbookError } from '../logbook/errors.ts'
import { localTimeOf } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import type { Prescription } from '../prescription/model.ts'
import { printCommented } from '../prescription/print.ts'
import type { AtHand } from '../progress/loadSteps.ts'
import { type Next, nextOf } from '../progress/next.ts'
import type { Decision } from '../progress/nextDecision.ts'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { jsonOf } from '../summary/json.ts'
import type { MassUnit } from '../units/model.ts'
import type { CommandInput, ExitCode } from './command.ts'
import { loadSettings } from './loadSettings.ts'
import { indexOf, reportDamages } from './sessionsRead.ts'

const mostListed = 6

/** Prints what a session says about the next one like it: the decisions as comments, then the day as notation with the
 * reason above each line that changed. `again` is its name of one release ago.
 * @throws LogbookError for a session that is not there or cannot be read */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const { session, entry } = logbook.read(input.words[0] ?? 'newest')
  const state = replay(session)
  const { prescription, decisions } = nextIn(io, logbook, settings, { session, entry, state })
  const status = reportDamages(io, logbook)
  const text = printCommented(
    prescription,
    [`After ${entry.date} (${entry.id}):`, ...listed(decisions).map(lineOf)],
    decisions
      .filter(({ decision }) => decision !== 'same')
      .map(({ part, item, name, reason }) => ({ part, item, text: `${name}: ${reason}` })),
  )
  io.out(
    input.json
      ? jsonOf({
          session: entry.id,
          decisions: decisions.map(({ name, decision, reason }) => ({ item: name, decision, reason })),
          text,
        })
      : text,
  )
  return status
}

/** What a session of the logbook says about the next one like it. */
export function nextIn(
  io: CommandInput['io'],
  logbook: Logbook,
  settings: Settings,
  of: { session: Session; entry: { id: string }; state: SessionState },
): Next {
  const today = localTimeOf(io.now()).slice(0, 10)
  const earlier = earlierStates(io, logbook, of.entry.id)
  return nextOf(of.state, earlier, today, atHandWith(settings, of.session.prescription))
}

function lineOf({ name, reason }: Decision): string {
  return `${name}: ${reason}`
}

/** Puts changes before lines that stay. */
function listed(decisions: readonly Decision[]): Decision[] {
  const [changed, same] = [
    decisions.filter(({ decision }) => decision !== 'same'),
    decisions.filter(({ decision }) => decision === 'same'),
  ]
  return [...changed, ...same].slice(0, Math.max(mostListed, changed.length))
}

/** The sessions before one, newest first, each read when it is needed. */
function* earlierStates(io: CommandInput['io'], logbook: Logbook, id: string): Generator<SessionState> {
  const entries = indexOf(io, logbook)
  const place = entries.findIndex((entry) => entry.id === id)
  for (const entry of entries.slice(place + 1)) {
    const session = readable(logbook, entry.id)
    if (session !== null) yield replay(session)
  }
}

/** Null for a damaged session: it is reported with the others, and the one before it is used. */
function readable(logbook: Logbook, id: string): Session | null {
  try {
    return logbook.read(id).session
  } catch (error) {
    if (error instanceof LogbookError) return null
    throw error
  }
}

/** All loads a bar and its plates can make, computed once per unit. */
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
