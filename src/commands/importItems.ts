import { nothingHandedDown } from '../prescription/handedDown.ts'
import type { LiftItem, RunItem } from '../prescription/model.ts'
import { printItem } from '../prescription/print.ts'
import type { SetRow, SplitRow } from './importRows.ts'

/* Rows of a table as lines of a prescription. */

const mostSetsOnALine = 20
const mostOfAName = 80

/** A name as the notation takes it; null for none. */
export function nameOf(text: string): string | null {
  const plain = text
    .replace(/[,+@":#\p{Cc}]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const short = [...plain].slice(0, mostOfAName).join('').trim()
  return short === '' ? null : short
}

/** Sets that follow each other and can stand on one line do. */
export function liftItems(rows: readonly SetRow[]): LiftItem[] {
  const lines: SetRow[][] = []
  for (const row of rows) {
    const line = lines.at(-1)
    const last = line?.at(-1)
    if (line && last && line.length < mostSetsOnALine && standsWith(last, row)) line.push(row)
    else lines.push([row])
  }
  return lines.map((line) => {
    const [first] = line as [SetRow]
    const sets = line.map(({ dose, load }) => ({ dose, load, rpe: null }))
    const exercises = [{ name: nameOf(first.exercise) ?? 'exercise', sets, side: first.side }]
    return withText({ ...source, exercises, ...noClauses })
  })
}

const source = { line: 1, text: '' }
const noClauses = { pause: null, rest: null, every: null, tempo: null, buildFrom: null, notes: [] }

function standsWith(one: SetRow, other: SetRow): boolean {
  if (one.exercise !== other.exercise || one.side !== other.side) return false
  const sameDose = one.dose.kind === 'reps' && other.dose.kind === 'reps'
  if (!sameDose && JSON.stringify(one.dose) !== JSON.stringify(other.dose)) return false
  const areBars = isBar(one) && isBar(other) && one.load.unit === other.load.unit
  return areBars || JSON.stringify(one.load) === JSON.stringify(other.load)
}

function isBar(row: SetRow): row is SetRow & { load: { kind: 'mass'; unit: string } } {
  return row.load?.kind === 'mass' && !row.load.pair
}

/** Splits of the same length that follow each other are repeats of one. */
export function runItems(rows: readonly SplitRow[]): RunItem[] {
  const pieces: { row: SplitRow; times: number }[] = []
  for (const row of rows) {
    const last = pieces.at(-1)
    const isSame =
      last?.row.meters === row.meters && (row.meters !== null || last?.row.seconds === row.seconds)
    if (last && isSame && last.times < 999) last.times += 1
    else pieces.push({ row, times: 1 })
  }
  return pieces.map(({ row, times }) =>
    withText({
      ...source,
      step: {
        kind: 'work',
        times: times === 1 ? null : times,
        body: { kind: 'piece', amounts: [amountOf(row)], target: null },
        recovery: null,
        ...nothingHandedDown,
        notes: [],
      },
    }),
  )
}

function amountOf({ meters, seconds }: SplitRow) {
  return meters === null
    ? ({ kind: 'time', seconds: seconds ?? 1 } as const)
    : ({ kind: 'distance', length: { value: meters, unit: 'm' } } as const)
}

function withText<I extends LiftItem | RunItem>(item: I): I {
  return { ...item, text: printItem(item) }
}
