import { sum } from 'd3-array'
import { atwaterKcal, isTotalOff } from '../../figures/fuel.ts'
import { type Diagnostic, errorIn, linesOfText } from '../../prescription/lines.ts'
import { printFood } from '../../prescription/print.ts'
import { printNumber } from '../../units/decimal.ts'
import type { FuelResult } from '../model.ts'
import { Cursor, entryTextOf, number, type Parsed, phrase } from './lex.ts'

/* Parses what was eaten: `carbs 70 g, protein 18 g`, `70 g carbs`, `450 kcal`. */

/** The nutrients in the order in which they are written, and their words. */
const nutrients = { carbsG: 'carbs', proteinG: 'protein', fatG: 'fat' } as const
type Nutrient = keyof typeof nutrients
type Eaten = Pick<FuelResult, Nutrient | 'kcal'>

const mostGrams = 1000
const mostKcal = 10000

const nutrientWords = 'carbs?|carbohydrates?|proteins?|fats?'
/** `70 g of carbs`, `carbs 70 g`, `450 kcal`. */
const amount = phrase(
  `(${nutrientWords}) (${number}) (?:g |grams )?|(${number}) (?:(?:g|grams) )?(?:of )?(${nutrientWords}|kcal) `,
)
/** `caffeine 100 mg`, `100 mg of caffeine`. */
const caffeine = phrase(`caffeine (${number}) (?:mg )?|(${number}) (?:mg )?(?:of )?caffeine `)
const plus = phrase('\\+ ')

/** Takes the grams of a nutrient, or the kilocalories. */
function takeAmount(cursor: Cursor): { key: keyof Eaten; word: string; value: number } | null {
  const typed = cursor.take(amount)
  if (typed === null) return null
  const [first = '', before, after, last] = typed.parts
  const word = last ?? first
  const key = (Object.keys(nutrients) as Nutrient[]).find((each) =>
    word.startsWith(nutrients[each].slice(0, 3)),
  )
  return { key: key ?? 'kcal', word, value: Number(before ?? after) }
}

/** The amounts; null in an entry without any. An amount that was not typed is unknown. */
export function readFuel(cursor: Cursor): Parsed<{ eaten: Eaten | null }> {
  const eaten: Eaten = { carbsG: null, proteinG: null, fatG: null, kcal: null }
  while (cursor.goOn()) {
    if (cursor.take(plus) !== null) continue
    const typed = takeAmount(cursor)
    if (typed === null) cursor.refuseToken('food is typed carbs 70 g, protein 18 g, fat 10 g, or 450 kcal')
    else if (eaten[typed.key] !== null) cursor.refuse(`${typed.word} typed twice; type it once`)
    else eaten[typed.key] = typed.value
  }
  if (Object.values(eaten).every((value) => value === null)) return cursor.parsed({ eaten: null })
  question(eaten, cursor)
  return cursor.parsed({ eaten })
}

function question(eaten: Eaten, cursor: Cursor): void {
  for (const key of Object.keys(nutrients) as Nutrient[]) {
    const grams = eaten[key] ?? 0
    if (grams > mostGrams)
      cursor.query(`${printNumber(grams)} g of ${nutrients[key]} are over ${mostGrams} g`)
  }
  if ((eaten.kcal ?? 0) > mostKcal) {
    cursor.query(`${printNumber(eaten.kcal ?? 0)} kcal are over ${mostKcal} kcal`)
  } else if (isTotalOff(eaten)) {
    const sum = Math.round(atwaterKcal(eaten) ?? 0)
    cursor.query(`${printNumber(eaten.kcal ?? 0)} kcal typed, and the grams come to ${sum} kcal`)
  }
}

/* The list of foods, `foods.txt`, and what was eaten of them. */

/** A food as the athlete wrote it down; null for whatever the line does not give. */
export interface Food {
  name: string
  /** The weight or volume of one; null if the line gives none. */
  amount: { value: number; unit: 'g' | 'ml' } | null
  carbsG: number | null
  proteinG: number | null
  fatG: number | null
  kcal: number | null
  caffeineMg: number | null
}

/** Plain foods for a logbook without a `foods.txt`. Values: USDA FoodData Central (SR Legacy), public domain, from
 * memory, rounded to a tenth. */
export const plainFoods = `# Plain foods. Values: USDA FoodData Central, public domain, from memory.
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
coffee 240 g: 0 C 0.3 P 0 F 95 mg caffeine
`

const example = 'Example: banana 118 g: 27 C 1.3 P 0.4 F'
/** `27 C`, `1.3 P`, `95 mg caffeine`. */
const amounts = /(\d+(?:\.\d+)?)\s*(C|P|F|kcal|mg\s+caffeine)(?![\p{L}\d])/giu
const decimalComma = /(\d+),(\d+)(?=\s*(?:g|ml|C|P|F|kcal|mg)(?![\p{L}\d]))/iu
const mostAmount = 1000

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

type Contents = Pick<Food, 'carbsG' | 'proteinG' | 'fatG' | 'kcal' | 'caffeineMg'>
const unknown: Contents = { carbsG: null, proteinG: null, fatG: null, kcal: null, caffeineMg: null }

