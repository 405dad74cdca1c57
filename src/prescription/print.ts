import { printNumber } from '../units/decimal.ts'
import { printDuration } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { printMass } from '../units/mass.ts'
import type { FuelItem, LiftItem, Part, PrepItem, Prescription, RunItem } from './model.ts'
import { printLiftItem } from './printLift.ts'
import { printAmount, printQuoted, printRunStep } from './printRun.ts'

export { printDose, printLoad } from './printLift.ts'
export { printWork } from './printRun.ts'

export type Item = PrepItem | RunItem | LiftItem | FuelItem

/** At most so many characters (code points) on a line. */
export const mostCharacters = 500

/** One printed line and what it says. */
export interface PrintedLine {
  text: string
  /** The item on it, by the indexes of its part and its own; a part's line has no item; a header's neither. */
  part: number | null
  item: number | null
}

/** A prescription as the notation writes it. Read again, it is the same prescription (its items' `line` and
 * `text` are those of the new file), and printed again it is the same text. Ends with a line end. */
export function printPrescription(prescription: Prescription): string {
  return `${printedLines(prescription)
    .map((line) => line.text)
    .join('\n')}\n`
}

/** The lines of a printed prescription, in order; the first is line 1 of the file. */
export function printedLines(prescription: Prescription): PrintedLine[] {
  const heads = [prescription.title, ...headersOf(prescription)]
  const lines: PrintedLine[] = heads.map((text) => ({ text, part: null, item: null }))
  for (const [part, value] of prescription.parts.entries()) {
    lines.push({ text: '', part: null, item: null })
    lines.push({ text: value.name === null ? value.kind : `${value.kind}: ${value.name}`, part, item: null })
    const items: Item[] = value.items
    for (const [item, each] of items.entries()) lines.push({ text: `  ${printItem(each)}`, part, item })
  }
  return lines
}

function headersOf(prescription: Prescription): string[] {
  const { date, units, goal, athlete, bar, lap, maxima, notes } = prescription
  const lines = []
  if (date !== null) lines.push(`date: ${date}`)
  lines.push(`units: ${units.distance} ${units.mass}`)
  if (goal !== null) {
    const on = goal.on === null ? '' : ` on ${goal.on}`
    lines.push(`goal: ${printLength(goal.length)} in ${printDuration(goal.seconds)}${on}`)
  }
  if (athlete !== null) lines.push(`athlete: ${printMass(athlete)}`)
  if (bar !== null) lines.push(`bar: ${printMass(bar)}`)
  if (lap !== null) lines.push(`lap: ${printLength(lap)}`)
  for (const { name, mass } of maxima) lines.push(`max: ${name} ${printMass(mass)}`)
  return [...lines, ...notes.map((note) => `note: ${note}`)]
}

/** The items of a part, whatever its kind. */
export function itemsOf(part: Part): Item[] {
  return part.items
}

/** One item as the notation writes it. A line that would grow longer than the notation allows is written
 * without the spaces that may be left out. */
export function printItem(item: Item): string {
  const text = itemText(item)
  return text.length + 2 > mostCharacters ? tight(text) : text
}

function itemText(item: Item): string {
  if ('exercises' in item) return printLiftItem(item)
  if ('step' in item) return printRunStep(item.step)
  if ('when' in item) return printFuelItem(item)
  return printPrepItem(item)
}

/** Outside quotes: no space behind a comma (but before a digit, which would make it a decimal comma), round `@` and `x`, or before a unit. */
function tight(text: string): string {
  return text
    .split('"')
    .map((piece, index) =>
      index % 2 === 1
        ? piece
        : piece
            .replace(/(,) (?!\d)| (@) /g, '$1$2')
            .replace(/(\d) x (?=[\d(m])/g, '$1x')
            .replace(/(\d) (?=(?:m|km|mi|yd|s|min|kg|lb)(?:[,)@+/ ]|$))/g, '$1'),
    )
    .join('"')
}

function printPrepItem(item: PrepItem): string {
  const parts = [item.name]
  if (item.count !== null) parts.push(`${item.count} x`)
  if (item.amount !== null)
    parts.push(item.amount.kind === 'reps' ? String(item.amount.reps) : printAmount(item.amount))
  if (item.side !== null) parts.push(item.side)
  return [parts.join(' '), ...printQuoted(item.notes)].join(', ')
}

function printFuelItem(item: FuelItem): string {
  const bits = []
  if (item.carbsG !== null) bits.push(`carbs ${printNumber(item.carbsG)} g`)
  if (item.proteinG !== null) bits.push(`protein ${printNumber(item.proteinG)} g`)
  if (item.fatG !== null) bits.push(`fat ${printNumber(item.fatG)} g`)
  if (item.kcal !== null) bits.push(`${printNumber(item.kcal)} kcal`)
  const when = item.seconds === null ? item.when : `${item.when} ${printHours(item.seconds)}`
  return `${when}: ${[...bits, ...printQuoted(item.notes)].join(', ')}`
}

/** Long times in the unit in which they are whole: `2 h`, `30 min`. */
function printHours(seconds: number): string {
  if (seconds % 3600 === 0) return `${printNumber(seconds / 3600)} h`
  return seconds % 60 === 0 ? `${printNumber(seconds / 60)} min` : printDuration(seconds)
}
