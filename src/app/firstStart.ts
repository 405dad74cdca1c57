import { formatDate } from 'date-fns/format'
import { changeSettings } from '../logbook/settingsFile.ts'
import type { Shown } from '../screens/App.tsx'
import { readMass } from '../units/mass.ts'
import { firstWords } from './firstWords.ts'
import { tried } from './tried.ts'

/** The first start: what is typed goes into the settings, and it is not shown again. */
export function firstStart(logbook: string, ring: () => void, done: () => void): Shown {
  const isMiles = (typed: string) => /\bmi\b/i.test(typed)
  return {
    screen: 'firstStart',
    given: {
      words: firstWords,
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
        return tried(() => changeSettings(logbook, (settings) => ({ ...settings, units })))
      },
      takeBodyMass: (typed) => {
        if (typed.trim() === '') return null
        const mass = readMass(typed.trim(), 'kg')
        if (!mass || mass.value < 20 || mass.value > 700) return 'a body mass is written 68 kg, or 150 lb'
        const date = formatDate(new Date(), 'yyyy-MM-dd')
        return tried(() =>
          changeSettings(logbook, (settings) => ({
            ...settings,
            bodyMasses: [...settings.bodyMasses.filter((each) => each.date !== date), { date, ...mass }],
          })),
        )
      },
      done: () => {
        tried(() => changeSettings(logbook, (settings) => ({ ...settings, firstStartSeen: true })))
        done()
      },
    },
  }
}
