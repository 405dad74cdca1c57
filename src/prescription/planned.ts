import { type Equipment, usualStep, warmUpLoads } from '../figures/bar.ts'
import { roundedPercentLoad } from '../figures/volume.ts'
import { roundTo } from '../units/decimal.ts'
import { kilogramsIn, kilogramsOf, massIn } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { exerciseKey, isOnBar, isSameExercise, loadStepOf, namedFor } from './exercise.ts'
import type { WarmUpOf } from './expand.ts'
import { repsWhenOpen } from './expectedTime.ts'
import type { Exercise, Load, Prescription } from './model.ts'
import { repsOf } from './step.ts'

/* The loads of a planned day in kilograms or pounds (a percentage refers to a maximum, `last + 2.5 kg` to an earlier
 * session), and the warm-up sets that lead up to them. */

/** Known one-repetition maxima besides the file's, with their sources. */
export type SourcedMaxima = readonly { name: string; kg: number; basis: string }[]

export interface Maximum {
  kg: number
  /** For the screen: as written, else in the day's unit to a tenth. */
  mass: Mass
  /** Its source. */
  basis: string
}

/** The one-repetition maximum for an exercise's percentages: the file's, else a known one; null without one. */
export function maximumFor(
  name: string,
  prescription: Pick<Prescription, 'maxima' | 'parts' | 'units'>,
  maxima: SourcedMaxima,
): Maximum | null {
  const names = exercisesOf(prescription).map((each) => each.name)
  const written = namedFor(prescription.maxima, name, names)
  if (written) return { kg: kilogramsOf(written.mass), mass: written.mass, basis: 'max: in the file' }
  const known = maxima.find((each) => isSameExercise(each.name, name))
  if (!known) return null
  const { mass: unit } = prescription.units
  const value = roundTo(kilogramsIn(known.kg, unit), 1)
  return { kg: known.kg, mass: { value, unit }, basis: known.basis }
}

/** A planned load as a mass; null for a percentage of an unknown maximum. */
export function plannedMass(
  load: Exclude<Load, { kind: 'bodyweight' | 'last' }>,
  name: string,
  prescription: Pick<Prescription, 'maxima' | 'parts' | 'units'>,
  maxima: SourcedMaxima,
): Extract<Load, { kind: 'mass' }> | null {
  if (load.kind === 'mass') return load
  const maximum = maximumFor(name, prescription, maxima)
  if (maximum === null) return null
  const unit = prescription.units.mass
  const at = (percent: number) => roundedPercentLoad(maximum.kg, percent, unit)
  return { kind: 'mass', from: at(load.from), to: at(load.to), unit, pair: false }
}

/** Whether any load of the day is a percentage: only then are maxima of earlier days needed. */
export function usesPercent(prescription: Prescription): boolean {
  return loadsOf(prescription).some(({ load }) => load?.kind === 'percent')
}

/** Every load of the day with its exercise, including loads of drops and of stations. */
function loadsOf(prescription: Prescription): { name: string; load: Load | null }[] {
  return exercisesOf(prescription).flatMap(({ name, sets }) =>
    sets.flatMap(({ dose, load }) => [
      { name, load },
      ...(dose.kind === 'drop' ? dose.lower.map((lower) => ({ name, load: lower })) : []),
      ...('stations' in dose ? dose.stations : []),
    ]),
  )
}

/** The exercises of every lift line of the day. */
export function exercisesOf({ parts }: Pick<Prescription, 'parts'>): Exercise[] {
  return parts.flatMap((part) =>
    part.kind === 'lift' ? part.items.flatMap(({ exercises }) => exercises) : [],
  )
}

/** The names of the day's exercises with a load from last time (`last + 2.5 kg`). */
export function namesFromLastTime(prescription: Prescription): string[] {
  const using = loadsOf(prescription).filter(({ load }) => load?.kind === 'last')
  return [...new Map(using.map(({ name }) => [exerciseKey(name), name])).values()]
}

/** The heaviest load of an exercise in an earlier session. `isKept`: a set failed or hurt then,
 * or it is weeks ago, so nothing is added. */
export interface LastLoad {
  name: string
  date: string
  load:
    | { kind: 'mass'; value: number; unit: MassUnit; pair: boolean }
    | { kind: 'bodyweight'; added: number; unit: MassUnit }
  isKept: boolean
}

/** The load that `last + 2.5 kg` means, in its unit; rounded as a percentage is where last time was in the other one.
 * Null if there was no last time. */
export function loadFromLast(
  written: Extract<Load, { kind: 'last' }>,
  name: string,
  lastLoads: readonly LastLoad[],
): LastLoad['load'] | null {
  const last = lastLoads.find((each) => isSameExercise(each.name, name))
  if (last === undefined) return null
  const { load, isKept } = last
  const { unit } = written
  const step = load.unit === unit ? 0.01 : usualStep[unit]
  const more = isKept ? 0 : written.added
  const inSteps = (value: number) => Math.round((massIn({ value, unit: load.unit }, unit) + more) / step)
  const sum = (value: number) => roundTo(inSteps(value) * step, 2)
  if (load.kind === 'bodyweight') return { ...load, unit, added: sum(load.added) }
  return { ...load, unit, value: Math.max(0, sum(load.value)) }
}

/** A load that was lifted, as it would be prescribed. */
export function loadAsWritten(load: LastLoad['load']): Load {
  if (load.kind === 'bodyweight') return load
  const { value, ...mass } = load
  return { ...mass, from: value, to: value }
}

/** The bar that a header gives for exercises whose name begins so, else for the day; null without one. */
export function barFor(
  { bar, bars = [] }: Pick<Prescription, 'bar' | 'bars'>,
  exercise: string,
): Mass | null {
  const key = exerciseKey(exercise)
  return bars.find(({ name }) => key.startsWith(exerciseKey(name)))?.mass ?? bar
}

/** The bar of an exercise on a day and the plates, in a unit. */
export type EquipmentOf = (unit: MassUnit, prescription: Prescription, exercise: string) => Equipment

/** Works out warm-up sets for the available bar and plates, in the unit of the working load; none if that is only an
 * effort, or a percentage of an unknown maximum. A hold and a carry count as a long set. */
export function warmUpWith(equipmentOf: EquipmentOf, maxima: SourcedMaxima): WarmUpOf {
  return ({ buildFrom, exercises }, prescription) => {
    const { name, sets, side } = exercises[0] as Exercise
    const load = sets[0]?.load
    if (buildFrom === null || (load?.kind !== 'mass' && load?.kind !== 'percent')) return []
    const work = plannedMass(load, name, prescription, maxima)
    if (work === null) return []
    const start = kilogramsOf(buildFrom) / kilogramsOf({ value: 1, unit: work.unit })
    if (start >= work.from) return []
    const bar = equipmentOf(work.unit, prescription, name)
    const equipment =
      isOnBar({ name, side }, bar) && !work.pair
        ? bar
        : { step: loadStepOf(name, work.from, work.unit, bar.dumbbellStep) }
    const reps = (sets[0] && repsOf(sets[0].dose, repsWhenOpen)) ?? repsWhenOpen
    return warmUpLoads(work.from, start, reps, equipment).map((step) => ({
      load: { value: step.load, unit: work.unit },
      pair: work.pair,
      reps: step.reps,
      restSeconds: step.restSeconds,
    }))
  }
}
