import { damagedIn, writeBackup } from '../logbook/backup.ts'
import { jsonOf } from '../summary/json.ts'
import { counted } from '../units/decimal.ts'
import { sanitize } from '../validate/unsafe.ts'
import type { CommandInput, ExitCode } from './command.ts'

/** Writes the whole logbook into one file; exit status 3 if a session in it is damaged, which is kept unchanged.
 * @throws LogbookError for what cannot be read or written */
export async function run({ io, words, logbookDir, json }: CommandInput): Promise<ExitCode> {
  const [file = ''] = words
  const backup = writeBackup(logbookDir, file)
  const damaged = damagedIn(backup)
  for (const path of damaged)
    io.err(`pausebook: ${path}: The file is damaged. It is in the backup as it is.\n`)
  const { sessions, files, leftOut } = backup
  for (const path of leftOut)
    io.err(
      `pausebook: ${sanitize(path)}: It is not in the backup, which holds days: files ending in .txt or .json, not in folders. Move or rename it to keep it.\n`,
    )
  io.out(
    json
      ? jsonOf({ file, sessions, files: files.length, damaged, leftOut })
      : `${counted(sessions, 'session')} and ${counted(files.length - sessions, 'other file')} are in ${sanitize(file)}.\n`,
  )
  return damaged.length > 0 ? 3 : 0
}
