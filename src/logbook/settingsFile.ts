import { basename, join } from 'node:path'
import { LowSync } from 'lowdb'
import type { Morning } from '../plan/morning.ts'
import { faultsIn } from '../validate/faults.ts'
import { backupOf, DurableFile, makeFolder } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { settingsShape } from './generated/shapes.js'
import { quarantine } from './loadSession.ts'
import { withLock } from './lock.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage } from './model.ts'
import { readMornings } from './mornings.ts'
import { defaultSettings, isLoadable, type Settings } from './settings.ts'
import { settingsFormat } from './settingsFormat.ts'
import { faultText, printableValueOf, readObject, readTextFile, UnreadableFile } from './text.ts'

export interface SettingsReading {
  settings: Settings
  /** Null where nothing was wrong. Read settings are usable all the same. */
  damage: Damage | null
}

interface Read extends SettingsReading {
  /** What is wrong may be mended by setting the file aside; otherwise it must be left alone. */
  mayBeSetAside: boolean
}

/** The settings of a logbook: each as it was set, else its default. Touches nothing. A file that is none is
 * answered with the copy before it. */
export function readSettings(logbook: string): SettingsReading {
  const { settings, damage } = readFrom(pathIn(logbook))
  return { settings: withMorningMasses(settings, readMornings(logbook).mornings), damage }
}

/** The body masses of mornings beside those of the settings, in order of dates; of one date the morning's. They are
 * never written into the settings. */
function withMorningMasses(settings: Settings, mornings: readonly Morning[]): Settings {
  const masses = mornings.flatMap(({ date, bodyMass }) =>
    bodyMass === undefined ? [] : [{ date, ...bodyMass }],
  )
  if (masses.length === 0) return settings
  const byDate = new Map([...settings.bodyMasses, ...masses].map((mass) => [mass.date, mass]))
  return inOrder({ ...settings, bodyMasses: [...byDate.values()] })
}

/** Changes the settings under their lock and returns them as they are then.
 * @param change throws to refuse; nothing is written then
 * @throws LogbookError `locked`, `cannot_write`, `damaged` for a file that must be left alone, and what `change` throws */
export function changeSettings(
  logbook: string,
  change: (settings: Settings) => Settings,
  machine: Machine = thisMachine(),
): Settings {
  const path = pathIn(logbook)
  try {
    makeFolder(logbook)
    return withLock(`${path}.lock`, machine, () => {
      const { settings, damage, mayBeSetAside } = readFrom(path)
      if (damage !== null && !mayBeSetAside) {
        throw new LogbookError('damaged', `${damage.wrong} ${path} was left alone; move it away or mend it.`)
      }
      const changed = change(settings)
      if (damage !== null) quarantine(path)
      const file = new DurableFile<Settings>(path, (text) => settingsOf(text).settings, printSettings)
      const low = new LowSync<Settings>(file, changed)
      low.write()
      return changed
    })
  } catch (error) {
    if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) throw error
    throw new LogbookError(
      'cannot_write',
      `The settings cannot be saved: ${reasonOf(error)}. They are as before.`,
    )
  }
}

/** Sets a damaged file of settings aside, with the copy before it in its place where there is one.
 * @returns the damage and what was done; null where there is none */
export function repairSettings(logbook: string, machine: Machine = thisMachine()): Damage | null {
  const path = pathIn(logbook)
  const found = readFrom(path)
  if (found.damage === null || !found.mayBeSetAside) return found.damage
  try {
    return withLock(`${path}.lock`, machine, () => {
      const { settings, damage, mayBeSetAside } = readFrom(path)
      if (damage === null || !mayBeSetAside) return damage
      const aside = quarantine(path)
      new DurableFile<Settings>(path, (text) => settingsOf(text).settings, printSettings).write(settings)
      return {
        ...damage,
        done: `It was set aside as ${aside}; what could be read, or else the copy before it or the defaults, is in its place.`,
      }
    })
  } catch (error) {
    return { ...found.damage, done: `It could not be set aside: ${reasonOf(error)}.` }
  }
}

function pathIn(logbook: string): string {
  return join(logbook, 'settings.json')
}

function printSettings(settings: Settings): string {
  return `${JSON.stringify(settings, null, 2)}\n`
}

function readFrom(path: string): Read {
  const file = basename(path)
  try {
    const text = readTextFile(path)
    if (text === null) return { settings: defaultSettings, damage: null, mayBeSetAside: true }
    const { settings, wrong, isNoText, isNewer } = settingsOf(text)
    if (wrong === null) return { settings, damage: null, mayBeSetAside: true }
    return isNoText
      ? insteadOf(path, wrong)
      : { settings, damage: { file, wrong: `The file ${wrong}.`, done: leftAlone }, mayBeSetAside: !isNewer }
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error
    if (error.isNoText) return insteadOf(path, error.message)
    return {
      settings: defaultSettings,
      damage: { file, wrong: `The file ${error.message}.`, done: 'It was left alone; the defaults hold.' },
      mayBeSetAside: false,
    }
  }
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
  }
}

export interface Parsed {
  settings: Settings
  /** The end of a sentence; null where nothing is. */
  wrong: string | null
  isNoText: boolean
  isNewer: boolean
}

/** The settings that a file's text holds and what is wrong with it: key by
 * key, so that one bad value costs only itself. */
export function settingsOf(text: string): Parsed {
  const read = readObject(text)
  if (typeof read === 'string')
    return {
      settings: defaultSettings,
      wrong: read.replace('a session', 'settings'),
      isNoText: true,
      isNewer: false,
    }
  const { format } = read
  if (typeof format === 'number' && Number.isInteger(format) && format > settingsFormat) {
    const wrong = `is of format ${format}, written by a newer program; this one reads format ${settingsFormat}`
    return { settings: defaultSettings, wrong, isNoText: false, isNewer: true }
  }
  const values = withoutFormerKeys(printableValueOf(read) as Record<string, unknown>)
  const given = { ...defaultSettings, ...values }
  const faults = faultsIn(settingsShape(), given, Number.POSITIVE_INFINITY)
  const [fault] = faults
  if (fault === undefined) return loadable(inOrder(given as Settings))
  const bad = new Set(faults.map(({ path }) => path[0]))
  const good = Object.keys(defaultSettings).map((key) => {
    const from = bad.has(key) ? defaultSettings : given
    return [key, from[key as keyof Settings]] as const
  })
  return {
    settings: loadable(inOrder(Object.fromEntries(good) as unknown as Settings)).settings,
    wrong: faultText(fault, values),
    isNoText: false,
    isNewer: false,
  }
}

/** Earlier versions kept one of the seven equations, by default `wathan`; the median takes that default's place. */
function withoutFormerKeys(values: Record<string, unknown>): Record<string, unknown> {
  const { equation, ...rest } = values
  if (equation === undefined) return values
  return equation === 'wathan' ? rest : { formula: equation, ...rest }
}

function inOrder(settings: Settings): Settings {
  return { ...settings, bodyMasses: settings.bodyMasses.toSorted((a, b) => (a.date < b.date ? -1 : 1)) }
}

/** Plates that nobody has would be reckoned with for ever. */
function loadable(settings: Settings): Parsed {
  const wrong = (['kg', 'lb'] as const).filter((unit) => !isLoadable(settings, unit))
  if (wrong.length === 0) return { settings, wrong: null, isNoText: false, isNewer: false }
  const { bar, collar, plates } = defaultSettings
  const instead = { ...settings, bar, collar, plates }
  return {
    settings: instead,
    wrong: `has a bar and plates in ${wrong[0]} that no load can be made of`,
    isNoText: false,
    isNewer: false,
  }
}
