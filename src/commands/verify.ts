import { verifyLogbook } from '../logbook/verify.ts'
import type { CommandInput, ExitCode } from './command.ts'
import { progressLine } from './sessionsRead.ts'

/** Reads every file of the logbook and names damage; exit status 3 when there is any. */
export async function run(input: CommandInput): Promise<ExitCode> {
  const progress = progressLine(input.io, 'reading session')
  const verification = verifyLogbook(input.logbookDir, progress.show)
  progress.clear()
  const { sessions, sound, events, index, damages } = verification
  const rebuilt =
    index === 'rebuilt'
      ? 'Index rebuilt.'
      : 'The index cannot be written here; every command takes longer without it.'
  if (input.json) input.io.out(`${JSON.stringify(verification, null, 2)}\n`)
  else {
    input.io.out(
      `${counted(sessions, 'session')} read, ${sound} sound, with ${counted(events, 'event')}. ${rebuilt}\n`,
    )
    for (const { file, wrong, done } of damages) input.io.out(`${file}: ${wrong} ${done}\n`)
  }
  return damages.length > 0 ? 3 : 0
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`
}
