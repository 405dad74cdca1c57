import { damagedIn, readBackup, restoreBackup } from '../logbook/backup.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, type ExitCode, show } from './command.ts'

/** Restores a backup into an empty logbook, all of it or nothing; with --dry only reads it and lists its content.
 * Exit status 3 if a session or a year of mornings in it cannot be read.
 * @throws LogbookError for a backup that was changed or cut off, and for a logbook that is not empty */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, logbookDir, flags } = input
  const [file = ''] = input.words
  const backup = readBackup(file)
  const damaged = damagedIn(backup)
  const isDry = flags.has('dry')
  if (!isDry) restoreBackup(logbookDir, backup)
  for (const path of damaged)
    io.err(`pausebook: ${path}: The file cannot be read, as it was in the backup.\n`)
  const { sessions, files } = backup
  const held = `${counted(sessions, 'session')} and ${counted(files.length - sessions, 'other file')}`
  const text = isDry
    ? `${sanitize(file)} is whole: ${held}. Nothing was restored.\n`
    : `${held} restored to ${sanitize(logbookDir)}.\n`
  show(input, { file, restored: !isDry, sessions, files: files.length, damaged }, text)
  return damaged.length > 0 ? 3 : 0
}
