import { atwaterKcal, isTotalOff } from '../../figures/fuel.ts'
import { printNumber } from '../../units/decimal.ts'
import type { FuelResult } from '../result.ts'
import { Cursor, type EntryText, type Parsed } from './lex.ts'

/* Parses what was eaten: `carbs 70 g, protein 18 g`, `70 g carbs`, `450 kcal`. */

type Nutrient = 'carbsG' | 'proteinG' | 'fatG'
type Eaten = Pick<FuelResult, Nutrient | 'kcal'>

const nutrients = new Map<string, Nutrient>([
  ...['carbs', 'carb', 'carbohydrate', 'carbohydrates'].map((word) => [word, 'carbsG'] as const),
  ...['protein', 'proteins'].map((word) => [word, 'proteinG'] as const),
  ...['fat', 'fats'].map((word) => [word, 'fatG'] as const),
])
const mostGrams = 1000
const mostKcal = 10000

/** The amounts; null for a text without any. An amount that was not typed is unknown. */
export function readFuel(text: EntryText): Parsed<FuelResult | null> {
  const cursor = new Cursor(text.body)
  const eaten: Eaten = { carbsG: null, proteinG: null, fatG: null, kcal: null }
  const set = (key: Nutrient | 'kcal', value: number, word: string) => {
    if (eaten[key] !== null) cursor.refuse(`${word} typed twice; type it once`)
    eaten[key] = value
  }
  for (let token = cursor.peek(); token !== null; token = cursor.peek()) {
    if (cursor.takeIf(',', '+')) continue
    const named = token.kind === 'word' ? nutrients.get(token.text) : undefined
    if (named !== undefined) cursor.take()
    const number = cursor.takeNumber()
    if (number === null) {
      cursor.refuse(unreadable(named === undefined ? token.text : (cursor.peek()?.text ?? token.text)))
      break
    }
    if (named === undefined && cursor.takeIf('kcal')) {
      set('kcal', number.value, 'kcal')
      continue
    }
    cursor.takeIf('g', 'grams')
    const nutrient = named === undefined ? cursor.take() : null
    const key = named ?? (nutrient?.kind === 'word' ? nutrients.get(nutrient.text) : undefined)
    if (key === undefined) {
      cursor.refuse(unreadable(number.text))
      break
    }
    set(key, number.value, named === undefined ? (nutrient?.text ?? '') : token.text)
  }
  const amounts = Object.values(eaten).filter((amount) => amount !== null)
  if (amounts.length === 0) return cursor.parsed(null)
  question(eaten, cursor)
  return cursor.parsed({ ...eaten, note: text.note, pain: text.pain })
}

/** `75 g carbs, 20 g protein`: the amounts as typed, in a fixed order. */
export function printFuel(eaten: Eaten): string {
  const grams = (word: string, value: number | null) =>
    value === null ? [] : [`${word} ${printNumber(value)} g`]
  return [
    ...grams('carbs', eaten.carbsG),
    ...grams('protein', eaten.proteinG),
    ...grams('fat', eaten.fatG),
    ...(eaten.kcal === null ? [] : [`${printNumber(eaten.kcal)} kcal`]),
  ].join(', ')
}

function question(eaten: Eaten, cursor: Cursor): void {
  for (const [key, word] of [
    ['carbsG', 'carbs'],
    ['proteinG', 'protein'],
    ['fatG', 'fat'],
  ] as const) {
    const grams = eaten[key] ?? 0
    if (grams > mostGrams) cursor.query(`${printNumber(grams)} g of ${word} are over ${mostGrams} g`)
  }
  if ((eaten.kcal ?? 0) > mostKcal) {
    cursor.query(`${printNumber(eaten.kcal ?? 0)} kcal are over ${mostKcal} kcal`)
  } else if (isTotalOff(eaten)) {
    const sum = Math.round(atwaterKcal(eaten) ?? 0)
    cursor.query(
      `${printNumber(eaten.kcal ?? 0)} kcal typed, and the grams come to ${sum} kcal`,
      printFuel({ ...eaten, kcal: null }),
    )
  }
}

function unreadable(text: string): string {
  return `"${text}" is not understood; food is typed carbs 70 g, protein 18 g, fat 10 g, or 450 kcal`
}
