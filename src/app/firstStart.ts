import { attempt } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { changeSettings, readSettings } from '../logbook/settings.ts'
import { settingsWith } from '../logbook/settingsKeys.ts'
import { enterKey, signalKey } from '../ui/widgets/screenKeys.ts'
import { prose } from '../ui/widgets/wrapped.ts'
import { readUnits } from '../units/words.ts'
import { welcomeText } from './cautions.ts'
import type { Screens } from './screens.ts'

/** Shown once: the welcome, then the questions. Stores what is typed in the settings. */
export function firstStart({ logbook: { directory }, show, ring, leave }: Screens, done: () => void): void {
  const finish = () => {
    attempt(() => changeSettings(directory, (settings) => ({ ...settings, firstStartSeen: true })))
    done()
  }
  const askBodyMass = () =>
    show({
      kind: 'ask',
      label: 'body mass',
      words: () => 'Estimates for pull-ups and dips need your body mass.',
      hint: 'Type it with its unit; the morning (m on the first screen) takes later ones.',
      placeholder: `Enter: skip, or type ${readSettings(directory).settings.units.mass === 'lb' ? '150 lb' : '68 kg'}`,
      take: (typed) => takeBodyMass(directory, typed) ?? thenNext(finish),
      leave: { label: 'skip', act: finish },
    })
  const askUnits = () =>
    show({
      kind: 'ask',
      label: 'units',
      words: () => 'Days and results are read and shown in these units, unless a line has its own.',
      hint: 'Type km or mi, and kg or lb.',
      placeholder: 'Enter: km kg, or type mi lb',
      take: (typed) => takeUnits(directory, typed) ?? thenNext(askBodyMass),
      leave: { label: 'go on', act: askBodyMass },
    })
  show({
    kind: 'text',
    text: prose(welcomeText.join('\n')),
    keys: [enterKey('go on', 'goes on to two questions', askUnits), signalKey(() => ring('long'))],
    isReadFirst: true,
    leave: { label: 'quit', act: leave },
  })
}

/** Leads on, once an answer is stored: there is no message. */
function thenNext(lead: () => void): null {
  lead()
  return null
}

function takeUnits(logbook: string, typed: string): string | null {
  const asked = readUnits(typed)
  if (asked === null) return `units are km or mi, and kg or lb; "${typed.trim()}" is neither`
  const distance = asked.distance ?? 'km'
  const units = { distance, mass: asked.mass ?? (distance === 'mi' ? 'lb' : 'kg') }
  return attempt(() => changeSettings(logbook, (settings) => ({ ...settings, units })))
}

function takeBodyMass(logbook: string, typed: string): string | null {
  const today = todayOf(new Date())
  return attempt(() =>
    changeSettings(logbook, (settings) => settingsWith(settings, 'body-mass', typed, today)),
  )
}
