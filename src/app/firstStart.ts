import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { attempt } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { changeSettings } from '../logbook/settings.ts'
import type { Shown } from '../ui/screens/App.tsx'
import { readMass } from '../units/mass.ts'
import { cautions } from './cautions.ts'

/** The first start: stores what is typed in the settings, and is not shown again. */
export function firstStart(logbook: string, ring: () => void, done: () => void): Shown {
  const isMiles = (typed: string) => /\bmi\b/i.test(typed)
  return {
    screen: 'firstStart',
    given: {
      words: welcomeText,
      ring,
      takeUnits: (typed) => {
        const text = typed.trim().toLowerCase()
        if (!/^((km|mi)?\s*(kg|lb)?)$/.test(text))
          return `units are km or mi, and kg or lb; "${text}" is neither`
        if (text === '') return null
        const units = {
          distance: isMiles(text) ? ('mi' as const) : ('km' as const),
          mass: /lb/.test(text) || (isMiles(text) && !/kg/.test(text)) ? ('lb' as const) : ('kg' as const),
        }
        return attempt(() => changeSettings(logbook, (settings) => ({ ...settings, units })))
      },
      takeBodyMass: (typed) => {
        if (typed.trim() === '') return null
        const mass = readMass(typed.trim(), 'kg')
        if (!mass || mass.value < 20 || mass.value > 700) return 'a body mass is written 68 kg, or 150 lb'
        const date = todayOf(new Date())
        return attempt(() =>
          changeSettings(logbook, (settings) => ({
            ...settings,
            bodyMasses: [...settings.bodyMasses.filter((each) => each.date !== date), { date, ...mass }],
          })),
        )
      },
      done: () => {
        attempt(() => changeSettings(logbook, (settings) => ({ ...settings, firstStartSeen: true })))
        done()
      },
    },
  }
}

export const welcomeText = [
  'Pausebook walks you through the day on your whiteboard, keeps the rests, takes down what you did, and says what it was worth.',
  'Space moves on, Enter records, ? shows all keys.',
  cautions.replace(/\n/g, ' ').trim(),
]

/** The folder of the sample days that comes with the program; null if missing. */
export function samplesFolder(): string | null {
  let folder = dirname(fileURLToPath(import.meta.url))
  for (;;) {
    const samples = join(folder, 'sample-sessions')
    if (existsSync(samples)) return samples
    const above = dirname(folder)
    if (above === folder) return null
    folder = above
  }
}
