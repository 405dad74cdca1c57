import { sum } from 'd3-array'
import { atwaterKcal, isTotalOff } from '../../figures/fuel.ts'
import { type Diagnostic, errorIn, linesOfText } from '../../prescription/lines.ts'
import { printFood } from '../../prescription/print.ts'
import { printNumber, roundTo } from '../../units/decimal.ts'
import { joined } from '../../units/lists.ts'
import type { FuelResult } from '../model.ts'
import type { Answer, FuelPrompt } from '../prompt.ts'
import { Cursor, entryTextOf, number, type Parsed, phrase } from './lex.ts'

/* Parses what was eaten, `carbs 70 g, protein 18 g`, `70 g carbs`, `450 kcal`, and what a food contains,
 * `27 C 1.3 P 0.4 F`. */

/** Grams, kilocalories and milligrams; null for whatever is not known. */
type Contents = Omit<FuelResult, 'note' | 'pain'> & { caffeineMg: number | null }

const noAmounts = { carbsG: null, proteinG: null, fatG: null, kcal: null }
const unknown: Contents = { ...noAmounts, caffeineMg: null }
export const unknownMeal: FuelResult = { ...noAmounts, note: null, pain: null }

const nutrient = 'carbs?|carbohydrates?|c|proteins?|p|fats?|f'
/** `70 g of carbs`, `carbs 70 g`, `27 C`, `450 kcal`. */
const amount = phrase(
  `(${nutrient}) (${number}) (?:g |grams )?|(${number}) (?:(?:g|grams) )?(?:of )?(${nutrient}|kcal) `,
)
/** `caffeine 100 mg`, `100 mg of caffeine`. */
const caffeine = phrase(`(caffeine) (${number}) (?:mg )?|(${number}) (?:mg )?(?:of )?(caffeine) `)
const plus = phrase('\\+ ')
const keys = { c: 'carbsG', p: 'proteinG', f: 'fatG', k: 'kcal' } as const

/** Takes one amount; null if the next words are not one. */
function takeAmount(cursor: Cursor): { key: keyof Contents; word: string; value: number } | null {
  const food = cursor.take(amount)
  const typed = food ?? cursor.take(caffeine)
  if (typed === null) return null
  const [first, before, after, last] = typed.parts
  const word = first ?? last ?? ''
  const key = food === null ? 'caffeineMg' : keys[word.charAt(0) as keyof typeof keys]
  return { key, word, value: Number(before ?? after) }
}

/** Takes all amounts; refuses anything else.
 * @param example how they are typed */
function takeContents(cursor: Cursor, example: string): Contents {
  const contents = { ...unknown }
  while (cursor.goOn()) {
    if (cursor.take(plus) !== null) continue
    const typed = takeAmount(cursor)
    if (typed === null) cursor.refuseToken(example)
    else if (contents[typed.key] !== null) cursor.refuse(`${typed.word} typed twice; type it once`)
    else contents[typed.key] = typed.value
  }
  return contents
}

function isUnknown(contents: Contents): boolean {
  return Object.values(contents).every((value) => value === null)
}

/** More than this in one meal is probably a slip. */
const limits = [
  ['carbsG', 'g of carbs', 1000],
  ['proteinG', 'g of protein', 1000],
  ['fatG', 'g of fat', 1000],
  ['kcal', 'kcal', 10000],
] as const

/** What was eaten: without an amount as prescribed. No figure uses caffeine, so it is kept in words. */
export function parseMeal(cursor: Cursor, { prescribed, before }: FuelPrompt): Parsed<Answer> {
  const contents = takeContents(cursor, 'food is typed carbs 70 g, protein 18 g, fat 10 g, or 450 kcal')
  const { caffeineMg, ...eaten } = contents
  const earlier = cursor.isAsPrescribed ? undefined : before
  for (const [key, words, most] of limits) {
    if ((eaten[key] ?? 0) > most) cursor.query(`${printNumber(eaten[key] ?? 0)} ${words} in one meal?`)
    eaten[key] ??= earlier?.[key] ?? null
  }
  if (isTotalOff(eaten)) {
    const total = Math.round(atwaterKcal(eaten) ?? 0)
    cursor.query(`${printNumber(eaten.kcal ?? 0)} kcal typed, and the grams come to ${total} kcal`)
  }
  const note = joined('; ', [caffeineText(caffeineMg), cursor.remarks.note]) || null
  const isPrescribed = isUnknown(contents) && !earlier
  const result = { ...(isPrescribed ? prescribed : eaten), ...cursor.remarks, note }
  return cursor.parsed({ kind: 'fuel', result })
}

