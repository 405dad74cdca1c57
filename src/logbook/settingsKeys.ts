import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { formulaNames } from '../figures/oneRepMax.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { printNumber } from '../units/decimal.ts'
import { inSentence } from '../units/lists.ts'
import { kilogramsOf, printMass, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { readUnits } from '../units/words.ts'
import { clipped, isUnsafe } from '../validate/unsafe.ts'
import { ifKnown, LogbookError } from './errors.ts'
import { inOrderOfDates, isStorable, type Settings } from './settings.ts'

/** How a value is printed and read. */
interface Words<V> {
  /** What a valid value looks like, as the end of a sentence. */
  write: string
  print: (value: V) => string
  /** Undefined if the text is not a valid value.
   * @param text without spaces around it; @param today local date, for dated values */
  read: (text: string, settings: Settings, today: string) => V | undefined
  /** The value that is written and printed as none. */
  none?: { value: V }
}

/** A setting on the command line: how its value is read into and printed from all settings. */
interface SettingKey extends Omit<Words<Settings>, 'none'> {
  key: string
  /** One line, lower case, no full stop. */
  description: string
}

/** @param key as it is typed; by default the field's name, with hyphens before its parts */
function setting<F extends keyof Settings>(
  field: F,
  description: string,
  { write, print, read, none }: Words<Settings[F]>,
  key: string = keyOf(field),
): SettingKey {
  return {
    key,
    description,
    write: none === undefined ? write : `${write}, or none`,
    print: (settings) => print(settings[field]) || 'none',
    read: (text, settings, today) => {
      const isNone = none !== undefined && text.toLowerCase() === 'none'
      const value = isNone ? none.value : read(text, settings, today)
      if (value === undefined && !isNone) return undefined
      const changed = { ...settings, [field]: value }
      return isStorable(changed) ? changed : undefined
    },
  }
}

/** The field's name with hyphens before its parts. */
function keyOf(field: string): string {
  return field.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)
}

/** A key for each unit of mass: `bar-kg` and `bar-lb`. */
function inBothUnits<F extends keyof Settings>(
  field: F,
  description: string,
  words: (unit: MassUnit) => Words<Settings[F]>,
): SettingKey[] {
  return (['kg', 'lb'] as const).map((unit) =>
    setting(field, `${description}, in ${unit}`, words(unit), `${keyOf(field)}-${unit}`),
  )
}

const onOff: Words<boolean> = {
  write: 'on or off',
  print: (isOn) => (isOn ? 'on' : 'off'),
  read: (text) => (/^(on|off)$/i.test(text) ? text.toLowerCase() === 'on' : undefined),
}

/** One of a few words. */
function oneOf<T extends string>(choices: readonly T[]): Words<T> {
  return {
    write: inSentence(choices, 'or'),
    print: String,
    read: (text) => choices.find((choice) => choice === text.toLowerCase()),
  }
}

const exercises: Words<string[] | undefined> = {
  write: 'names of exercises with commas between them',
  print: (names) => (names ?? []).join(', '),
  read: (text) => namesIn(text.split(',')),
  none: { value: undefined },
}

/** A mass in one unit. @param usual an example */
function massOn(field: 'bar' | 'collar' | 'dumbbellStep', usual: Record<MassUnit, string>) {
  return (unit: MassUnit): Words<Settings['bar']> => ({
    write: `a mass in ${unit}, as in ${usual[unit]} ${unit}${field === 'collar' ? ', or none' : ''}`,
    print: (masses) => printMass({ value: masses[unit], unit }),
    read: (text, settings) => {
      // Neither a bar nor a step may be nothing.
      const value = /^0(\.0+)?( ?(kg|lb))?$|^none$/.test(text) ? 0 : massIn(text, unit)
      return value === undefined ? undefined : { ...settings[field], [unit]: value }
    },
  })
}

/** @param heaviest an example: the mass of the heaviest plate */
function plates(heaviest: Record<MassUnit, string>) {
  return (unit: MassUnit): Words<Settings['plates']> => ({
    write: `pairs and mass as in 4 x ${heaviest[unit]}, 2 x 2.5, each mass once, or none`,
    print: (owned) => owned[unit].map(({ pairs, mass }) => `${pairs} x ${printNumber(mass)}`).join(', '),
    read: (text, settings) => {
      const parts = text.toLowerCase() === 'none' ? [] : text.split(',')
      const owned = parts.flatMap((part) => {
        const [, pairs, amount = ''] = /^(\d{1,2})\s?[x×]\s?(.+)$/i.exec(part.trim()) ?? []
        const mass = massIn(amount, unit)
        return mass === undefined || Number(pairs) < 1 ? [] : [{ mass, pairs: Number(pairs) }]
      })
      if (new Set(owned.map(({ mass }) => mass)).size < parts.length) return undefined
      return { ...settings.plates, [unit]: owned.sort((a, b) => b.mass - a.mass) }
    },
  })
}

const bodyMasses: Words<Settings['bodyMasses']> = {
  write: 'a mass from 20 to 400 kg, for today or with its date: 68 kg on 2026-11-26',
  print: (masses) => masses.map((mass) => `${printMass(mass)} on ${mass.date}`).join(', '),
  read: (text, settings, today) => {
    const parts = text.replace(/^(\d+),(?=\d)/, '$1.').split(',')
    const masses = parts.flatMap((part) => {
      const [, amount = '', date = today] = /^(.+?)(?: on (\S+))?$/.exec(part.trim()) ?? []
      const mass = readMass(amount, settings.units.mass)
      const isValid = mass !== null && kilogramsOf(mass) >= 20 && kilogramsOf(mass) <= 400
      return isValid && isCalendarDate(date) ? [{ date, ...mass }] : []
    })
    return masses.length < parts.length ? undefined : inOrderOfDates([...settings.bodyMasses, ...masses])
  },
  none: { value: [] },
}

