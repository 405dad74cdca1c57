import { parse } from 'node:path'
import { warmUpFor } from '../app/earlierDays.ts'
import { readDayAt } from '../app/ownTexts.ts'
import type { Logbook, SessionStart } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { type DayMeant, meantByWords } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { legsOf, plannedDay } from '../progress/week.ts'

/** What the words of a day of the plan mean: by the day file named after a word, else by the word itself. This
 * program's own rule. */
export function meantWith(
  logbook: Logbook,
  settings: Settings,
  maxima: SessionStart['maxima'],
): (words: readonly string[]) => DayMeant {
  const warmUpOf = warmUpFor(settings, maxima)
  const files = new Map(
    logbook.prescriptions().map(({ name, path }) => [parse(name).name.toLowerCase(), path]),
  )
  const meantBy = (word: string): DayMeant => {
    const path = files.get(word.toLowerCase())
    const prescription = path === undefined ? null : dayAt(path, { units: settings.units, maxima })
    if (prescription === null) return meantByWords([word])
    const day = plannedDay(prescription, warmUpOf, maxima)
    return { isHard: day.isHard, ...legsOf(day) }
  }
  return (words) => {
    const all = words.map(meantBy)
    return {
      isHard: all.some(({ isHard }) => isHard),
      isHeavyLegs: all.some(({ isHeavyLegs }) => isHeavyLegs),
      isLong: all.some(({ isLong }) => isLong),
    }
  }
}

/** Null for a file with problems or one that cannot be read. */
export function dayAt(path: string, defaults: ReadingDefaults): Prescription | null {
  const reading = readDayAt(path, defaults)
  return 'prescription' in reading ? reading.prescription : null
}
