import { unlessRefused } from '../logbook/errors.ts'
import { planIn, readDayFile, readOwnText } from '../logbook/ownTexts.ts'
import { placeInPlan, wordsOn } from '../plan/model.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { Prescription } from '../prescription/model.ts'
import { type Reading, readPrescription } from '../prescription/read.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { type Food, plainFoods, readFoods } from '../session/entry/fuel.ts'
import { plainOf } from '../summary/plain.ts'
import { joined } from '../units/lists.ts'

/* What the athlete's own texts say: the days, the plan, the foods. */

/** Reads the day in a file; `refused` says why the file cannot be read. */
export function readDayAt(path: string, defaults: ReadingDefaults): Reading | { refused: string } {
  return unlessRefused(
    () => readPrescription(readDayFile(path), defaults),
    ({ message }) => ({ refused: message }),
  )
}

/** As `readDayAt`; else says in one line what is wrong, and how to see all of it. */
export function readDay(
  path: string,
  defaults: ReadingDefaults,
): { prescription: Prescription } | { message: string } {
  const reading = readDayAt(path, defaults)
  if ('refused' in reading) return { message: reading.refused }
  if ('prescription' in reading) return reading
  const [first, ...others] = reading.problems
  const more = others.length > 0 ? ` (and ${others.length} more; "pausebook check" shows all)` : ''
  return { message: first ? `line ${first.line}: ${first.message}${more}` : 'it is not a prescription' }
}

/** The athlete's foods, or the built-in ones without a `foods.txt`; none if it cannot be read.
 * @param onProblems called with the problems of the file; its other lines still count */
export function foodsIn(logbook: string, onProblems: (problems: Diagnostic[]) => void = () => {}): Food[] {
  const text = unlessRefused(
    () => readOwnText(logbook, 'foods.txt') ?? plainFoods,
    () => '',
  )
  const { foods, problems } = readFoods(text)
  if (problems.length > 0) onProblems(problems)
  return foods
}

/** `Thursday of week 3 of 19, 115 days to 10 km in 39:30: tempo + legs`; null if the plan does not mention the day.
 * @param date local, YYYY-MM-DD */
export function plannedText(logbook: string, date: string): string | null {
  const plan = planIn(logbook)
  if (plan === null) return null
  return plainOf(joined(': ', [placeInPlan(plan, date), wordsOn(plan, date).join(' + ')])) || null
}

/** The plan's words of a day: a day file with one of these names is that day's. */
export function plannedWords(logbook: string, date: string): readonly string[] {
  const plan = planIn(logbook)
  return plan === null ? [] : wordsOn(plan, date)
}
