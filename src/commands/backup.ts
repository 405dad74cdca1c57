import { damagedIn, writeBackup } from '../logbook/backup.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, commandLineError, type ExitCode, show } from './command.ts'

/** Writes the whole logbook into one file; exit status 3 if a session or a year of mornings in it cannot be
 * read, which is kept unchanged.
 * @throws LogbookError for what cannot be read or written */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, logbookDir } = input
  const [file = ''] = input.words
  if (file === '-') throw commandLineError('A backup is a file, not standard output. Give the name of one.')
  const backup = writeBackup(logbookDir, file)
  const damaged = damagedIn(backup)
  for (const path of damaged)
    io.err(`pausebook: ${path}: The file cannot be read. It is in the backup as it is.\n`)
  const { sessions, files, leftOut } = backup
  for (const path of leftOut)
    io.err(
      `pausebook: ${sanitize(path)}: It is not in the backup, since it is not named as a day (.txt or .json), a session or a year of mornings is. Move or rename it to keep it.\n`,
    )
  const held = `${counted(sessions, 'session')} and ${counted(files.length - sessions, 'other file')}`
  show(
    input,
    { file, sessions, files: files.length, damaged, leftOut },
    `${held} are in ${sanitize(file)}.\n`,
  )
  return damaged.length > 0 ? 3 : 0
}
