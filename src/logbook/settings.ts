import { dirname, join } from 'node:path'
import { type Equipment, rackOf, usualPlates, usualStep } from '../figures/bar.ts'
import type { Morning } from '../plan/morning.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { faultsIn, hasShape, named } from '../validate/faults.ts'
import { makeFolder, writeDurably } from './durableFile.ts'
import { attempt, type Damage, ifKnown } from './errors.ts'
import { settingsShape } from './generated/shapes.js'
import { configFolderOf, type Machine, thisMachine } from './machine.ts'
import type { Settings } from './model.ts'
import { readMornings } from './mornings.ts'
import {
  changeStored,
  faultText,
  loadStored,
  type StoredKind,
  sealed,
  type Wrong,
  zeros,
} from './storedFile.ts'
import { printableValueOf, readTextFile, settingsFormat } from './text.ts'

export type { Settings } from './model.ts'

export const defaultSettings: Settings = {
  format: settingsFormat,
  units: { distance: 'km', mass: 'kg' },
  bodyMasses: [],
  bar: { kg: 20, lb: 45 },
  collar: { kg: 0, lb: 0 },
  plates: usualPlates,
  dumbbellStep: usualStep,
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

/** Body mass on a day, in kilograms: the file's, else the newest in the settings; null if unknown.
 * @param ofFile what the day's file says */
export function bodyMassKgOn(settings: Settings, date: string, ofFile: Mass | null = null): number | null {
  const mass = ofFile ?? bodyMassOn(settings, date)
  return mass && kilogramsOf(mass)
}

/** Whether settings could be stored, and read again as they are. */
export function isStorable(settings: Settings): boolean {
  return hasShape(settingsShape(), settings) && unloadableUnit(settings) === null
}

/** The unit in which no load can be made from the bar and the plates, or in which they are so many that computing with
 * them would take forever; null if there is none. */
function unloadableUnit(settings: Settings): MassUnit | null {
  return (['kg', 'lb'] as const).find((unit) => attempt(() => rackOf(barIn(settings, unit))) !== null) ?? null
}

/** The bar with its collars and plates, and the step of dumbbells, in one unit. */
export function barIn({ bar, collar, plates, dumbbellStep }: Settings, unit: MassUnit): Equipment {
  return {
    bar: bar[unit],
    collar: collar[unit],
    plates: plates[unit],
    dumbbellStep: dumbbellStep[unit],
  }
}

/** The settings of a logbook: each as the athlete set it, else its default. Reading changes nothing. If the file is
 * ruined, its previous copy counts. The body masses of mornings are among them, but are never written into the file;
 * on the same date the morning's counts.
 * @param known the mornings of the logbook, where they are read already
 * @returns in `damages` what is wrong with the settings and with these mornings */
export function readSettings(
  logbook: string,
  known: { mornings: readonly Morning[]; damages: readonly Damage[] } = readMornings(logbook),
): { settings: Settings; damages: Damage[] } {
  const { value, damage } = loadStored(logbook, settingsFile, settingsKind)
  const settings = value ?? defaultSettings
  const typed = known.mornings.flatMap(({ date, bodyMass }) =>
    bodyMass === undefined ? [] : [{ date, ...bodyMass }],
  )
  const bodyMasses = inOrderOfDates([...settings.bodyMasses, ...typed])
  return { settings: { ...settings, bodyMasses }, damages: [damage ?? [], ...known.damages].flat() }
}

/** Body masses in order of dates; of several for one date, the last counts. */
export function inOrderOfDates(masses: Settings['bodyMasses']): Settings['bodyMasses'] {
  const byDate = new Map(masses.map((mass) => [mass.date, mass]))
  return [...byDate.values()].sort((a, b) => (a.date < b.date ? -1 : 1))
}

/** Changes the settings under their lock and returns the new settings.
 * @param change throws to refuse; nothing is written then
 * @throws LogbookError `locked`, `cannot_write`, `damaged`
 * @throws what `change` throws */
export function changeSettings(
  logbook: string,
  change: (settings: Settings) => Settings,
  machine: Machine = thisMachine(),
): Settings {
  return changeStored(logbook, settingsFile, settingsKind, machine, change)
}

export const settingsFile = 'settings.json'

export const settingsKind: StoredKind<Settings> = {
  what: 'settings',
  format: settingsFormat,
  read: settingsIn,
  print: ({ format, ...rest }) =>
    sealed(`${JSON.stringify({ format, checksum: zeros, ...rest }, null, 2)}\n`),
  absent: defaultSettings,
  hasDefaults: true,
}

/** Reads the settings key by key, so that one bad value loses only itself. */
function settingsIn(content: Record<string, unknown>): { value: Settings } | Wrong<Settings> {
  const values = withoutFormerKeys(printableValueOf(content) as Record<string, unknown>)
  const faults = faultsIn(settingsShape(), { ...defaultSettings, ...values }, Number.POSITIVE_INFINITY)
  const bad = faults.map(({ path }) => path[0])
  const good = Object.entries(named(settingsShape(), values)).filter(([key]) => !bad.includes(key))
  const read: Settings = { ...defaultSettings, ...Object.fromEntries(good) }
  const unit = unloadableUnit(read)
  const { bar, collar, plates } = unit === null ? read : defaultSettings
  const settings = { ...read, bar, collar, plates, bodyMasses: inOrderOfDates(read.bodyMasses) }
  const [fault] = faults
  if (fault !== undefined) return { wrong: faultText(fault), rest: settings }
  if (unit === null) return { value: settings }
  return { wrong: `has a bar and plates in ${unit} from which no load can be made`, rest: settings }
}

/** Earlier versions stored one of the seven equations, `wathan` by default; the median now replaces that default. */
function withoutFormerKeys(values: Record<string, unknown>): Record<string, unknown> {
  const { equation, ...rest } = values
  if (equation === undefined) return values
  return equation === 'wathan' ? rest : { formula: equation, ...rest }
}

/* A command that sounds the bell runs only if this user has set it on this machine: the settings of a logbook from
 * somebody else could name any program. The user's own folder remembers the command, outside every logbook. */

function ownBellPath(env: NodeJS.ProcessEnv): string {
  return join(configFolderOf(env), 'pausebook', 'bell.json')
}

/** Whether this user has set a command. */
export function isOwnBell(command: readonly string[], env: NodeJS.ProcessEnv): boolean {
  const text = ifKnown(() => readTextFile(ownBellPath(env)))
  return typeof text === 'string' && text.trim() === JSON.stringify(command)
}

/** Remembers the command as set by this user.
 * @returns false if that cannot be written; the command is not run then */
export function setOwnBell(command: readonly string[], env: NodeJS.ProcessEnv): boolean {
  const failure = attempt(() => {
    makeFolder(dirname(ownBellPath(env)))
    writeDurably(ownBellPath(env), `${JSON.stringify(command)}\n`)
  })
  return failure === null
}

/** The message if a command that the user set cannot be remembered. */
export function unwrittenBellText(env: NodeJS.ProcessEnv): string {
  return `The bell command is not run on this machine, because ${ownBellPath(env)} cannot be written; the terminal's bell sounds instead. Make that file writable and set the bell again.`
}

/** The message for a command that is not run. */
export function foreignBellText(command: readonly string[]): string {
  return `The bell command of this logbook was not set by you on this machine, so the terminal's bell sounds instead. To allow it: pausebook settings bell '${JSON.stringify(command)}'`
}
