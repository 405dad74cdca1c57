import type { DigestEntry, Logbook } from '../logbook/model.ts'
import { CommandError, type CommandInput } from './port.ts'
import { digestOf } from './progressLine.ts'

/** Every session of the logbook, newest first; damage is told on stderr and stops nothing.
 * @throws CommandError `no_sessions` where there is none */
export function sessionsDone({ io }: Pick<CommandInput, 'io'>, logbook: Logbook): DigestEntry[] {
  const entries = digestOf(io, logbook)
  for (const { file, wrong, done } of logbook.damages) io.err(`pausebook: ${file}: ${wrong} ${done}\n`)
  if (entries.length > 0) return entries
  const message =
    logbook.damages.length > 0
      ? 'No session in this logbook can be read. "pausebook verify" says what can be done.'
      : 'There is no session in this logbook yet. Record one with "pausebook".'
  throw new CommandError('no_sessions', message)
}
