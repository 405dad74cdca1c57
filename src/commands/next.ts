import { nextIn } from '../app/nextDay.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { openLogbook } from '../logbook/store.ts'
import { printCommented } from '../prescription/print.ts'
import type { Decision } from '../progress/nextDecision.ts'
import { replay } from '../session/replay.ts'
import { jsonOf } from '../summary/json.ts'
import type { CommandInput, ExitCode } from './command.ts'
import { loadSettings } from './loadSettings.ts'
import { indexOf, reportDamages } from './sessionsRead.ts'

const mostListed = 6

/** Prints what a session says about the next one like it: the decisions as comments, then the day as notation with the
 * reason above each line that changed. `again` is its former name.
 * @throws LogbookError for a session that does not exist or cannot be read */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const { session, entry } = logbook.read(input.words[0] ?? 'newest')
  const state = replay(session)
  const { prescription, decisions } = nextIn(
    { today: localTimeOf(io.now()).slice(0, 10), entries: () => indexOf(io, logbook) },
    logbook,
    settings,
    { session, entry, state },
  )
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

function lineOf({ name, reason }: Decision): string {
  return `${name}: ${reason}`
}

/** Puts changed lines before unchanged ones. */
function listed(decisions: readonly Decision[]): Decision[] {
  const [changed, same] = [
    decisions.filter(({ decision }) => decision !== 'same'),
    decisions.filter(({ decision }) => decision === 'same'),
  ]
  return [...changed, ...same].slice(0, Math.max(mostListed, changed.length))
}
