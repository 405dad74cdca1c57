import { faultsIn } from '../shapes/faults.ts'
import { faultText } from './faultText.ts'
import { settingsShape } from './generated/shapes.js'
import { readObject } from './jsonObject.ts'
import { printableValueOf } from './printable.ts'
import { defaultSettings, isLoadable, type Settings } from './settings.ts'
import { settingsFormat } from './settingsFormat.ts'

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
  const values = printableValueOf(read) as Record<string, unknown>
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
