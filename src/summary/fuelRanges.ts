import { carbsBefore, proteinOfMeal } from '../figures/fuel.ts'
import type { SummaryView } from './view.ts'

/** General ranges beside what was eaten, only in the full summary: they are for healthy adults, and a dietitian's
 * word goes before them. Empty without a body mass. */
export function fuelRangePhrases(view: SummaryView): string[] {
  const { bodyKg, summary } = view
  if (bodyKg === null) return []
  const phrases: string[] = []
  const carbs = carbsBefore(bodyKg, secondsBefore(view) ?? 0, (summary.session.minutes ?? 0) * 60)
  if (carbs && summary.fuel.before?.carbsG != null)
    phrases.push(
      `carbs 1 to 4 h before more than an hour's work: ${grams(carbs.from)} to ${grams(carbs.to)} is the usual range, ${grams(summary.fuel.before.carbsG)} eaten`,
    )
  const { before, between, after } = summary.fuel
  if ([before, between, after].some((meal) => meal?.proteinG != null)) {
    const { byMass, usual } = proteinOfMeal(bodyKg)
    phrases.push(
      `protein of a meal: ${grams(byMass)} by body mass, ${usual.from} to ${grams(usual.to)} is usual`,
    )
  }
  if (phrases.length > 0) phrases.push("ranges for healthy adults; a dietitian's word goes before them")
  return phrases
}

/** How long before the first meal was to be eaten; null where the prescription does not say. */
function secondsBefore({ state }: SummaryView): number | null {
  const step = state.steps.find((each) => each.kind === 'fuel' && each.fuel.when === 'before')
  return step?.kind === 'fuel' ? step.fuel.seconds : null
}

function grams(value: number): string {
  return `${Math.round(value)} g`
}