function caffeineText(mg: number | null): string | null {
  return mg === null ? null : `caffeine ${printNumber(mg)} mg`
}

/* The list of foods, `foods.txt`, and what was eaten of them. */

/** A food as the athlete wrote it down. */
export interface Food extends Contents {
  name: string
  /** The weight or volume of one; null if the line gives none. */
  amount: { value: number; unit: 'g' | 'ml' } | null
}

/** Plain foods for a logbook without a `foods.txt`, rounded to a tenth. Values: USDA National Nutrient Database for
 * Standard Reference, Release 26 (2013), public domain. */
export const plainFoods = `# Plain foods. Values: USDA National Nutrient Database for Standard Reference 26, public domain.
banana 118 g: 27 C 1.3 P 0.4 F
apple 182 g: 25.1 C 0.5 P 0.3 F
egg 50 g: 0.4 C 6.3 P 4.8 F
oats 100 g: 67.7 C 13.2 P 6.5 F
rice, cooked 100 g: 28.2 C 2.7 P 0.3 F
spaghetti, cooked 100 g: 30.9 C 5.8 P 0.9 F
potato, boiled 100 g: 20 C 1.7 P 0.1 F
milk 100 g: 4.8 C 3.2 P 3.3 F
chicken breast 100 g: 0 C 31 P 3.6 F
olive oil 100 g: 0 C 0 P 100 F
honey 21 g: 17.3 C 0.1 P 0 F
sugar 100 g: 100 C 0 P 0 F
coffee 237 g: 0 C 0.3 P 0 F 95 mg caffeine
`

const example = 'Example: banana 118 g: 27 C 1.3 P 0.4 F'

/** Reads `foods.txt`, one food a line: its name, the weight of one if that is known, and its grams of carbohydrate (C),
 * protein (P) and fat (F), kcal, caffeine in mg. A line with a problem does not stop the others from being read. */
export function readFoods(input: Uint8Array | string): { foods: Food[]; problems: Diagnostic[] } {
  const foods: Food[] = []
  const problems: Diagnostic[] = []
  for (const line of linesOfText(input, 'list of foods', problems)) {
    const food = foodOf(line.written, foods)
    if (typeof food !== 'string') foods.push(food)
    else problems.push(errorIn(line, line.shown.search(/\S/), line.written.length, food))
  }
  return { foods, problems }
}

const foodLine = /^([^:]*?)(?:\s+(\d+(?:[.,]\d+)?)\s*(g|ml))?\s*:(.*)$/i

/** The food on a line, or what is wrong with it. */
function foodOf(text: string, foods: readonly Food[]): Food | string {
  const [all, called = '', weight = '0', unit = 'g', amounts = ''] = foodLine.exec(text) ?? []
  if (all === undefined) return `a food is a name, a colon and its grams. ${example}`
  const name = called.replace(/\s+/g, ' ')
  if (!/\p{L}/u.test(name)) return `Invalid food name "${name}". ${example}`
  if (foods.some((food) => keyOf(food.name) === keyOf(name))) return `two lines are for "${name}". Delete one`
  const cursor = new Cursor(entryTextOf(amounts))
  const contents = takeContents(cursor, 'write the amounts as 27 C 1.3 P 0.4 F')
  const [wrong] = cursor.parsed(contents).queries
  if (wrong !== undefined) return wrong.message
  if (isUnknown(contents)) return `there are no grams after the colon. ${example}`
  const value = Number(weight.replace(',', '.'))
  const grams = (contents.carbsG ?? 0) + (contents.proteinG ?? 0) + (contents.fatG ?? 0)
  if (value > 0 && unit.toLowerCase() === 'g' && grams > value * 1.01 + 0.5)
    return `that makes ${roundTo(grams, 1)} g in ${printNumber(value)} g of food. Check the numbers`
  const amount = { value, unit: unit.toLowerCase() as 'g' | 'ml' }
  return { name, amount: value > 0 ? amount : null, ...contents }
}

