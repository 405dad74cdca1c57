import { readSettings, type Settings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import type { HistoryUnits } from '../progress/history.ts'
import type { CommandInput } from './command.ts'
import { reportDamages } from './sessionsRead.ts'

/** Loads the logbook's settings. Damage in the file is reported once on stderr and does not stop the command, which then
 * ends with 3. */
export function loadSettings({
  logbookDir,
  damages,
  io,
}: Pick<CommandInput, 'logbookDir' | 'damages' | 'io'>): Settings {
  const { settings, damage } = readSettings(logbookDir)
  if (damage === null || damages.length > 0) return settings
  damages.push(damage)
  reportDamages(io, { damages })
  return settings
}

/** The units of figures over many sessions; `convert` says that they were asked for, so that sets in other units are
 * converted. */
export function historyUnitsOf(input: CommandInput, settings: Settings): HistoryUnits {
  const { distance, mass } = input.units
  return { ...unitsOf(input, settings), convert: distance !== null || mass !== null }
}

/** The units of `--units`, as far as given, else those of the settings. */
export function unitsOf(
  { units }: Pick<CommandInput, 'units'>,
  settings: Pick<Settings, 'units'>,
): Prescription['units'] {
  return { distance: units.distance ?? settings.units.distance, mass: units.mass ?? settings.units.mass }
}
