import { type Equipment, usualStep, warmUpLoads } from '../figures/bar.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { exerciseKey, isOnBar } from './exercise.ts'
import { prescribedReps, type WarmUpOf } from './expand.ts'
import type { Dose, Exercise, Prescription } from './model.ts'
import { type KnownMaxima, plannedMasses } from './plannedLoads.ts'

/** The bar that a header names for an exercise, by the beginning of its name, else for the day; null without one. */
export function barFor({ bar, bars = [] }: Prescription, exercise: string | undefined): Mass | null {
  const key = exerciseKey(exercise ?? '')
  return bars.find(({ name }) => key.startsWith(exerciseKey(name)))?.mass ?? bar
}

/** Assumed repetitions of a set with an open number. */
const longSet = 10

/** Makes up warm-up sets from the available bar and plates, in the unit of the working load: none if that is only an
 * effort, or a percentage of an unknown maximum.
 * @param equipmentOf the bar of an exercise and the plates, in a unit */
export function warmUpWith(
  equipmentOf: (unit: MassUnit, prescription: Prescription, exercise?: string) => Equipment,
  maxima: KnownMaxima,
): WarmUpOf {
  return ({ buildFrom, exercises }, prescription) => {
    const { name, sets } = exercises[0] as Exercise
    const load = sets[0]?.load
    if (buildFrom === null || (load?.kind !== 'mass' && load?.kind !== 'percent')) return []
    const work = plannedMasses(load, name, prescription, maxima)
    if (work === null) return []
    const start = kilogramsOf(buildFrom) / kilogramsOf({ value: 1, unit: work.unit })
    if (start >= work.from) return []
    const bar = equipmentOf(work.unit, prescription, name)
    const equipment = isOnBar(name, bar) && !work.pair ? bar : { step: usualStep[work.unit] }
    return warmUpLoads(work.from, start, repsOfFirstSet(sets[0]?.dose), equipment).map((step) => ({
      load: { value: step.load, unit: work.unit },
      pair: work.pair,
      reps: step.reps,
      restSeconds: step.restSeconds,
    }))
  }
}

/** The fewest repetitions of the first working set; an AMRAP, a hold and a carry count as a long set. */
function repsOfFirstSet(dose: Dose | undefined): number {
  if (dose?.kind === 'atLeast') return dose.reps
  return (dose && prescribedReps(dose)) ?? longSet
}
