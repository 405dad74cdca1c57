import { printedKcal } from '../figures/fuel.ts'
import { massIn } from '../units/mass.ts'
import { fuelRangePhrases } from './fuelRanges.ts'
import type { SummaryView } from './view.ts'

/** What only the full summary says of the session as a whole. */
export function fullPhrases(view: SummaryView): string[] {
  const { lifting, fuel } = view.summary
  const phrases: string[] = []
  if (lifting.sets > 0) {
    const tonnage = massText(lifting.tonnageKg, view)
    phrases.push(`lifted ${lifting.sets} sets, ${lifting.reps} repetitions, ${tonnage} over unlike exercises`)
  }
  if (fuel.runningKcal) {
    const [from, to] = fuel.runningKcal
    const printed = printedKcal({ from, to })
    phrases.push(`the running took ${printed.from} to ${printed.to} kcal above rest, on the level`)
  }
  return [...phrases, ...fuelRangePhrases(view)]
}

/** A mass from kilograms in the unit of the page, to a tenth. */
export function massText(kg: number, view: SummaryView): string {
  return `${Number(massIn({ value: kg, unit: 'kg' }, view.mass).toFixed(1))} ${view.mass}`
}
