import type { Equipment } from '../figures/bar.ts'
import { roundedPercentLoad } from '../figures/percentLoad.ts'
import { ramp } from '../figures/ramp.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { exerciseKey } from './exerciseKey.ts'
import { prescribedReps, type RampOf } from './layOutLift.ts'
import type { Exercise, LiftItem, Prescription } from './model.ts'

/** Repetitions of a set whose number is open. */
const longSet = 10

/** Makes up warm-up ramps from what is at hand. In the unit of the working load.
 * @param equipmentOf the bar and the plates in a unit
 * @param maxima one-repetition maxima known besides those of the file, for loads by percent */
export function warmUpWith(
  equipmentOf: (unit: MassUnit, prescription: Prescription) => Equipment,
  maxima: readonly { name: string; kg: number }[],
): RampOf {
  return (item, prescription) => {
    const work = item.buildFrom ? workingLoadOf(item, prescription, maxima) : null
    if (!item.buildFrom || !work) return []
    const start = kilogramsOf(item.buildFrom) / kilogramsOf({ value: 1, unit: work.unit })
    if (start >= work.value) return []
    const equipment = equipmentOf(work.unit, prescription)
    return ramp(work.value, start, repsOfFirstSet(item), equipment).map((step) => ({
      load: { value: step.load, unit: work.unit },
      reps: step.reps,
      restSeconds: step.restSeconds,
    }))
  }
}

/** As many as the first working set has at least; one of as many as go, held or carried counts as a long one. */
function repsOfFirstSet(item: LiftItem): number {
  const dose = item.exercises[0]?.sets[0]?.dose
  if (dose?.kind === 'atLeast') return dose.reps
  return (dose && prescribedReps(dose)) ?? longSet
}

/** The first working load of the first exercise; null by effort only, or by percent of what is not known. */
function workingLoadOf(
  item: LiftItem,
  prescription: Prescription,
  maxima: readonly { name: string; kg: number }[],
): { value: number; unit: MassUnit } | null {
  const exercise = item.exercises[0] as Exercise
  const load = exercise.sets[0]?.load
  if (load?.kind === 'mass') return { value: load.from, unit: load.unit }
  if (load?.kind !== 'percent') return null
  const unit = prescription.units.mass
  const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(exercise.name)
  const written = prescription.maxima.find(isSame)
  const kg = written ? kilogramsOf(written.mass) : maxima.find(isSame)?.kg
  return kg === undefined ? null : { value: roundedPercentLoad(kg, load.from, unit), unit }
}
