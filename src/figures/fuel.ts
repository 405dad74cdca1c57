import { sum } from 'd3-array'
import { explanation, figure, known, noise, num } from './figure.ts'
import type { Range } from './splits.ts'

export interface Grams {
  carbsG: number | null
  proteinG: number | null
  fatG: number | null
}

const kcalInGram = { carbsG: 4, proteinG: 4, fatG: 9 } as const
const nutrients = ['carbsG', 'proteinG', 'fatG'] as const
/** The share by which a typed total may differ before it is questioned. This program's own rule. */
const offShare = 0.1

/** Energy of the known parts of a meal, in kcal: 4 per gram of carbohydrate, 4 of protein, 9 of fat; null if
 * nothing is known.
 * Source: Merrill and Watt 1955. */
export function atwaterKcal(meal: Grams): number | null {
  const known = nutrients.filter((nutrient) => meal[nutrient] !== null)
  if (known.length === 0) return null
  return sum(known, (nutrient) => (meal[nutrient] ?? 0) * kcalInGram[nutrient])
}

/** Whether a typed total differs by more than 10 % from the sum of its parts. If a part is unknown, reports only a
 * total that is too small.
 * Source: Merrill and Watt 1955; This program's own rule. */
export function isTotalOff(meal: Grams & { kcal: number | null }): boolean {
  const computed = atwaterKcal(meal)
  if (computed === null || meal.kcal === null) return false
  const off = meal.kcal - computed
  const complete = nutrients.every((nutrient) => meal[nutrient] !== null)
  return (complete ? Math.abs(off) : -off) > computed * offShare + noise
}

/** Energy of level running above rest, in kcal: 0.8 to 1.0 for each kg of body mass and each km. Not for a grade over
 * 1 %.
 * Source: Minetti 2002; Margaria 1963. */
export function runningKcal(bodyKg: number, meters: number): Range {
  const kgKm = bodyKg * (meters / 1000)
  return { from: 0.8 * kgKm, to: 1 * kgKm }
}

/** A range of energy for printing: each end rounded to 50 kcal.
 * Source: This program's own rule. */
export function printedKcal(range: Range): Range {
  const to50 = (kcal: number) => Math.round(kcal / 50) * 50
  return { from: to50(range.from), to: to50(range.to) }
}

/** The carbohydrate shown beside a meal before more than an hour's work, in grams: 1 per kg of body mass and hour
 * ahead, from 1 to 4 hours; null at any other time and for shorter work. The publication says 1 to 4 g/kg in 1 to 4 h.
 * Source: Thomas 2016; This program's own rule. */
export function carbsBefore(bodyKg: number, secondsBefore: number, workSeconds: number): number | null {
  const hours = secondsBefore / 3600
  return hours < 1 || hours > 4 || workSeconds <= 3600 ? null : bodyKg * hours
}

/** The carbohydrate range for the first 4 hours after a session, in grams an hour: 1.0 to 1.2 per kg of
 * body mass; null unless the next hard session is within 8 hours.
 * Source: Thomas 2016. */
export function carbsAfterAnHour(bodyKg: number, secondsToNext: number): Range | null {
  return secondsToNext > 8 * 3600 ? null : { from: bodyKg, to: 1.2 * bodyKg }
}

/** Protein of a meal, in grams: 0.25 per kg of body mass, and the usual range for any body mass.
 * Source: Jaeger 2017. */
export function proteinOfMeal(bodyKg: number): { byMass: number; usual: Range } {
  return { byMass: 0.25 * bodyKg, usual: { from: 20, to: 40 } }
}

const caution = "for anyone but healthy adults; a dietitian's word takes precedence."

/** A loss of more than this share of the body mass per week is called fast.
 * Source: Garthe 2011. */
export const fastLossShare = 0.007

/** Share of the body mass lost per week; below 0 for a gain.
 * @param kgPerWeek slope of the body mass, below 0 for a loss
 * Source: This program's own rule. */
export function lossShare(kgPerWeek: number, meanKg: number): number {
  return -kgPerWeek / meanKg
}

