import { formulaNames } from '../figures/oneRepMax.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { printNumber } from '../units/decimal.ts'
import { kilogramsOf, printMass, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { isUnsafe, sanitize } from '../validate/unsafe.ts'
import { LogbookError } from './errors.ts'
import { isLoadable, type Settings } from './settings.ts'

const bodyMass: SettingKey = {
  key: 'body-mass',
  description: 'body mass, each from its date on',
  print: (settings) =>
    settings.bodyMasses.map((mass) => `${printMass(mass)} on ${mass.date}`).join(', ') || 'none',
  read: (text, settings, today) => {
    if (text.toLowerCase() === 'none') return { ...settings, bodyMasses: [] }
    const byDate = new Map(settings.bodyMasses.map((mass) => [mass.date, mass]))
    for (const part of text.split(',')) {
      const [, amount = '', date = today] = /^(.+?)(?: on (\S+))?$/.exec(part.trim()) ?? []
      const read = readMass(amount, settings.units.mass)
      if (read === null || !isCalendarDate(date)) return null
      if (kilogramsOf(read) < 20 || kilogramsOf(read) > 400) return null
      byDate.set(date, { date, ...read })
    }
    return { ...settings, bodyMasses: [...byDate.values()].sort((a, b) => (a.date < b.date ? -1 : 1)) }
  },
  write: 'a mass from 20 to 400 kg, of today or with its date: 68 kg on 2026-11-26, or none',
}

const units: SettingKey = {
  key: 'units',
  description: 'units of a prescription that names none, and of what is printed',
  print: (settings) => `${settings.units.distance} ${settings.units.mass}`,
  read: (text, settings) => {
    const parts = /^(km|mi)[\s,]+(kg|lb)$/i.exec(text)
    if (parts === null) return null
    const [, distance, mass] = parts.map((part) => part.toLowerCase())
    return { ...settings, units: { distance: distance as 'km' | 'mi', mass: mass as MassUnit } }
  },
  write: 'km kg, km lb, mi kg or mi lb',
}

const bell: SettingKey = {
  key: 'bell',
  description: 'the sound of the clock: the bell of the terminal, nothing, or a command',
  print: (settings) => (typeof settings.bell === 'string' ? settings.bell : JSON.stringify(settings.bell)),
  read: (text, settings) => {
    const word = text.toLowerCase()
    if (word === 'on' || word === 'off') return { ...settings, bell: word }
    try {
      const command: unknown = JSON.parse(text)
      return isCommand(command) ? { ...settings, bell: command } : null
    } catch {
      return null
    }
  },
  write: 'on, off, or a command and its arguments as JSON: ["play", "bell.oga"]',
}

/** A program and its arguments. */
function isCommand(value: unknown): value is string[] {
  if (!Array.isArray(value) || value.length > 50) return false
  return value.every((word) => typeof word === 'string' && !isUnsafe(word)) && Boolean(value[0])
}

const secondsPerRepetition: SettingKey = {
  key: 'seconds-per-repetition',
  description: 'by which the clock ends the groups of a set that it paces',
  print: (settings) => printNumber(settings.secondsPerRepetition),
  read: (text, settings) => {
    const value = /^\d{1,3}(\.\d{1,3})?( ?s)?$/.test(text) ? Number.parseFloat(text) : Number.NaN
    return value >= 0.5 && value <= 60 ? { ...settings, secondsPerRepetition: value } : null
  },
  write: 'seconds from 0.5 to 60, as in 4',
}

const hrMax: SettingKey = {
  key: 'hr-max',
  description: 'your highest heart rate; running at 88 % of it or more counts as hard',
  print: (settings) => (settings.hrMax === null ? 'none' : String(settings.hrMax)),
  read: (text, settings) => {
    if (text.toLowerCase() === 'none') return { ...settings, hrMax: null }
    const value = /^\d{3}$/.test(text) ? Number(text) : Number.NaN
    return value >= 100 && value <= 240 ? { ...settings, hrMax: value } : null
  },
  write: 'beats a minute from 100 to 240, or none',
}

const rotation: SettingKey = {
  key: 'rotation',
  description: 'the kinds of day that follow each other',
  print: (settings) => settings.rotation.join(', ') || 'none',
  read: (text, settings) => {
    if (text.toLowerCase() === 'none') return { ...settings, rotation: [] }
    const days = text.split(/,| \/ /).map((day) => day.trim())
    if (days.length > 30 || days.some((day) => day === '' || day.length > 60 || isUnsafe(day))) return null
    return { ...settings, rotation: days }
  },
  write: 'words with commas between them, as in legs, push, pull, or none',
}

/** Exercises for which plates are shown, or not, whatever their names suggest. */
function exercises(key: 'on-bar' | 'off-bar', field: 'onBar' | 'offBar', description: string): SettingKey {
  return {
    key,
    description,
    print: (settings) => (settings[field] ?? []).join(', ') || 'none',
    read: (text, settings) => {
      if (text.toLowerCase() === 'none') return { ...settings, [field]: undefined }
      const names = text.split(',').map((name) => name.trim())
      const isBad = (name: string) => name === '' || name.length > 80 || isUnsafe(name)
      return names.length > 100 || names.some(isBad) ? null : { ...settings, [field]: names }
    },
    write: 'names of exercises with commas between them, or none',
  }
}

const syncRemote: SettingKey = {
  key: 'sync-remote',
  description: 'the git repository that the logbook is kept in step with',
  print: (settings) => settings.syncRemote ?? 'none',
  read: (text, settings) => {
    if (text.toLowerCase() === 'none') return { ...settings, syncRemote: null }
    // git would take a leading hyphen for an option.
    return text === '' || text.startsWith('-') || text.length > 1000 || isUnsafe(text)
      ? null
      : { ...settings, syncRemote: text }
  },
  write: 'an address that git knows, or none',
}

/** Every setting, in the order in which they are shown. */
export const settingKeys: readonly SettingKey[] = [
  units,
  bodyMass,
  mass('bar', 'kg', 'the bar that is loaded in kilograms', 'a mass in kg, as in 20 kg'),
  mass('bar', 'lb', 'the bar that is loaded in pounds', 'a mass in lb, as in 45 lb'),
  mass('collar', 'kg', 'one collar, on a bar in kilograms', 'a mass in kg, as in 2.5 kg, or none'),
  mass('collar', 'lb', 'one collar, on a bar in pounds', 'a mass in lb, as in 5 lb, or none'),
  plates('kg'),
  plates('lb'),
  exercises('on-bar', 'onBar', 'exercises whose plates are shown though their names do not say bar'),
  exercises('off-bar', 'offBar', 'exercises whose plates are not shown'),
  oneOf('formula', formulaNames, 'of estimated maxima: the median of the seven equations, or one of them'),
  hrMax,
  bell,
  secondsPerRepetition,
  onOff('advice', 'advice', 'the line of advice in the recorder'),
  oneOf('clock', ['blocks', 'plain'], 'the digits of the big clock'),
  oneOf('characters', ['auto', 'unicode', 'ascii'], 'what bars, digits and borders are drawn with'),
  onOff('screen-reader', 'screenReader', 'lines that are spoken instead of a screen that is drawn'),
  onOff('notifications', 'notifications', 'a notification on the desktop when a rest is over'),
  rotation,
  syncRemote,
  onOff('first-start-seen', 'firstStartSeen', 'the words of the first start have been read'),
]

/** Names of earlier versions. */
const formerKeys = new Map([['equation', 'formula']])

/** @throws LogbookError `bad_setting` */
export function settingKeyOf(name: string): SettingKey {
  const found = settingKeys.find((setting) => setting.key === (formerKeys.get(name) ?? name))
  if (found !== undefined) return found
  const keys = listed(settingKeys.map((setting) => setting.key))
  throw new LogbookError('bad_setting', `There is no setting ${quoted(name)}. Write ${keys}.`)
}

/** @throws LogbookError `bad_setting`; never changes the settings it was given */
export function settingsWith(settings: Settings, key: string, text: string, today: string): Settings {
  const setting = settingKeyOf(key)
  const changed = setting.read(text.trim(), settings, today)
  if (changed !== null) return changed
  throw new LogbookError('bad_setting', `Invalid ${key} ${quoted(text)}. Write ${setting.write}.`)
}

function quoted(text: string): string {
  const printable = sanitize(text)
  return `"${printable.length > 60 ? `${printable.slice(0, 60)}…` : printable}"`
}

/* The kinds of setting that occur more than once. */

/** A setting on the command line: how its value is written, read and described. */
export interface SettingKey {
  key: string
  /** One line, lower case, no full stop. */
  description: string
  print: (settings: Settings) => string
  /** The settings with this value; null if the text is not a valid value.
   * @param today local date, for dated values */
  read: (text: string, settings: Settings, today: string) => Settings | null
  /** What a valid value looks like, as the end of a sentence. */
  write: string
}

/** One of a few words. */
function oneOf<K extends 'formula' | 'clock' | 'characters'>(
  key: K,
  choices: readonly Settings[K][],
  description: string,
): SettingKey {
  return {
    key,
    description,
    print: (settings) => settings[key],
    read: (text, settings) => {
      const value = choices.find((choice) => choice === text.toLowerCase())
      return value === undefined ? null : { ...settings, [key]: value }
    },
    write: listed(choices),
  }
}

function onOff(
  key: string,
  field: 'advice' | 'screenReader' | 'notifications' | 'firstStartSeen',
  description: string,
): SettingKey {
  return {
    key,
    description,
    print: (settings) => (settings[field] ? 'on' : 'off'),
    read: (text, settings) => {
      const word = text.toLowerCase()
      return word === 'on' || word === 'off' ? { ...settings, [field]: word === 'on' } : null
    },
    write: 'on or off',
  }
}

/** A mass in the unit of the bar it belongs to. */
function mass(field: 'bar' | 'collar', unit: MassUnit, description: string, example: string): SettingKey {
  return {
    key: `${field}-${unit}`,
    description,
    print: (settings) => printMass({ value: settings[field][unit], unit }),
    read: (text, settings) => {
      const isNothing = field === 'collar' && /^0(\.0+)?( ?(kg|lb))?$|^none$/.test(text)
      const read = isNothing ? { value: 0, unit } : readMass(text, unit)
      if (read === null || read.unit !== unit || kilogramsOf(read) > 100) return null
      return usable({ ...settings, [field]: { ...settings[field], [unit]: read.value } }, unit)
    },
    write: example,
  }
}

export function plates(unit: MassUnit): SettingKey {
  return {
    key: `plates-${unit}`,
    description: `pairs of ${unit} plates that are there: pairs x mass`,
    print: (settings) =>
      settings.plates[unit].map((plate) => `${plate.pairs} x ${printNumber(plate.mass)}`).join(', ') ||
      'none',
    read: (text, settings) => {
      const read = text.toLowerCase() === 'none' ? [] : text.split(',').map((part) => pairsOf(part, unit))
      if (!read.every((plate) => plate !== null)) return null
      const sorted = read.sort((a, b) => b.mass - a.mass)
      if (sorted.some((plate, index) => plate.mass === sorted[index + 1]?.mass)) return null
      return usable({ ...settings, plates: { ...settings.plates, [unit]: sorted } }, unit)
    },
    write: `pairs and mass as in 4 x ${unit === 'kg' ? '25' : '45'}, 2 x 2.5, each mass once, or none`,
  }
}

function pairsOf(text: string, unit: MassUnit): { mass: number; pairs: number } | null {
  const parts = /^(\d{1,2})\s?[x×]\s?(.+)$/i.exec(text.trim())
  const read = readMass(parts?.[2] ?? '', unit)
  const pairs = Number(parts?.[1])
  return read === null || read.unit !== unit || pairs < 1 || kilogramsOf(read) > 100
    ? null
    : { mass: read.value, pairs }
}

/** Null if no load can be made of the bar and the plates. */
function usable(settings: Settings, unit: MassUnit): Settings | null {
  return isLoadable(settings, unit) ? settings : null
}

/** `a, b or c` */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`
}
