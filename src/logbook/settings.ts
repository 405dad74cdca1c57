import { existsSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { rackOf, usualPlates } from '../figures/bar.ts'
import type { Morning } from '../plan/morning.ts'
import type { MassUnit } from '../units/model.ts'
import { faultsIn } from '../validate/faults.ts'
import {
  backupOf,
  DurableFile,
  makeFolder,
  replaceDamaged,
  restoredText,
  writeDurably,
} from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { settingsShape } from './generated/shapes.js'
import { withLock } from './lock.ts'
import { configFolderOf, type Machine, thisMachine } from './machine.ts'
import type { Damage, Settings } from './model.ts'
import { readMornings } from './mornings.ts'
import {
  faultText,
  printableValueOf,
  readStored,
  readTextFile,
  sealed,
  settingsFormat,
  textAt,
  UnreadableFile,
  zeros,
} from './text.ts'

export type { Settings } from './model.ts'

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

interface SettingsReading {
  settings: Settings
  /** Null if the file is sound. The settings that were read are usable either way. */
  damage: Damage | null
}

interface Read extends SettingsReading {
  isSealed: boolean
  /** Moving the file to another name can repair the damage; if not, the file must not be changed. */
  mayBeQuarantined: boolean
}

/** The settings of a logbook: each as the athlete set it, else its default. It changes nothing. If the file is invalid,
 * it reads the previous copy. */
export function readSettings(logbook: string): SettingsReading {
  const { settings, damage } = readFrom(settingsPathOf(logbook))
  return { settings: withMorningMasses(settings, readMornings(logbook).mornings), damage }
}

/** Whether the settings file has its checksum; also true if the file is missing or damaged. */
export function isSettingsSealed(logbook: string): boolean {
  return readFrom(settingsPathOf(logbook)).isSealed
}

/** The body masses of the mornings and of the settings, in order of dates; on the same date the morning's counts. They
 * are never written into the settings. */
function withMorningMasses(settings: Settings, mornings: readonly Morning[]): Settings {
  const masses = mornings.flatMap(({ date, bodyMass }) =>
    bodyMass === undefined ? [] : [{ date, ...bodyMass }],
  )
  if (masses.length === 0) return settings
  const byDate = new Map([...settings.bodyMasses, ...masses].map((mass) => [mass.date, mass]))
  return inOrder({ ...settings, bodyMasses: [...byDate.values()] })
}

/** Changes the settings under their lock and returns the new settings.
 * @param change throws to refuse; nothing is written then
 * @throws LogbookError `locked`, `cannot_write`, `damaged` for a file that must not be changed
 * @throws what `change` throws */
export function changeSettings(
  logbook: string,
  change: (settings: Settings) => Settings,
  machine: Machine = thisMachine(),
): Settings {
  const path = settingsPathOf(logbook)
  const before = textAt(path)
  try {
    makeFolder(logbook)
    return withLock(`${path}.lock`, machine, () => {
      const { settings, damage, mayBeQuarantined } = readFrom(path)
      if (damage !== null && !mayBeQuarantined) {
        throw new LogbookError('damaged', `${damage.wrong} ${path} is unchanged; repair it or move it away.`)
      }
      const changed = change(settings)
      if (damage !== null) {
        replaceDamaged(path, printSettings(changed))
        return changed
      }
      new DurableFile<Settings>(path, (text) => settingsOf(text).settings, printSettings).write(changed)
      return changed
    })
  } catch (error) {
    if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) throw error
    throw new LogbookError(
      'cannot_write',
      `The settings cannot be saved: ${reasonOf(error)}. ${areAs(before, path) ? 'They are as before.' : '"pausebook settings" shows what they are now.'}`,
    )
  }
}

/** The last step of a save may fail although the new file is already in place. */
function areAs(before: string | null | undefined, path: string): boolean {
  return before !== undefined && textAt(path) === before
}

/** Renames a damaged settings file and restores the previous copy, if there is one.
 * @returns the damage and what was done; null if the file is sound */
export function repairSettings(logbook: string, machine: Machine = thisMachine()): Damage | null {
  const path = settingsPathOf(logbook)
  const found = readFrom(path)
  if (found.damage === null || !found.mayBeQuarantined) return found.damage
  try {
    return withLock(`${path}.lock`, machine, () => {
      const { settings, damage, mayBeQuarantined } = readFrom(path)
      if (damage === null || !mayBeQuarantined) return damage
      const aside = replaceDamaged(path, printSettings(settings))
      return {
        ...damage,
        done: `${restoredText(aside)} the readable settings, or else the previous copy or the defaults.`,
      }
    })
  } catch (error) {
    return { ...found.damage, done: `It could not be moved: ${reasonOf(error)}. Nothing was changed.` }
  }
}

/** Where the settings of a logbook are. */
export function settingsPathOf(logbook: string): string {
  return join(logbook, 'settings.json')
}

function printSettings({ format, ...rest }: Settings): string {
  return sealed(`${JSON.stringify({ format, checksum: zeros, ...rest }, null, 2)}\n`)
}

