import { expandRunItem } from './expandRun.ts'
import type { Exercise, LiftItem, Part, Prescription, Station } from './model.ts'
import {
  type ExpandedItem,
  type ExpandedPart,
  hasClusters,
  type SetStep,
  type Step,
  type WarmUpStep,
} from './step.ts'

/** Expands a day into its steps, part by part and item by item.
 * @param warmUpOf works out the warm-up sets, which depend on the plates at hand */
export function expand(prescription: Prescription, warmUpOf: WarmUpOf): ExpandedPart[] {
  return prescription.parts.map((part, index) => ({
    kind: part.kind,
    name: part.name,
    items: withRecoveriesCounted(expandItems(part, index, prescription, warmUpOf)),
  }))
}

function expandItems(
  part: Part,
  partIndex: number,
  prescription: Prescription,
  warmUpOf: WarmUpOf,
): ExpandedItem[] {
  const placeOf = (item: number) => ({ part: partIndex, item })
  const idOf = (item: number, letter: string) => `${partIndex + 1}.${item + 1}.${letter}1`
  switch (part.kind) {
    case 'prep':
      return part.items.map((prep, item) =>
        oneStep(prep, { id: idOf(item, 'x'), ...placeOf(item), kind: 'prep', prep }),
      )
    case 'fuel':
      return part.items.map((fuel, item) =>
        oneStep(fuel, { id: idOf(item, 'f'), ...placeOf(item), kind: 'fuel', fuel }),
      )
    case 'lift':
      return part.items.map((lift, item) => expandLiftItem(lift, placeOf(item), prescription, warmUpOf))
    default: {
      const treadmill = /treadmill/i.test(part.name ?? '')
      return part.items.map((run, item) => expandRunItem(run, { ...placeOf(item), treadmill }, prescription))
    }
  }
}

function oneStep({ text, line }: { text: string; line: number }, step: Step): ExpandedItem {
  return { text, line, steps: [step], works: [] }
}

/** A recovery on a line of its own counts as run once any step of the item before it is recorded. */
function withRecoveriesCounted(items: ExpandedItem[]): ExpandedItem[] {
  let before: string[] = []
  for (const { steps } of items) {
    for (const step of steps)
      if (step.kind === 'recovery' && step.countsWith.length === 0) step.countsWith = before
    const intervals = steps.filter(({ kind }) => kind === 'interval').map(({ id }) => id)
    if (intervals.length > 0) before = intervals
  }
  return items
}

type WarmUpSet = Pick<WarmUpStep, 'load' | 'pair' | 'reps' | 'restSeconds'>

/** The warm-up sets of an item from its `build from` load up to the first working load; empty if it has none
 * or the working load is unknown. */
export type WarmUpOf = (item: LiftItem, prescription: Prescription) => WarmUpSet[]

/** The part of a warm-up set, from 0, by the id that it has below; null for any other step. */
export function partOfWarmUp(id: string): number | null {
  const part = /^(\d+)\.\d+\.b\d+$/.exec(id)?.[1]
  return part === undefined ? null : Number(part) - 1
}

/** Expands one line of a lift part into its sets, set by set or round by round. */
function expandLiftItem(
  item: LiftItem,
  place: { part: number; item: number },
  prescription: Prescription,
  warmUpOf: WarmUpOf,
): ExpandedItem {
  const first = item.exercises[0] as Exercise
  const warmUp = warmUpOf(item, prescription).map(
    (set, index): WarmUpStep => ({
      id: `${place.part + 1}.${place.item + 1}.b${index + 1}`,
      ...place,
      kind: 'warm-up',
      exercise: 0,
      name: first.name,
      side: first.side,
      ...set,
    }),
  )
  return { text: item.text, line: item.line, steps: [...warmUp, ...setsOf(item, place)], works: [] }
}

/** In lifting order: a round leaves out an exercise whose sets are finished. */
function setsOf(item: LiftItem, place: { part: number; item: number }): SetStep[] {
  const rounds = Math.max(...item.exercises.map((exercise) => exercise.sets.length))
  const superset = item.exercises.length > 1 && !item.inTurn
  const steps: Omit<SetStep, Linked>[] = []
  for (let round = 1; round <= rounds; round++) {
    item.exercises.forEach((exercise, index) => {
      const set = exercise.sets[round - 1]
      if (set === undefined) return
      steps.push({
        id: `${place.part + 1}.${place.item + 1}.s${steps.length + 1}`,
        ...place,
        kind: 'set',
        exercise: index,
        name: exercise.name,
        number: round,
        dose: set.dose,
        load: set.load,
        rpe: set.rpe,
        side: exercise.side,
        tempo: item.tempo,
        pauseInSet: set.dose.kind === 'cluster' ? item.pause : null,
        every: item.every,
        superset,
        loadFor: exercise.name,
        insteadOf: null,
      })
    })
  }
  return linkedSets(steps, item)
}

type Linked = 'of' | 'pauseAfter' | 'restAfter'

/** Adds to the sets of one line what depends on the others: their count, and the pause or the rest after each.
 * @param sets in the order in which they are done */
export function linkedSets(sets: readonly Omit<SetStep, Linked>[], item: LiftItem): SetStep[] {
  const isPauseInSet = hasClusters(item.exercises)
  return sets.map((set, index) => {
    const next = sets[index + 1]
    const goesOn = next?.number === set.number
    return {
      ...set,
      of: sets.filter(({ exercise }) => exercise === set.exercise).length,
      pauseAfter: !goesOn || item.inTurn ? null : isPauseInSet ? 0 : (item.pause ?? 0),
      restAfter: next === undefined || goesOn ? null : item.rest,
    }
  })
}

/** How much of each station is done: its repetitions, or how often its time or distance was completed.
 * @param begun repetitions of the unfinished round, in the order of its stations; a time or a distance counts as one */
export function stationsDone(stations: readonly Station[], rounds: number, begun: number): number[] {
  let left = begun
  return stations.map(({ dose }) => {
    const whole = dose.kind === 'reps' ? dose.from : 1
    const part = Math.min(left, whole)
    left -= part
    return rounds * whole + part
  })
}