/** Every setting, in the order in which they are shown. */
export const settingKeys: readonly SettingKey[] = [
  setting('units', 'units of figures, and of days that name no units', {
    write: 'km or mi, kg or lb, or one of each',
    print: ({ distance, mass }) => `${distance} ${mass}`,
    read: (text, { units }) => {
      const asked = readUnits(text)
      return asked
        ? { distance: asked.distance ?? units.distance, mass: asked.mass ?? units.mass }
        : undefined
    },
  }),
  setting('bodyMasses', 'your body mass, with the date from which it counts', bodyMasses, 'body-mass'),
  ...inBothUnits('bar', 'your bar', massOn('bar', { kg: '20', lb: '45' })),
  ...inBothUnits('collar', 'mass of one collar on your bar', massOn('collar', { kg: '2.5', lb: '5' })),
  ...inBothUnits('plates', 'the pairs of plates you have: pairs x mass', plates({ kg: '25', lb: '45' })),
  ...inBothUnits(
    'dumbbellStep',
    'the step from one of your dumbbells to the next, and of machines',
    massOn('dumbbellStep', { kg: '2', lb: '5' }),
  ),
  setting('onBar', 'exercises whose plates are shown although their names do not say bar', exercises),
  setting('offBar', 'exercises whose plates are not shown', exercises),
  setting(
    'formula',
    'for estimated maxima: the median of the seven equations, or one of them',
    oneOf(formulaNames),
  ),
  setting('hrMax', 'your highest heart rate; running at 88 % of it or more counts as hard', {
    write: 'beats a minute from 100 to 240',
    print: (beats) => String(beats ?? ''),
    read: (text) => (/^\d{3}$/.test(text) ? Number(text) : undefined),
    none: { value: null },
  }),
  setting('bell', "the sound of the clock: the terminal's bell, nothing, or a command", {
    write: 'on, off, or a command and its arguments as JSON: ["play", "bell.oga"]',
    print: (bell) => (typeof bell === 'string' ? bell : JSON.stringify(bell)),
    read: (text) => {
      const word = text.toLowerCase()
      return word === 'on' || word === 'off' ? word : commandIn(text)
    },
  }),
  setting('secondsPerRepetition', 'seconds for each repetition of a set that the clock paces', {
    write: 'seconds from 0.5 to 60, as in 4',
    print: printNumber,
    read: (text) => (/^\d{1,3}(\.\d{1,3})?( ?s)?$/.test(text) ? Number.parseFloat(text) : undefined),
  }),
  setting('advice', 'shows a line of advice in the recorder', onOff),
  setting('clock', 'whether the clock has large digits or is plain text', oneOf(['blocks', 'plain'])),
  setting('characters', 'what bars, digits and borders are drawn with', oneOf(['auto', 'unicode', 'ascii'])),
  setting('screenReader', 'prints lines for a screen reader instead of drawing screens', onOff),
  setting('notifications', 'shows a desktop notification when a rest is over', onOff),
  setting('rotation', 'the kinds of day you rotate through', {
    write: 'words with commas between them, as in legs, push, pull',
    print: (days) => days.join(', '),
    read: (text) => namesIn(text.split(/,| \/ /)),
    none: { value: [] },
  }),
  setting('syncRemote', 'the git repository through which sync exchanges the logbook', {
    write: 'an address that git knows',
    print: (address) => address ?? '',
    // git would take a leading hyphen for an option, and a path as seen from the logbook.
    read: (text) =>
      text.startsWith('-') ? undefined : namesIn([existsSync(text) ? resolve(text) : text])?.[0],
    none: { value: null },
  }),
  setting('firstStartSeen', 'whether the welcome page has been read', onOff),
]

/** @throws LogbookError `bad_setting` */
export function settingKeyOf(name: string): SettingKey {
  const found = settingKeys.find((setting) => setting.key === name)
  if (found !== undefined) return found
  const keys = inSentence(
    settingKeys.map((setting) => setting.key),
    'or',
  )
  throw new LogbookError('bad_setting', `There is no setting "${clipped(name, 60)}". Write ${keys}.`)
}

/** @throws LogbookError `bad_setting`; never changes the settings it was given */
export function settingsWith(settings: Settings, key: string, text: string, today: string): Settings {
  const setting = settingKeyOf(key)
  const changed = setting.read(text.trim(), settings, today)
  if (changed !== undefined) return changed
  throw new LogbookError('bad_setting', `Invalid ${key} "${clipped(text, 60)}". Write ${setting.write}.`)
}

/** A mass in this unit; undefined for anything else. */
function massIn(text: string, unit: MassUnit): number | undefined {
  const mass = readMass(text, unit)
  return mass === null || mass.unit !== unit ? undefined : mass.value
}

/** Undefined if one is empty. */
function namesIn(texts: readonly string[]): string[] | undefined {
  const names = texts.map((text) => text.trim())
  return names.some((name) => name === '' || isUnsafe(name)) ? undefined : names
}

/** A program and its arguments, as JSON. */
function commandIn(text: string): string[] | undefined {
  const value: unknown = ifKnown(() => JSON.parse(text))
  if (!Array.isArray(value) || !value[0]) return undefined
  return value.every((word) => typeof word === 'string' && !isUnsafe(word)) ? value : undefined
}
