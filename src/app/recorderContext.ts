import type { Equipment } from '../figures/bar.ts'
import { bodyMassOn, type Settings } from '../logbook/settings.ts'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { warmUpWith } from '../prescription/warmUp.ts'
import type { RecorderContext } from '../recorder/model.ts'
import { kilogramsOf, massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/** What is known from other days: the last time on a line, the best before, maxima for loads by percent. */
export interface EarlierDays {
  lastTime: RecorderContext['lastTime']
  bestBefore: RecorderContext['bestBefore']
  maxima: { name: string; kg: number; basis: string }[]
}

/** The bar of the day, where its header names one, else of the settings; the collars and plates of the settings. */
export function equipmentWith(settings: Settings): (unit: MassUnit, prescription: Prescription) => Equipment {
  return (unit, prescription) => ({
    bar: prescription.bar ? massIn(prescription.bar, unit) : settings.bar[unit],
    collar: settings.collar[unit],
    plates: settings.plates[unit],
  })
}

export function recorderContextOf(settings: Settings, earlier: EarlierDays): RecorderContext {
  const equipmentOf = equipmentWith(settings)
  return {
    equipmentOf,
    rampOf: warmUpWith(equipmentOf, earlier.maxima),
    secondsPerRep: settings.secondsPerRepetition,
    advice: settings.advice,
    lastTime: earlier.lastTime,
    bestBefore: earlier.bestBefore,
  }
}

/** What a prescription leaves open: the units where it names none, and maxima of earlier days. */
export function readingDefaultsOf(settings: Settings, earlier: EarlierDays): ReadingDefaults {
  return { units: settings.units, maxima: earlier.maxima }
}

/** Body mass on a day, in kilograms: the file's, else the newest in the settings; null when none is known. */
export function bodyMassKgOn(date: string, prescription: Prescription, settings: Settings): number | null {
  if (prescription.athlete) return kilogramsOf(prescription.athlete)
  const known = bodyMassOn(settings, date)
  return known ? kilogramsOf(known) : null
}
