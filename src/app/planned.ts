import { planIn } from '../logbook/ownTexts.ts'
import { placeInPlan, wordsOn } from '../plan/model.ts'
import { plainOf } from '../summary/plain.ts'

/** `Thursday of week 3 of 19, 115 days to 10 km in 39:30: tempo + legs`; null if the plan does not mention the day.
 * @param date local, YYYY-MM-DD */
export function plannedText(logbook: string, date: string): string | null {
  const plan = planIn(logbook)
  if (plan === null) return null
  const bits = [placeInPlan(plan, date), wordsOn(plan, date).join(' + ')].filter((bit) => bit)
  return bits.length === 0 ? null : plainOf(bits.join(': '))
}

/** The words of a day, in lower case: a day file with one of these names is that day's. */
export function plannedWords(logbook: string, date: string): ReadonlySet<string> {
  const plan = planIn(logbook)
  return new Set(plan === null ? [] : wordsOn(plan, date).map((word) => word.toLowerCase()))
}