export const fuelFigures = {
  'meal-energy': figure<Grams>({
    title: 'Energy of what was eaten',
    aliases: ['atwater', 'kcal', 'calories', 'energy'],
    equation: ['energy = 4 x carbohydrate + 4 x protein + 9 x fat'],
    symbols: [
      ['energy', 'of what is known; a typed total more than 10 % off is questioned', 'kcal'],
      ['carbohydrate, protein, fat', 'as eaten', 'g'],
    ],
    sources: ['Merrill and Watt 1955', "This program's own rule"],
    holds: 'on the average over foods.',
    holdsNot: 'for single foods, whose own factors differ. Intake less expenditure is never printed.',
    example: { carbsG: 75, proteinG: 20, fatG: 10 },
    work: (meal) => [
      `4 x ${known(meal.carbsG, 'g')} + 4 x ${known(meal.proteinG, 'g')} + 9 x ${known(meal.fatG, 'g')}`,
      `= ${known(atwaterKcal(meal), 'kcal')}`,
    ],
  }),
  'running-energy': figure<{ bodyKg: number; meters: number }>({
    title: 'Energy of running, above rest',
    aliases: ['running-kcal', 'expenditure'],
    equation: ['energy = 0.8 to 1.0 x body mass x kilometres, each end printed to 50 kcal'],
    symbols: [
      ['energy', 'net, as a range', 'kcal'],
      [
        'body mass',
        "the file's athlete:, else the newest of the mornings and the settings up to that day",
        'kg',
      ],
    ],
    sources: ['Minetti 2002', 'Margaria 1963'],
    holds: 'on the level, whatever the speed.',
    holdsNot: 'with a grade over 1 %, in sand or wind, or where the body mass is not known.',
    example: { bodyKg: 68, meters: 13_600 },
    work: ({ bodyKg, meters }) => {
      const range = runningKcal(bodyKg, meters)
      const printed = printedKcal(range)
      return [
        `${num(bodyKg)} kg x ${num(meters / 1000, 3)} km x 0.8 to 1.0 = ${num(range.from)} to ${num(range.to)} kcal`,
        `printed ${printed.from} to ${printed.to} kcal`,
      ]
    },
  }),
  'fuel-ranges': explanation({
    title: 'Ranges shown beside what was eaten',
    aliases: ['carbs', 'protein', 'nutrition', 'fuel'],
    equation: [
      "carbohydrate before: 1 g a kg for each hour ahead, 1 to 4 h before more than an hour's work",
      'below one hour ahead: small, what sits well',
      'carbohydrate after: 1.0 to 1.2 g a kg and hour for 4 h, next hard session within 8 h',
      'protein: 0.25 g a kg, or 20 to 40 g, a meal',
    ],
    symbols: [['kg', 'of the body', 'kg']],
    sources: ['Thomas 2016', 'Jaeger 2017', "This program's own rule"],
    holds:
      'for healthy adults, in general; shown only when the item says how long before. 1 g for each hour is a reading of the 1 to 4 g a kg in 1 to 4 h of the source.',
    holdsNot: caution,
    example: () => {
      const after = carbsAfterAnHour(68, 7 * 3600)!
      const { byMass, usual } = proteinOfMeal(68)
      return [
        `2 h before 110 min: carbohydrate ${num(carbsBefore(68, 7200, 6600)!, 0)} g`,
        `7 h until the next session: carbohydrate ${num(after.from, 0)} to ${num(after.to, 0)} g an hour`,
        `protein ${num(byMass, 0)} g a meal (${usual.from} to ${usual.to} g for anyone)`,
      ]
    },
  }),
  'body-loss': explanation({
    title: 'Loss of body mass a week',
    aliases: ['body', 'body-mass', 'morning', 'weight-loss'],
    equation: ['loss = -b / m x 100'],
    symbols: [
      ['b', 'slope of the body mass over 28 days, by least squares', 'kg/week'],
      ['m', 'mean body mass of 28 days', 'kg'],
      ['loss', 'share of the body mass that is lost a week', '%'],
    ],
    sources: ['Least squares', 'Garthe 2011', "This program's own rule"],
    holds:
      'From four mornings on. A loss of more than 0.7 % a week is pointed out where the 95 % interval (t distribution) excludes a gain: at 0.7 % athletes who lifted gained lean mass, at 1.4 % they did not.',
    holdsNot:
      "It says nothing about whether to lose anything: a dietitian's word takes precedence. The windows (7 and 28 days) and what counts as a typing error in a morning (heart rates outside 25 to 130, body masses outside 25 to 300 kg, more than 18 h of sleep) are this program's own rules.",
    example: () => [`loss = 0.55 / 68 x 100 = ${num(lossShare(-0.55, 68) * 100)} % a week`],
  }),
}
