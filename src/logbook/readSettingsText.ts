import { issueOf } from './issueWords.ts'
import { readObject } from './jsonObject.ts'
import { printableValueOf } from './printable.ts'
import { defaultSettings, isLoadable, Settings, settingsFormat } from './settings.ts'

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
  // One reading is not worth compiling the schema for.
  const whole = Settings.safeParse({ ...defaultSettings, ...values }, { jitless: true })
  if (whole.success) return loadable(inOrder(whole.data))
  const good: Record<string, unknown> = { ...defaultSettings }
  for (const [key, schema] of Object.entries(Settings.shape)) {
    const value = schema.safeParse(values[key])
    if (value.success) good[key] = value.data
  }
  return {
    settings: loadable(inOrder(Settings.parse(good))).settings,
    wrong: issueOf(whole.error.issues[0], values),
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
