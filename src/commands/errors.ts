import { LogbookError } from '../logbook/errors.ts'
import { CommandError, type ExitCode, type Io } from './port.ts'

/** Prints what went wrong, for people and with `json` for programs, and says how to exit. */
export function exitOf(error: unknown, json: boolean, io: Io): ExitCode {
  const known = error instanceof CommandError ? error : (refusalOf(error) ?? faultOf(error))
  io.err(`pausebook: ${known.message}\n`)
  if (known.details !== '') io.err(`${known.details.replace(/\n$/, '')}\n`)
  if (json) {
    const { code, message, problems } = known
    io.out(`${JSON.stringify({ error: { code, message, problems } }, null, 2)}\n`)
  }
  return known.exit
}

/** What the logbook refuses is no fault: its message is for the user as it stands. */
function refusalOf(error: unknown): CommandError | null {
  return error instanceof LogbookError
    ? new CommandError(error.code, error.message, { exit: error.exit })
    : null
}

/** An error that nothing foresaw is a fault of the program: its trace is what a report needs. */
function faultOf(error: unknown): CommandError {
  const said = error instanceof Error ? error.message : String(error)
  const trace = error instanceof Error && error.stack !== undefined ? error.stack : ''
  return new CommandError(
    'fault',
    `Something in the program is wrong (${said.split('\n')[0]}). What was saved is safe; please report the lines below.`,
    { details: trace },
  )
}
