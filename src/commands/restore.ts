import { readBackup, restoreBackup } from '../logbook/backup.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import { type CommandInput, type ExitCode, show } from './command.ts'

/** Restores a backup into an empty logbook, all of it or nothing; with --dry only reads it and lists its content. What
 * in it cannot be read is restored unchanged and reported.
 * @throws LogbookError for a backup that was changed or cut off, and for a logbook that is not empty */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { logbookDir, flags } = input
  const [file = ''] = input.words
  const backup = readBackup(file)
  input.sources.push(backup)
  const isDry = flags.has('dry')
  if (!isDry) restoreBackup(logbookDir, backup)
  const { sessions, files, damages } = backup
  const held = `${counted(sessions, 'session')} and ${counted(files.length - sessions, 'other file')}`
  const text = isDry
    ? `${sanitize(file)} is whole: ${held}. Nothing was restored.\n`
    : `${held} restored to ${sanitize(logbookDir)}.\n`
  show(input, { file, restored: !isDry, sessions, files: files.length, damages }, text)
  return 0
}