function readFrom(path: string): Read {
  const file = basename(path)
  const damaged = (settings: Settings, wrong: string, done: string, mayBeQuarantined = true): Read => ({
    settings,
    damage: { file, wrong: `The file ${wrong}.`, done },
    mayBeQuarantined,
    isSealed: true,
  })
  const fromCopy = (wrong: string): Read => {
    const earlier = settingsInCopy(path)
    const used = earlier === null ? 'defaults are used' : `the previous copy, ${file}.bak, is used`
    return damaged(earlier ?? defaultSettings, wrong, `Nothing was changed; ${used}.`)
  }
  try {
    const text = readTextFile(path)
    if (text === null && existsSync(backupOf(path))) return fromCopy('is gone')
    if (text === null)
      return { settings: defaultSettings, damage: null, mayBeQuarantined: true, isSealed: true }
    const { settings, wrong, isRuined, isNewer, isSealed } = settingsOf(text)
    if (wrong === null) return { settings, damage: null, mayBeQuarantined: true, isSealed }
    if (isRuined) return fromCopy(wrong)
    return damaged(settings, wrong, 'Nothing was changed; the readable settings are used.', !isNewer)
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error
    if (error.isRuined) return fromCopy(error.message)
    return damaged(defaultSettings, error.message, 'Nothing was changed; defaults are used.', false)
  }
}

/** Null if the previous copy is missing or wrong as well. */
function settingsInCopy(path: string): Settings | null {
  try {
    const text = readTextFile(backupOf(path))
    const read = text === null ? null : settingsOf(text)
    return read?.wrong === null ? read.settings : null
  } catch (error) {
    if (error instanceof UnreadableFile) return null
    throw error
  }
}

export interface Parsed {
  settings: Settings
  /** The end of a sentence; null if nothing is wrong. */
  wrong: string | null
  isRuined: boolean
  isNewer: boolean
  isSealed: boolean
}

/** Parses a settings file, key by key, so that one bad value loses only itself, and says
 * what is wrong with it. */
export function settingsOf(text: string): Parsed {
  const stored = readStored(text, 'settings', settingsFormat)
  if ('wrong' in stored) return { settings: defaultSettings, ...stored, isSealed: false }
  const values = withoutFormerKeys(printableValueOf(stored.content) as Record<string, unknown>)
  const given = { ...defaultSettings, ...values }
  const faults = faultsIn(settingsShape(), given, Number.POSITIVE_INFINITY)
  const [fault] = faults
  const bad = new Set(faults.map(({ path }) => path[0]))
  const good = Object.keys(defaultSettings).map((key) => {
    const from = bad.has(key) ? defaultSettings : given
    return [key, from[key as keyof Settings]] as const
  })
  const read = fault === undefined ? given : Object.fromEntries(good)
  const { settings, wrong } = loadable(inOrder(read as Settings))
  return {
    settings,
    wrong: fault === undefined ? wrong : faultText(fault, values),
    isRuined: false,
    isNewer: false,
    isSealed: stored.isSealed,
  }
}

/** Earlier versions stored one of the seven equations, `wathan` by default; the median now replaces that default. */
function withoutFormerKeys(values: Record<string, unknown>): Record<string, unknown> {
  const { equation, ...rest } = values
  if (equation === undefined) return values
  return equation === 'wathan' ? rest : { formula: equation, ...rest }
}

function inOrder(settings: Settings): Settings {
  return { ...settings, bodyMasses: settings.bodyMasses.toSorted((a, b) => (a.date < b.date ? -1 : 1)) }
}

/** Refuses absurd plate lists, because computing with them would take forever. */
function loadable(settings: Settings): Pick<Parsed, 'settings' | 'wrong'> {
  const unit = (['kg', 'lb'] as const).find((each) => !isLoadable(settings, each))
  if (unit === undefined) return { settings, wrong: null }
  const { bar, collar, plates } = defaultSettings
  const wrong = `has a bar and plates in ${unit} that no load can be made of`
  return { settings: { ...settings, bar, collar, plates }, wrong }
}

/* A command that sounds the bell runs only if this user has set it on this machine: the settings of a logbook from
 * somebody else could name any program. The user's own folder remembers the command, outside every logbook. */

type Environment = Readonly<Record<string, string | undefined>>

function ownBellPath(env: Environment): string {
  return join(configFolderOf(env), 'pausebook', 'bell.json')
}

/** Whether this user has set a command. */
export function isOwnBell(command: readonly string[], env: Environment): boolean {
  try {
    return readTextFile(ownBellPath(env))?.trim() === JSON.stringify(command)
  } catch {
    return false
  }
}

/** Remembers the command as set by this user.
 * @returns false if that cannot be written; the command is not run then */
export function setOwnBell(command: readonly string[], env: Environment): boolean {
  try {
    const path = ownBellPath(env)
    makeFolder(dirname(path))
    writeDurably(path, `${JSON.stringify(command)}\n`, false)
    return true
  } catch {
    return false
  }
}

/** The message if a command that the user set cannot be remembered. */
export function unwrittenBellText(env: Environment): string {
  return `The bell command is not run on this machine, because ${ownBellPath(env)} cannot be written; the terminal's bell sounds instead. Make that file writable and set the bell again.`
}

/** The message for a command that is not run. */
export function foreignBellText(command: readonly string[]): string {
  return `The bell command of this logbook was not set by you on this machine, so the terminal's bell sounds instead. To allow it: pausebook settings bell '${JSON.stringify(command)}'`
}
