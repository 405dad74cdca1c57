import type { Dose, Exercise, LiftItem, Prescription } from './model.ts'
import type { ExpandedItem, RampStep, SetStep } from './step.ts'

/** One ramp set before the work: a load on the bar, and how often it is lifted. */
export interface RampSet {
  load: { value: number; unit: 'kg' | 'lb' }
  reps: number
  /** Seconds to the next ramp set, or to the work. */
  restSeconds: number
}

/** The warm-up ramp of an item from its `build from` load up to the first working load; empty where there is none
 * or the working load is not known. */
export type RampOf = (item: LiftItem, prescription: Prescription) => RampSet[]

/** One line of a lift part as the sets it is lifted in: set by set, or round by round. */
export function expandLiftItem(
  item: LiftItem,
  place: { part: number; item: number },
  prescription: Prescription,
  rampOf: RampOf,
): ExpandedItem {
  const first = item.exercises[0] as Exercise
  const ramp = rampOf(item, prescription).map(
    (set, index): RampStep => ({
      id: `${place.part + 1}.${place.item + 1}.b${index + 1}`,
      ...place,
      kind: 'ramp',
      exercise: 0,
      name: first.name,
      ...set,
    }),
  )
  return { text: item.text, line: item.line, steps: [...ramp, ...setsOf(item, place)], works: [] }
}

/** In the order in which they are lifted: a round leaves out an exercise whose sets are finished. */
function setsOf(item: LiftItem, place: { part: number; item: number }): SetStep[] {
  const rounds = Math.max(...item.exercises.map((exercise) => exercise.sets.length))
  const superset = item.exercises.length > 1
  const hasCluster = item.exercises.some((exercise) =>
    exercise.sets.some((set) => set.dose.kind === 'cluster'),
  )
  const steps: SetStep[] = []
  for (let round = 1; round <= rounds; round++) {
    const taking = item.exercises.filter((exercise) => exercise.sets.length >= round)
    taking.forEach((exercise, turn) => {
      const set = exercise.sets[round - 1] as Exercise['sets'][number]
      const roundOver = turn === taking.length - 1
      const last = roundOver && round === rounds
      steps.push({
        id: `${place.part + 1}.${place.item + 1}.s${steps.length + 1}`,
        ...place,
        kind: 'set',
        exercise: item.exercises.indexOf(exercise),
        name: exercise.name,
        number: round,
        of: exercise.sets.length,
        dose: set.dose,
        load: set.load,
        rpe: set.rpe,
        side: exercise.side,
        tempo: item.tempo,
        pauseInSet: set.dose.kind === 'cluster' ? item.pause : null,
        pauseAfter: roundOver ? null : hasCluster ? 0 : (item.pause ?? 0),
        restAfter: roundOver && !last ? item.rest : null,
        every: item.every,
        last,
        superset,
        insteadOf: null,
      })
    })
  }
  return steps
}

/** Repetitions of a dose as prescribed, the lower end of a range; null where they are not fixed, held or carried. */
export function prescribedReps(dose: Dose): number | null {
  if (dose.kind === 'reps') return dose.from
  if (dose.kind !== 'cluster') return null
  return dose.groups.reduce<number | null>(
    (sum, group) => (sum === null || group === 'max' ? null : sum + group),
    0,
  )
}
