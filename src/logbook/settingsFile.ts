import { existsSync } from 'node:fs'
import { basename, join } from 'node:path'
import { LowSync } from 'lowdb'
import type { Morning } from '../plan/morning.ts'
import { faultsIn } from '../validate/faults.ts'
import { backupOf, DurableFile, makeFolder, replaceDamaged } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { settingsFormat } from './formats.ts'
import { settingsShape } from './generated/shapes.js'
import { withLock } from './lock.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage } from './model.ts'
import { readMornings } from './mornings.ts'
import { defaultSettings, isLoadable, type Settings } from './settings.ts'
import {
  faultText,
  printableValueOf,
  readObject,
  readTextFile,
  sealed,
  sealOf,
  UnreadableFile,
  unsealed,
  wrongSeal,
} from './text.ts'

export interface SettingsReading {
  settings: Settings
  /** Null if the file is sound. The settings that were read are usable either way. */
  damage: Damage | null
}

interface Read extends SettingsReading {
  isSealed: boolean
  /** Moving the file to another name can repair the damage; if not, the file must be left alone. */
  mayBeSetAside: boolean
}

/** The settings of a logbook: each as the athlete set it, else its default. It changes nothing. If the file is invalid,
 * it reads the previous copy. */
export function readSettings(logbook: string): SettingsReading {
  const { settings, damage } = readFrom(settingsPathOf(logbook))
  return { settings: withMorningMasses(settings, readMornings(logbook).mornings), damage }
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

/** Whether the settings file has its checksum; also true if the file is missing or damaged. */
export function isSettingsSealed(logbook: string): boolean {
  return readFrom(settingsPathOf(logbook)).isSealed
}

/** Changes the settings under their lock and returns the new settings.
 * @param change throws to refuse; nothing is written then
 * @throws LogbookError `locked`, `cannot_write`, `damaged` for a file that must be left alone, and what `change` throws
 * */
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
      const { settings, damage, mayBeSetAside } = readFrom(path)
      if (damage !== null && !mayBeSetAside) {
        throw new LogbookError('damaged', `${damage.wrong} ${path} was left alone; move it away or mend it.`)
      }
      const changed = change(settings)
      if (damage !== null) {
        replaceDamaged(path, printSettings(changed))
        return changed
      }
      const file = new DurableFile<Settings>(path, (text) => settingsOf(text).settings, printSettings)
      const low = new LowSync<Settings>(file, changed)
      low.write()
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

/** Null without a file, undefined if it cannot be read. */
function textAt(path: string): string | null | undefined {
  try {
    return readTextFile(path)
  } catch {
    return undefined
  }
}

/** Renames a damaged settings file and restores the previous copy, if there is one.
 * @returns the damage and what was done; null if the file is sound */
export function repairSettings(logbook: string, machine: Machine = thisMachine()): Damage | null {
  const path = settingsPathOf(logbook)
  const found = readFrom(path)
  if (found.damage === null || !found.mayBeSetAside) return found.damage
  try {
    return withLock(`${path}.lock`, machine, () => {
      const { settings, damage, mayBeSetAside } = readFrom(path)
      if (damage === null || !mayBeSetAside) return damage
      const aside = replaceDamaged(path, printSettings(settings))
      const kept = aside === null ? '' : `It was set aside as ${aside}; `
      return {
        ...damage,
        done: `${kept}what could be read, or else the copy before it or the defaults, is in its place.`,
      }
    })
  } catch (error) {
    return { ...found.damage, done: `It could not be set aside: ${reasonOf(error)}. It was left alone.` }
  }
}

/** Where the settings of a logbook are. */
export function settingsPathOf(logbook: string): string {
  return join(logbook, 'settings.json')
}

function printSettings({ format, ...rest }: Settings): string {
  return sealed(`${JSON.stringify({ format, checksum: unsealed, ...rest }, null, 2)}\n`)
}

function readFrom(path: string): Read {
  const file = basename(path)
  try {
    const text = readTextFile(path)
    if (text === null) return insteadOfNone(path)
    const { settings, wrong, isRuined, isNewer, isSealed } = settingsOf(text)
    if (wrong === null) return { settings, damage: null, mayBeSetAside: true, isSealed }
    return isRuined
      ? insteadOf(path, wrong)
      : {
          settings,
          damage: { file, wrong: `The file ${wrong}.`, done: leftAlone },
          mayBeSetAside: !isNewer,
          isSealed: true,
        }
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error
    if (error.isRuined) return insteadOf(path, error.message)
    return {
      settings: defaultSettings,
      damage: { file, wrong: `The file ${error.message}.`, done: 'It was left alone; the defaults hold.' },
      mayBeSetAside: false,
      isSealed: true,
    }
  }
}

/** No settings yet, or only the previous copy, which then counts. */
function insteadOfNone(path: string): Read {
  const none = { settings: defaultSettings, damage: null, mayBeSetAside: true, isSealed: true }
  return existsSync(backupOf(path)) ? insteadOf(path, 'is gone') : none
}

const leftAlone = 'It was left alone; what could be read of it holds.'

function insteadOf(path: string, wrong: string): Read {
  const file = basename(path)
  let earlier: Settings | null = null
  try {
    const text = readTextFile(backupOf(path))
    const read = text === null ? null : settingsOf(text)
    if (read !== null && read.wrong === null) earlier = read.settings
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error
  }
  const done = `It was left alone; ${earlier === null ? 'the defaults hold' : `the copy before it (${file}.bak) holds`}.`
  return {
    settings: earlier ?? defaultSettings,
    damage: { file, wrong: `The file ${wrong}.`, done },
    mayBeSetAside: true,
    isSealed: true,
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
  const read = readObject(text)
  if (typeof read === 'string')
    return {
      settings: defaultSettings,
      wrong: read.replace('a session', 'settings'),
      isRuined: true,
      isNewer: false,
      isSealed: false,
    }
  const seal = sealOf(text, read)
  if (seal === 'wrong')
    return { settings: defaultSettings, wrong: wrongSeal, isRuined: true, isNewer: false, isSealed: false }
  const { format } = read
  if (typeof format === 'number' && Number.isInteger(format) && format > settingsFormat) {
    const wrong = `is of format ${format}, written by a newer program; this one reads format ${settingsFormat}`
    return { settings: defaultSettings, wrong, isRuined: false, isNewer: true, isSealed: false }
  }
  const { checksum, ...content } = read
  const values = withoutFormerKeys(printableValueOf(content) as Record<string, unknown>)
  const given = { ...defaultSettings, ...values }
  const faults = faultsIn(settingsShape(), given, Number.POSITIVE_INFINITY)
  const [fault] = faults
  if (fault === undefined) return { ...loadable(inOrder(given as Settings)), isSealed: seal === 'right' }
  const bad = new Set(faults.map(({ path }) => path[0]))
  const good = Object.keys(defaultSettings).map((key) => {
    const from = bad.has(key) ? defaultSettings : given
    return [key, from[key as keyof Settings]] as const
  })
  return {
    settings: loadable(inOrder(Object.fromEntries(good) as unknown as Settings)).settings,
    wrong: faultText(fault, values),
    isRuined: false,
    isNewer: false,
    isSealed: seal === 'right',
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
function loadable(settings: Settings): Omit<Parsed, 'isSealed'> {
  const wrong = (['kg', 'lb'] as const).filter((unit) => !isLoadable(settings, unit))
  if (wrong.length === 0) return { settings, wrong: null, isRuined: false, isNewer: false }
  const { bar, collar, plates } = defaultSettings
  const instead = { ...settings, bar, collar, plates }
  return {
    settings: instead,
    wrong: `has a bar and plates in ${wrong[0]} that no load can be made of`,
    isRuined: false,
    isNewer: false,
  }
}
