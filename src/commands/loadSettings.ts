import type { Settings } from '../logbook/settings.ts'
import { readSettings } from '../logbook/settingsFile.ts'
import type { CommandInput } from './command.ts'

/** The settings of the logbook; damage in their file is told on stderr and does not stop a command. */
export function loadSettings({ logbookDir, io }: Pick<CommandInput, 'logbookDir' | 'io'>): Settings {
  const { settings, damage } = readSettings(logbookDir)
  if (damage !== null) io.err(`pausebook: ${damage.file}: ${damage.wrong} ${damage.done}\n`)
  return settings
}
