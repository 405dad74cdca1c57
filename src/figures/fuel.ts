import { notNegative, positive } from './given.ts'

export interface Grams {
  carbsG: number | null
  proteinG: number | null
  fatG: number | null
}

const kcalInGram = { carbsG: 4, proteinG: 4, fatG: 9 } as const
const nutrients = ['carbsG', 'proteinG', 'fatG'] as const
/** So far off, a typed total is questioned. Invented. */
const offShare = 0.1
const noise = 1e-9

/** Energy of what is known of a meal, in kcal: 4 a gram of carbohydrate, 4 of protein, 9 of fat; null when
 * nothing is known.
 * @throws RangeError for grams below 0
 * Source: Merrill and Watt 1955. */
export function atwaterKcal(meal: Grams): number | null {
  const known = nutrients.filter((nutrient) => meal[nutrient] !== null)
  if (known.length === 0) return null
  return known.reduce(
    (sum, nutrient) => sum + notNegative(meal[nutrient] ?? 0, 'the grams') * kcalInGram[nutrient],
    0,
  )
}

/** Whether a typed total is more than 10 % off what its parts make. Where a part is not known only a total
 * that is too small can be told.
 * @throws RangeError for a total or grams below 0
 * Source: Merrill and Watt 1955; Invented. */
export function isTotalOff(meal: Grams & { kcal: number | null }): boolean {
  const computed = atwaterKcal(meal)
  if (computed === null || meal.kcal === null) return false
  const off = notNegative(meal.kcal, 'the energy') - computed
  const complete = nutrients.every((nutrient) => meal[nutrient] !== null)
  return (complete ? Math.abs(off) : -off) > computed * offShare + noise
}

export interface Bounds {
  from: number
  to: number
}

/** Energy of level running above rest, in kcal: 0.8 to 1.0 for each kg of the body and each km. Never for
 * running on a grade over 1 %.
 * @throws RangeError for a body mass that is not above 0 or a distance below 0
 * Source: Minetti 2002; Margaria 1963. */
export function runningKcal(bodyKg: number, meters: number): Bounds {
  const kgKm = positive(bodyKg, 'the body mass') * (notNegative(meters, 'the distance') / 1000)
  return { from: 0.8 * kgKm, to: 1 * kgKm }
}

/** A range of energy as it is printed: each end to the nearest 50 kcal.
 * Source: Invented. */
export function printedKcal(range: Bounds): Bounds {
  const to50 = (kcal: number) => Math.round(notNegative(kcal, 'the energy') / 50) * 50
  return { from: to50(range.from), to: to50(range.to) }
}

/** The carbohydrate range shown beside a meal before more than an hour's work, in grams: 1 to 4 for each kg
 * of the body, 1 to 4 hours before; null at any other time and for shorter work.
 * @throws RangeError for a body mass that is not above 0 or a time below 0
 * Source: Thomas 2016. */
export function carbsBefore(bodyKg: number, secondsBefore: number, workSeconds: number): Bounds | null {
  const hours = notNegative(secondsBefore, 'the time before') / 3600
  const kg = positive(bodyKg, 'the body mass')
  if (hours < 1 || hours > 4 || notNegative(workSeconds, 'the work') <= 3600) return null
  return { from: kg, to: 4 * kg }
}

/** The carbohydrate range for the first 4 hours after a session, in grams an hour: 1.0 to 1.2 for each kg of
 * the body; null unless the next session is within 8 hours.
 * @throws RangeError for a body mass that is not above 0 or a time below 0
 * Source: Thomas 2016. */
export function carbsAfterAnHour(bodyKg: number, secondsToNext: number): Bounds | null {
  const kg = positive(bodyKg, 'the body mass')
  if (notNegative(secondsToNext, 'the time to the next session') > 8 * 3600) return null
  return { from: kg, to: 1.2 * kg }
}

/** Protein of a meal, in grams: 0.25 for each kg of the body, and the usual range whatever the body.
 * @throws RangeError for a body mass that is not above 0
 * Source: Jaeger 2017. */
export function proteinOfMeal(bodyKg: number): { byMass: number; usual: Bounds } {
  return { byMass: 0.25 * positive(bodyKg, 'the body mass'), usual: { from: 20, to: 40 } }
}
