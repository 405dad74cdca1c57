import { fractionForRace } from '../figures/cutting.ts'
import { metersOf } from '../units/length.ts'
import { type CutItem, cutItem } from './cutItem.ts'
import type { Part, Prescription } from './model.ts'
import { itemsOf, mostCharacters, printedLines, printItem } from './print.ts'

/** An item of the day as it was, and what became of it; null when it is left out. */
export interface CutLine {
  was: CutItem['item']
  is: CutItem['item'] | null
  changes: string[]
  /** Why it is left out, where that is not plain. */
  gone?: string
}

export interface Cut {
  prescription: Prescription
  /** Every item that was there, part by part. */
  lines: CutLine[][]
}

export type HowToCut = { fraction: number } | { raceMeters: number }

/** A day cut down by a fraction, or to what suits a race over another distance than the goal's.
 * @throws RangeError for a fraction outside 0 to 1, a race of no length, or a race for a day without a goal */
export function cutPrescription(prescription: Prescription, how: HowToCut): Cut {
  const fraction = 'fraction' in how ? how.fraction : fractionOf(prescription, how.raceMeters)
  const lines = prescription.parts.map((part) =>
    itemsOf(part).map((was): CutLine => {
      const { item, changes } = cutItem(was, fraction, prescription)
      return { was, is: item, changes }
    }),
  )
  return cutOf(prescription, lines)
}

function fractionOf({ goal }: Prescription, raceMeters: number): number {
  if (goal === null)
    throw new RangeError('This day has no goal, so nothing says how long its race is. Cut it by a fraction.')
  return fractionForRace(raceMeters, metersOf(goal.length))
}

/** The day that the lines make; parts without an item left are gone, recoveries have two items around them. */
export function cutOf(prescription: Prescription, lines: CutLine[][]): Cut {
  for (const part of lines) leaveLooseRecoveries(part)
  const parts = prescription.parts.flatMap((part, index): Part[] => {
    const items = (lines[index] ?? []).flatMap(({ is }) => (is === null ? [] : [is]))
    return items.length === 0 ? [] : [{ ...part, items } as Part]
  })
  return { prescription: { ...prescription, parts }, lines }
}

/** A recovery that lost what stood before or behind it goes too. */
function leaveLooseRecoveries(lines: CutLine[]): void {
  const isRecovery = ({ is }: CutLine) => is !== null && 'step' in is && is.step.kind === 'recovery'
  for (let left = lines.filter(({ is }) => is !== null); left.length > 0; ) {
    const loose = [left[0], left.at(-1)].find((line) => line !== undefined && isRecovery(line))
    if (loose === undefined) return
    loose.is = null
    left = left.filter(({ is }) => is !== null)
  }
}

/** A day that was cut, as notation, with each change a comment on its line. Ends with a line end. */
export function printCut({ prescription, lines }: Cut): string {
  const heads = printedLines({ ...prescription, parts: [] }).map(({ text }) => text)
  const kept = [...prescription.parts]
  const parts = lines.flatMap((part) => {
    const body = part.map(printLine)
    const isGone = part.every(({ is }) => is === null)
    const head = isGone ? undefined : kept.shift()
    if (head === undefined) return ['', ...body]
    return ['', head.name === null ? head.kind : `${head.kind}: ${head.name}`, ...body]
  })
  return `${[...heads, ...parts].join('\n')}\n`
}

/** The change behind the item; above it, where the line would grow too long. */
function printLine({ was, is, changes, gone }: CutLine): string {
  if (is === null) return clipped(`  # ${gone ?? 'left out'}: ${printItem(was)}`)
  const text = `  ${printItem(is)}`
  if (changes.length === 0) return text
  const comment = `  # ${changes.join('; ')}`
  return [...text, ...comment].length <= mostCharacters ? text + comment : `${clipped(comment)}\n${text}`
}

function clipped(line: string): string {
  const characters = [...line]
  return characters.length <= mostCharacters ? line : `${characters.slice(0, mostCharacters - 1).join('')}…`
}
