import { historyHead, historyLine, historyOf } from '../progress/history.ts'
import { jsonOf } from '../summary/plain.ts'
import { type CommandInput, type ExitCode, parseDates } from './command.ts'
import { contextOf, liftMeant, sessionsDone } from './context.ts'

/** The sessions, newest first, one a line.
 * @throws CommandError for an invalid date, a lift that no session has, a logbook without sessions */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values } = input
  const dates = parseDates(values)
  const context = contextOf(input)
  const { historyUnits: shown } = context
  const sessions = sessionsDone(context)
  const { text = null } = values
  const lift = values.lift === undefined ? null : liftMeant(values.lift, sessions, io)
  const rows = historyOf(sessions, { ...dates, lift, text })
  if (input.json) {
    io.out(jsonOf(rows))
    return 0
  }
  // Only a terminal gets a heading and shortened lines; a pipe gets complete lines.
  const columns = io.terminal.out ? io.columns : Number.POSITIVE_INFINITY
  const head = io.terminal.out ? [historyHead(columns)] : []
  const lines = [...head, ...rows.map((row) => historyLine(row, shown, columns))]
  if (rows.length === 0) io.err(`pausebook: None of the ${sessions.length} sessions matches.\n`)
  else io.out(`${lines.join('\n')}\n`)
  return 0
}
