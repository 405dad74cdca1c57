import { carbsAfterAnHour, carbsBefore, proteinOfMeal } from '../figures/fuel.ts'
import { roundTo } from '../units/decimal.ts'
import { joined } from '../units/lists.ts'
import type { SummaryView } from './summarise.ts'

/* What was eaten, in words. */

/** `before: carbs 70 g, protein 18 g`, `between: gel, amounts not known` for the meals that were recorded. */
export function fuelPhrases({ summary, meals, full }: SummaryView): string[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const eaten = summary.fuel[when]
    if (eaten === null) return []
    const { carbsG, proteinG, fatG, kcal, atwaterKcal } = eaten
    const amounts = joined(', ', [
      carbsG !== null && `carbs ${rounded(carbsG)} g`,
      proteinG !== null && `protein ${rounded(proteinG)} g`,
      fatG !== null && `fat ${rounded(fatG)} g`,
      kcal !== null && `${rounded(kcal)} kcal`,
      full && atwaterKcal !== null && `${rounded(atwaterKcal)} kcal by its grams`,
    ])
    const names = meals.flatMap((meal) => (meal.when === when ? (meal.name ?? []) : []))
    const isAllKnown = amounts !== '' && names.length === 0
    const unknown = !isAllKnown && `${names.join(', ') || 'eaten'}, amounts not known`
    return [`${when}: ${joined('; ', [amounts, unknown])}`]
  })
}

/** A figure with at most one decimal. */
export function rounded(value: number): string {
  return String(roundTo(value, 1))
}

/** General ranges next to what was eaten, only in the full summary: they are for healthy adults, and a dietitian's
 * advice takes precedence. Empty without a body mass. */
export function fuelRangePhrases(view: SummaryView): string[] {
  const { bodyKg, summary, state } = view
  const meals = Object.values(summary.fuel).filter((meal) => meal !== null)
  if (bodyKg === null || (meals.length === 0 && !state.steps.some((step) => step.kind === 'fuel'))) return []
  const { byMass, usual } = proteinOfMeal(bodyKg)
  return [
    ...carbsPhrase(bodyKg, view),
    ...carbsAfterPhrase(bodyKg, view),
    `protein of a meal: ${grams(byMass)} by body mass, ${usual.from} to ${usual.to} g is usual`,
    "ranges for healthy adults; a dietitian's word takes precedence",
  ]
}

function carbsPhrase(bodyKg: number, view: SummaryView): string[] {
  const seconds = secondsBefore(view)
  const eaten = view.summary.fuel.before?.carbsG ?? null
  if (seconds === null || eaten === null) return []
  if (seconds < 3600) return [`carbs less than an hour before: small, what sits well; ${grams(eaten)} eaten`]
  const carbs = carbsBefore(bodyKg, seconds, (view.summary.session.minutes ?? 0) * 60)
  if (carbs === null) return []
  const hours = roundTo(seconds / 3600, 1)
  return [
    `carbs ${hours} h before more than an hour's work: about ${grams(carbs)} (1 g a kg for each hour ahead), ${grams(eaten)} eaten`,
  ]
}

/** Only if the next hard session is, or may be, at most 8 hours away. */
function carbsAfterPhrase(bodyKg: number, { context }: SummaryView): string[] {
  const known = context.secondsToNextHard?.() ?? null
  const seconds = known ?? (context.isHardLater ? 0 : null)
  const range = seconds === null ? null : carbsAfterAnHour(bodyKg, seconds)
  if (range === null) return []
  const when =
    known === null
      ? 'if the hard day planned for today begins within 8 h'
      : `the next hard session is ${roundTo(known / 3600, 1)} h away`
  return [`carbs after: ${Math.round(range.from)} to ${grams(range.to)} an hour for 4 h, ${when}`]
}

/** How long before the session the first meal was planned; null if the prescription does not say. */
function secondsBefore({ state }: SummaryView): number | null {
  const step = state.steps.find((each) => each.kind === 'fuel' && each.fuel.when === 'before')
  return step?.kind === 'fuel' ? step.fuel.seconds : null
}

function grams(value: number): string {
  return `${Math.round(value)} g`
}
