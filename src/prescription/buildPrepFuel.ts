import type { FuelItem, PrepItem } from './model.ts'
import { warnOfDistance, warnOfFood } from './plausible.ts'
import { printQuoted } from './print.ts'
import { strictSyntaxOf } from './readLine.ts'
import { type Building, bare, type FuelNode, marksIn, type PrepNode } from './syntax.ts'

type PrepLine = Omit<PrepItem, 'line' | 'text'>

/** Builds one prep line; `10 min jog` means `jog 10 min`. */
export function prepLineOf(node: PrepNode, building: Building): PrepLine {
  const name = node.name.value
  const moved = amountFirst(name)
  if (moved !== null && node.amount === null) {
    const turned = strictSyntaxOf(moved, 'prepItem', building.units) as PrepNode | null
    // A time before the name is an amount: 10 min jog. Other numbers may belong to the name.
    if (turned !== null && turned.amount?.kind === 'time' && marksIn(turned).length === 0)
      return prepLineOf({ ...turned, side: node.side, notes: node.notes }, building)
    const written = [moved, ...printQuoted(bare(node.notes))].join(', ')
    building.warn(node.name.at, `this is read as a name without an amount; with one it is written ${written}`)
  }
  const other = /\d+ ?(?:minutes?|seconds?|hours?|met(?:er|re)s?|reps?|times)$|\d+ sets(?: of)?$/i.exec(name)
  if (other !== null)
    building.warn(
      node.name.at,
      `this is read as a name, ${name}: an amount is written 3 min, 45 s, 20 m, 10 or 2 x 10`,
    )
  if (node.amount?.kind === 'distance') warnOfDistance(node.amount.length, building)
  return bare(node)
}

/** `5 min bike` and `warm up 5 min bike` written the other way round: `bike 5 min`; null without an amount before the
 * last words. */
function amountFirst(name: string): string | null {
  const [, before = '', amount = '', after] =
    /^(\D* )?((?:\d{1,3} ?x ?)?\d{1,4}(?::\d\d)?(?: ?(?:s|sec|secs|min|mins|m|km))?) (?:of )?(\p{L}.*)$/u.exec(
      name,
    ) ?? []
  const isAmount = /[:xsmk]/.test(amount) || (before === '' && /^\d+ \p{L}/u.test(name))
  return after === undefined || !isAmount ? null : `${before}${after} ${amount}`
}

type FuelLine = Omit<FuelItem, 'line' | 'text'>

const keys = { carbs: 'carbsG', protein: 'proteinG', fat: 'fatG', kcal: 'kcal' } as const

/** Builds one fuel line. */
export function fuelLineOf(node: FuelNode, building: Building): FuelLine {
  const line: FuelLine = {
    when: node.when,
    seconds: node.seconds?.seconds ?? null,
    carbsG: null,
    proteinG: null,
    fatG: null,
    kcal: null,
    notes: [],
  }
  for (const bit of node.bits) {
    if (bit.bit === 'text') {
      line.notes.push(bit.value.value)
      continue
    }
    const key = keys[bit.bit]
    if (line[key] !== null) building.report(bit.value.at, `${bit.bit} is given twice: leave one out`)
    warnOfFood(bit.bit, bit.value, building)
    line[key] = bit.value.value
  }
  return line
}
