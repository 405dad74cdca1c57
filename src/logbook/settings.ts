import { rackOf, usualPlates } from '../figures/bar.ts'
import type { MassUnit } from '../units/model.ts'
import { settingsFormat } from './formats.ts'
import type { Settings } from './storedModels.ts'

export type { Settings } from './storedModels.ts'

export const defaultSettings: Settings = {
  format: settingsFormat,
  units: { distance: 'km', mass: 'kg' },
  bodyMasses: [],
  bar: { kg: 20, lb: 45 },
  collar: { kg: 0, lb: 0 },
  plates: usualPlates,
  formula: 'median',
  hrMax: null,
  bell: 'on',
  secondsPerRepetition: 4,
  advice: true,
  clock: 'blocks',
  characters: 'auto',
  screenReader: false,
  notifications: false,
  rotation: [],
  syncRemote: null,
  firstStartSeen: false,
}

/** The newest body mass on or before a date, in the unit in which it was given; null if unknown.
 * @param date local, YYYY-MM-DD */
export function bodyMassOn(settings: Settings, date: string): Settings['bodyMasses'][number] | null {
  return settings.bodyMasses.findLast((mass) => mass.date <= date) ?? null
}

/** Whether loads can be computed for a bar and plates; too many different plates take too long to compute. */
export function isLoadable(settings: Settings, unit: MassUnit): boolean {
  try {
    rackOf({ bar: settings.bar[unit], collar: settings.collar[unit], plates: settings.plates[unit] })
    return true
  } catch (error) {
    if (error instanceof RangeError) return false
    throw error
  }
}
