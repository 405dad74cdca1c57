import { printNumber } from '../units/decimal.ts'
import { kilogramsOf, printMass, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { printableOf } from './printable.ts'
import { isLoadable, type Settings } from './settings.ts'

/* The kinds of setting of which there are several. */

/** A setting as the command line knows it: how its value is written, read and described. */
export interface SettingKey {
  key: string
  /** One line, lower case, no full stop. */
  description: string
  print: (settings: Settings) => string
  /** The settings with this value; null when the text is no value.
   * @param today local date, for what is dated */
  read: (text: string, settings: Settings, today: string) => Settings | null
  /** What to write, as the end of a sentence. */
  write: string
}

/** A word out of a few. */
export function oneOf<K extends keyof Settings>(
  key: string,
  field: K,
  choices: readonly Settings[K][],
  description: string,
): SettingKey {
  return {
    key,
    description,
    print: (settings) => String(settings[field]),
    read: (text, settings) => {
      const value = choices.find((choice) => choice === text.toLowerCase())
      return value === undefined ? null : { ...settings, [field]: value }
    },
    write: listed(choices.map(String)),
  }
}

export function onOff(
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
export function mass(
  field: 'bar' | 'collar',
  unit: MassUnit,
  description: string,
  example: string,
): SettingKey {
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

/** Null for a bar and plates that no load can be made of. */
function usable(settings: Settings, unit: MassUnit): Settings | null {
  return isLoadable(settings, unit) ? settings : null
}

export function isPrintable(text: string): boolean {
  return printableOf(text) === text
}

/** `a, b or c` */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`
}
