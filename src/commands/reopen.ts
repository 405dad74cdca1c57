import { LogbookError, writingAdvice } from '../logbook/errors.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { openLogbook } from '../logbook/store.ts'
import { replay } from '../session/replay.ts'
import { CommandError, type CommandInput, type ExitCode, show } from './command.ts'

/** Reopens a closed session to correct it. It is then unfinished, and the app opens it first.
 * @throws CommandError `not_finished` for a session that is not closed
 * @throws LogbookError for a session that is unknown, damaged or being recorded, `cannot_write` if it cannot be saved */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const [which = ''] = input.words
  const logbook = openLogbook(input.logbookDir)
  const file = logbook.open(which)
  input.sources.push(logbook)
  try {
    const state = replay(file.session)
    const { title } = file.session.prescription
    if (!state.finished) {
      const message = `The session ${file.id} (${title}) is not closed, so there is nothing to open again. Resume it with "pausebook".`
      throw new CommandError('not_finished', message)
    }
    // The uptime is left out, because it would be read as belonging to the boot that the recorder saw last.
    file.append([{ type: 'sessionReopened', at: localTimeOf(io.now()), up: null }])
    // Closing tries once more to save: only then is it certain what the file holds.
    const saved = file.close()
    if (!saved.ok) {
      const message = `The session ${file.id} cannot be saved: ${saved.reason}. ${stateOf(input.logbookDir, file.id)}`
      throw new LogbookError('cannot_write', message)
    }
    const { id } = file
    show(
      input,
      { id, title, date: state.date },
      `${title} (${state.date}) is open again: ${id}\n` +
        '"pausebook" opens it first: e corrects a result, f closes a part and then the session.\n',
    )
    return 0
  } finally {
    file.close()
  }
}

/** The content of the file after a failed save: the last step may fail although the new file is in place. */
function stateOf(logbookDir: string, id: string): string {
  try {
    const { session } = openLogbook(logbookDir).read(id)
    return replay(session).finished
      ? `It is closed as before. ${writingAdvice}`
      : 'Its file is open again all the same.'
  } catch {
    return '"pausebook verify" says what its file holds now.'
  }
}
