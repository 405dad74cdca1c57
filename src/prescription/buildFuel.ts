import type { Building } from './building.ts'
import { report } from './building.ts'
import type { FuelItem } from './model.ts'
import { warnOfFood } from './oddValues.ts'
import type { FuelNode } from './syntax.ts'

export type FuelLine = Omit<FuelItem, 'line' | 'text'>

const keys = { carbs: 'carbsG', protein: 'proteinG', fat: 'fatG', kcal: 'kcal' } as const

/** What stands on one line of a fuel part. */
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
      line.notes.push(bit.value.text)
      continue
    }
    const key = keys[bit.bit]
    if (line[key] !== null) report(building, bit.value.at, `${bit.bit} is given twice: leave one out`)
    warnOfFood(bit.bit, bit.value, building)
    line[key] = bit.value.value
  }
  return line
}