/** The food on a line, or what is wrong with it. */
function foodOf(text: string, foods: readonly Food[]): Food | string {
  const [, head = '', rest] = /^([^:]*):(.*)$/.exec(text) ?? []
  if (rest === undefined) return `a food is a name, a colon and its grams. ${example}`
  const [comma, whole, part] = decimalComma.exec(text) ?? []
  if (comma !== undefined) return `a number has a point, not a comma: write ${whole}.${part}`
  const [, called = '', weight, weightUnit = ''] =
    /^(.*?)(?:\s+(\d+(?:\.\d+)?)\s*(g|ml))?\s*$/i.exec(head) ?? []
  const name = called.replace(/\s+/g, ' ')
  if (!/\p{L}/u.test(name)) return `Invalid food name "${name}". ${example}`
  if (foods.some((food) => keyOf(food.name) === keyOf(name))) return `two lines are for "${name}". Delete one`
  const value = Number(weight)
  const unit = weightUnit.toLowerCase() === 'ml' ? 'ml' : 'g'
  const contents = contentsOf(rest)
  if (typeof contents === 'string') return contents
  const food: Food = { name, amount: value > 0 ? { value, unit } : null, ...contents }
  const grams = (food.carbsG ?? 0) + (food.proteinG ?? 0) + (food.fatG ?? 0)
  return food.amount?.unit === 'g' && grams > food.amount.value * 1.01 + 0.5
    ? `that makes ${round(grams)} g in ${printNumber(food.amount.value)} g of food. Check the numbers`
    : food
}

/** What a food contains, as written after its colon, or what is wrong there. */
function contentsOf(text: string): Contents | string {
  const contents = { ...unknown }
  const strange = text
    .replace(amounts, ' ')
    .replace(/[\s,]+/g, ' ')
    .trim()
  if (strange !== '') return `"${strange}" is not understood. ${example}`
  const keys = { c: 'carbsG', p: 'proteinG', f: 'fatG', kcal: 'kcal' } as const
  for (const { 1: amount = '', 2: unit = '' } of text.matchAll(amounts)) {
    const word = unit.toLowerCase()
    const key = word.startsWith('mg') ? 'caffeineMg' : keys[word as keyof typeof keys]
    if (contents[key] !== null) return `${unit} is given twice. Write it once`
    if (Number(amount) > mostAmount) return `${amount} is more than ${mostAmount}. ${example}`
    contents[key] = Number(amount)
  }
  const isEmpty = Object.values(contents).every((amount) => amount === null)
  return isEmpty ? `there are no grams after the colon. ${example}` : contents
}

/** What was eaten, added up. */
export interface FoodSum {
  /** As typed: `carbs 81.6 g, protein 24.4 g, fat 15.2 g`; empty if no food is known. */
  text: string
  caffeineMg: number | null
  /** What is not on the list of foods. */
  unknown: string[]
}

/** Adds up `2 eggs, 80 g oats, carbs 30 g`. Null if no food is named, unless caffeine is typed beside other amounts,
 * which an ordinary fuel entry cannot hold. */
export function sumOfFoods(text: string, foods: readonly Food[]): FoodSum | null {
  if (/\bkcal\b|"/i.test(text)) return null
  const pieces = text
    .split(/[,+]/)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '')
  const eaten = pieces.map((piece) => ({ piece, portion: portionOf(piece, foods) ?? amountOf(piece) }))
  const known = eaten.flatMap(({ portion }) => (portion === null ? [] : [portion]))
  const [named, others] = [known.filter(isNamed), known.filter((portion) => !isNamed(portion))]
  const caffeine = others.filter(({ food }) => food.caffeineMg !== null)
  if (named.length === 0 && (caffeine.length === 0 || caffeine.length === others.length)) return null
  const total = (key: 'carbsG' | 'proteinG' | 'fatG' | 'kcal' | 'caffeineMg') => {
    const values = known.flatMap(({ food, times }) => (food[key] === null ? [] : [food[key] * times]))
    return values.length === 0 ? null : round(sum(values))
  }
  const kcal = known.every(({ food }) => food.kcal !== null) ? total('kcal') : null
  return {
    text: printFood({ carbsG: total('carbsG'), proteinG: total('proteinG'), fatG: total('fatG'), kcal }),
    caffeineMg: total('caffeineMg'),
    unknown: eaten.flatMap(({ piece, portion }) => (portion === null ? [piece] : [])),
  }
}

interface Portion {
  /** Its name is empty for an amount that was typed. */
  food: Food
  times: number
}

function isNamed({ food }: Portion): boolean {
  return food.name !== ''
}

/** `carbs 30 g`, `20 g protein`, `caffeine 100 mg`. */
function amountOf(piece: string): Portion | null {
  const cursor = new Cursor(entryTextOf(piece))
  const typed = takeAmount(cursor) ?? takeCaffeine(cursor)
  if (typed === null || typed.key === 'kcal' || cursor.goOn()) return null
  return { food: { name: '', amount: null, ...unknown, [typed.key]: typed.value }, times: 1 }
}

function takeCaffeine(cursor: Cursor): { key: 'caffeineMg'; value: number } | null {
  const typed = cursor.take(caffeine)
  return typed && { key: 'caffeineMg', value: Number(typed.parts.find((part) => part !== undefined)) }
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

function round(value: number): number {
  return Number(value.toFixed(1))
}

/** A results file with the foods of each meal replaced by their grams and the words kept as a note. Lines with an
 * unknown food stay as they are. */
export function withMealsSummed(text: string, foods: readonly Food[]): string {
  return text.replace(
    /^(\s*fuel\s+(?:before|between|after)\s*:[ \t]*)([^"\r\n#]+?)([ \t]*(?:#.*)?)$/gim,
    (all, head, meal, rest) => {
      const sum = sumOfFoods(meal, foods)
      return sum === null || sum.unknown.length > 0 || sum.text === ''
        ? all
        : `${head}${sum.text} "${meal}"${rest}`
    },
  )
}
