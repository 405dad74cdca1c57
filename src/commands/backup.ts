import { writeBackup } from '../logbook/backup.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, commandLineError, type ExitCode, show } from './command.ts'

/** Writes the whole logbook into one file. What in it cannot be read is kept unchanged and reported.
 * @throws LogbookError for what cannot be read or written */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [file = ''] = input.words
  if (file === '-') throw commandLineError('A backup is a file, not standard output. Give the name of one.')
  const backup = writeBackup(input.logbookDir, file)
  input.sources.push(backup)
  const { sessions, files, damages } = backup
  const held = `${counted(sessions, 'session')} and ${counted(files.length - sessions, 'other file')}`
  show(input, { file, sessions, files: files.length, damages }, `${held} are in ${sanitize(file)}.\n`)
  return 0
}
