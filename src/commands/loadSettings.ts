import { readSettings, type Settings } from '../logbook/settings.ts'
import type { CommandInput } from './command.ts'

/** Loads the logbook's settings. Damage in the file is reported on stderr and does not stop the command. */
export function loadSettings({ logbookDir, io }: Pick<CommandInput, 'logbookDir' | 'io'>): Settings {
  const { settings, damage } = readSettings(logbookDir)
  if (damage !== null) io.err(`pausebook: ${damage.file}: ${damage.wrong} ${damage.done}\n`)
  return settings
}