/** What was eaten, added up. */
interface FoodSum {
  /** As typed: `carbs 81.6 g, protein 24.4 g, fat 15.2 g, caffeine 95 mg`; empty if no food is known. */
  text: string
  /** What is not on the list of foods. */
  unknown: string[]
}

/** Adds up `2 eggs, 80 g oats, carbs 30 g`. Null if no food is named. */
export function sumOfFoods(text: string, foods: readonly Food[]): FoodSum | null {
  if (/\bkcal\b|"/i.test(text)) return null
  const pieces = text
    .split(/[,+]/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '')
  const eaten = pieces.map((piece) => ({ piece, portion: portionOf(piece, foods) ?? amountOf(piece) }))
  const known = eaten.flatMap(({ portion }) => (portion === null ? [] : [portion]))
  if (known.every(({ food }) => food.name === '')) return null
  const total = (key: keyof Contents) => {
    const values = known.flatMap(({ food, times }) => (food[key] === null ? [] : [food[key] * times]))
    return values.length === 0 ? null : roundTo(sum(values), 1)
  }
  const kcal = known.every(({ food }) => food.kcal !== null) ? total('kcal') : null
  const grams = { carbsG: total('carbsG'), proteinG: total('proteinG'), fatG: total('fatG') }
  return {
    text: joined(', ', [printFood({ ...grams, kcal }), caffeineText(total('caffeineMg'))]),
    unknown: eaten.flatMap(({ piece, portion }) => (portion === null ? [piece] : [])),
  }
}

interface Portion {
  /** Its name is empty for an amount that was typed. */
  food: Food
  times: number
}

/** `carbs 30 g`, `20 g protein`, `caffeine 100 mg`. */
function amountOf(piece: string): Portion | null {
  const cursor = new Cursor(entryTextOf(piece))
  const typed = takeAmount(cursor)
  if (typed === null || cursor.goOn()) return null
  return { food: { name: '', amount: null, ...unknown, [typed.key]: typed.value }, times: 1 }
}

/** `2 eggs`, `egg`, `80 g oats`, `oats 80 g`, `2 x milk 100 ml`. */
function portionOf(piece: string, foods: readonly Food[]): Portion | null {
  const parts = /^(?:(\d+(?:\.\d+)?)\s*(g|ml|x)?\s+)?(\D.*?)(?:\s+(\d+(?:\.\d+)?)\s*(g|ml))?$/i.exec(piece)
  if (parts === null) return null
  const [, count, countUnit, name = '', weight, weightUnit] = parts
  const food = foods.find((each) => keyOf(each.name) === keyOf(name))
  if (food === undefined) return null
  const isTimes = countUnit?.toLowerCase() === 'x'
  const [of, unit] = countUnit === undefined || isTimes ? [weight, weightUnit] : [count, countUnit]
  if (unit === undefined) return { food, times: Number(count ?? 1) }
  if (food.amount?.unit !== unit.toLowerCase()) return null
  return { food, times: ((isTimes ? Number(count) : 1) * Number(of)) / food.amount.value }
}

/** A key that ignores case, spacing and a plural ending. */
function keyOf(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[\s,_-]+/g, ' ')
    .trim()
  return plain.replace(/(?<=(?:o|ch|sh|x|ss))es$|(?<=[^s])s$/, '')
}

/** A meal by the grams of its foods, with the words kept as a note; as it was typed if it names none, or an unknown one. */
export function withFoodsSummed(meal: string, foods: readonly Food[]): string {
  const sum = sumOfFoods(meal, foods)
  return sum === null || sum.unknown.length > 0 || sum.text === '' ? meal : `${sum.text} "${meal}"`
}
