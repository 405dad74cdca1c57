import type { Exercise, LiftItem, Load, Prescription } from '../prescription/model.ts'
import { printItem, printLoad } from '../prescription/print.ts'
import type { WalkState } from '../session/state.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { type LineOutcome, lineKey, lineOutcome } from './lineResult.ts'
import { type AtHand, heavierLoad, lighterLoad } from './loadStep.ts'

/** What was changed on a line, and why. */
export interface SuggestedChange {
  part: number
  item: number
  reason: string
}

export interface Again {
  /** Without a date: it is for another day. */
  prescription: Prescription
  changes: SuggestedChange[]
}

interface Line {
  part: number
  item: number
  exercise: number
  written: Exercise
  outcome: LineOutcome
}

/** A session's day once more, with what its results suggest: a line that was complete at the written effort twice
 * in a row at the same load gets the next load that can be made; one that was missed twice gets 5 % less. Paces
 * stay. Common practice, no source.
 * @param earlier the sessions before it, newest first; asked for one after the other for as long as a line needs it
 * @param atHand what loads can be made of, by unit */
export function againOf(
  state: WalkState,
  earlier: Iterable<WalkState>,
  atHand: (unit: MassUnit) => AtHand,
): Again {
  const judged = linesOf(state).filter(({ outcome }) => outcome !== 'other')
  const before = timesBefore(judged, earlier)
  const prescription = structuredClone(state.prescription)
  const changes: SuggestedChange[] = []
  for (const line of judged) {
    const last = before.get(line)
    if (last?.line.outcome !== line.outcome || !hasSameLoads(last.line.written, line.written)) continue
    const item = prescription.parts[line.part]?.items[line.item] as LiftItem
    const exercise = item.exercises[line.exercise] as Exercise
    const old = loadsText(exercise)
    const isUp = line.outcome === 'complete'
    exercise.sets = exercise.sets.map((set) => {
      const changed = set.load && (isUp ? heavierLoad(set.load, atHand) : lighterLoad(set.load, atHand))
      return { ...set, load: changed ?? set.load }
    })
    const fresh = loadsText(exercise)
    if (fresh === old) continue
    const dates = `${last.date ?? 'the time before'} and ${state.date ?? 'this time'}`
    const why = isUp
      ? `all sets complete on ${dates}`
      : `missed on ${dates}, so 5 % less${isExact(line.written, exercise) ? '' : ', down to what can be made'}`
    const dropped = line.exercise === 0 ? withoutRampAbove(item) : ''
    changes.push({
      part: line.part,
      item: line.item,
      reason: `${exercise.name}: ${old} -> ${fresh}: ${why}${dropped}`,
    })
    item.text = printItem(item)
  }
  return { prescription: { ...prescription, date: null }, changes }
}

function linesOf(state: WalkState): Line[] {
  return state.prescription.parts.flatMap((part, partIndex) =>
    part.kind !== 'lift'
      ? []
      : part.items.flatMap((item, itemIndex) =>
          item.exercises.map((written, exercise) => {
            const place = { part: partIndex, item: itemIndex, exercise }
            return { ...place, written, outcome: lineOutcome(state, partIndex, itemIndex, exercise) }
          }),
        ),
  )
}

/** The newest earlier time of each line. */
function timesBefore(
  lines: readonly Line[],
  earlier: Iterable<WalkState>,
): Map<Line, { line: Line; date: string | null }> {
  const found = new Map<Line, { line: Line; date: string | null }>()
  if (lines.length === 0) return found
  for (const state of earlier) {
    const theirs = linesOf(state)
    for (const line of lines) {
      const same = theirs.find((each) => lineKey(each.written) === lineKey(line.written))
      if (same && !found.has(line)) found.set(line, { line: same, date: state.date })
    }
    if (found.size === lines.length) break
  }
  return found
}

function hasSameLoads(one: Exercise, other: Exercise): boolean {
  return JSON.stringify(one.sets.map((set) => set.load)) === JSON.stringify(other.sets.map((set) => set.load))
}

/** `92.5 kg`, or `60 kg/65 kg/70 kg` where they differ. */
function loadsText(exercise: Exercise): string {
  const texts = exercise.sets.map((set) => (set.load === null ? '-' : printLoad(set.load)))
  return texts.every((text) => text === texts[0]) ? (texts[0] ?? '') : texts.join('/')
}

/** Whether every load is 5 % less, to a part in a thousand, and was not rounded down to plates. */
function isExact(old: Exercise, fresh: Exercise): boolean {
  const amounts = ({ sets }: Exercise) => sets.map(({ load }) => (load === null ? 0 : amountOf(load)))
  const lighter = amounts(fresh)
  return amounts(old).every(
    (amount, index) => Math.abs(amount * 0.95 - (lighter[index] ?? 0)) <= amount / 1000,
  )
}

function amountOf(load: Load): number {
  switch (load.kind) {
    case 'mass':
      return load.from
    case 'bodyweight':
      return load.added
    case 'percent':
      return 0
  }
}

/** A ramp must begin below the load it leads to. */
function withoutRampAbove(item: LiftItem): string {
  const load = item.exercises[0]?.sets[0]?.load
  const { buildFrom } = item
  if (buildFrom === null || load?.kind !== 'mass') return ''
  if (kilogramsOf(buildFrom) < kilogramsOf({ value: load.from, unit: load.unit })) return ''
  item.buildFrom = null
  return `; the warm-up from ${printMass(buildFrom)} went`
}
