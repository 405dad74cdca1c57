import { least, range } from 'd3-array'
import { type Equipment, rackOf, usualStep } from '../figures/bar.ts'
import { noise } from '../figures/figure.ts'
import { bodyShare } from '../figures/oneRepMax.ts'
import { isOnBar, loadStepOf } from '../prescription/exercise.ts'
import type { Dose, Exercise, Load } from '../prescription/model.ts'
import { kilogramsIn, kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/** An exercise, the lifter's body mass and the equipment. */
export interface Lifter {
  name: string
  side: Exercise['side']
  /** Null if unknown. */
  bodyKg: number | null
  /** In one unit. */
  equipmentOf: (unit: MassUnit) => Equipment
}

/** A load in plates, dumbbells or assistance, of which others can be made. */
type MadeLoad = Extract<Load, { kind: 'mass' | 'bodyweight' }>

/** How many steps above a load are looked at. */
const mostSteps = 8
/** The largest share of a load that a reduction may take off; where that is not enough, the repetitions go down
 * instead. */
const mostOff = 0.1

/** The moved mass in kilograms, including the share of body mass; null if the body mass is unknown, or
 * for a percentage. */
export function loadKilograms(load: Load, name: string, bodyKg: number | null): number | null {
  switch (load.kind) {
    case 'mass':
      return kilogramsOf({ value: load.from, unit: load.unit }) * (load.pair ? 2 : 1)
    case 'bodyweight':
      return bodyKg === null
        ? null
        : bodyKg * bodyShare(name) + kilogramsOf({ value: load.added, unit: load.unit })
    case 'percent':
    case 'last':
      return null
  }
}

/** The load nearest to a share of this one that can be made: a lighter one for a share below 1, of two the lower, a
 * heavier one for a share above 1. A percentage becomes a whole one. Null if there is none, and for body mass alone.
 * @param share 0.9 is 10 % less: of the load, or of the moved mass for an assisted lift
 * @param isNear takes off at most 10 %, and adds only what is nearer to the share than no change; for a bodyweight lift,
 * of the moved mass */
export function loadNear(load: Load, share: number, lifter: Lifter, { isNear = false } = {}): Load | null {
  if (load.kind === 'last') return null
  if (load.kind === 'percent') {
    const less = (percent: number) => Math.min(Math.round(percent * share), percent - 1)
    return { ...load, from: less(load.from), to: less(load.to) }
  }
  const isOfAddedLoad = load.kind === 'bodyweight' && load.added > 0 && !isNear
  const body = isOfAddedLoad ? 0 : bodyIn(load, lifter)
  if (body === null) return null
  const most = share < 1 ? mostOff + noise : 2 * (share - 1) - noise
  return changedLoad(load, lifter, (value, loads) => {
    const amount = body + value
    const changed = loads.filter((each) => (share < 1 ? each < value - noise : each > value + noise))
    const possible = changed.filter((each) => !isNear || Math.abs(each - value) <= most * amount)
    return least(possible, (each) => Math.abs(body + each - share * amount))
  })
}

/** The smallest load that can be made and moves at least a share, above 1, of the mass, and no more than another; null
 * if there is none, and for a percentage. */
export function heavierLoad(load: Load, least: number, most: number, lifter: Lifter): Load | null {
  if (load.kind === 'last' || load.kind === 'percent') return null
  const body = bodyIn(load, lifter)
  if (body === null) return null
  return changedLoad(load, lifter, (value, loads) => {
    const [lowest, highest] = [least, most].map((share) => share * (body + value) - body) as [number, number]
    return loads.find((each) => each > value + noise && each >= lowest - noise && each <= highest + noise)
  })
}

/** The share of body mass that is moved with a load, in its unit: 0 for a mass. Null if it is unknown, or if nothing is
 * left to move. */
function bodyIn(load: MadeLoad, { name, bodyKg }: Lifter): number | null {
  if (load.kind === 'mass') return 0
  if (bodyKg === null) return null
  const body = kilogramsIn(bodyKg * bodyShare(name), load.unit)
  return body + load.added > 0 ? body : null
}

/** Null if one of its ends cannot be made. */
function changedLoad(
  load: MadeLoad,
  lifter: Lifter,
  change: (value: number, loads: readonly number[]) => number | undefined,
): MadeLoad | null {
  const loads = loadsNear(load, lifter)
  if (load.kind === 'bodyweight') {
    const added = change(load.added, loads)
    return added === undefined ? null : { ...load, added }
  }
  const [from, to] = [change(load.from, loads), change(load.to, loads)]
  return from === undefined || to === undefined ? null : { ...load, from, to }
}

/** The loads that can be made, in the unit of this one, ascending: on a bar all of them, else whole steps, up to some
 * above this one. Weight on the body comes off before assistance is used. */
function loadsNear(load: MadeLoad, lifter: Lifter): readonly number[] {
  const equipment = lifter.equipmentOf(load.unit)
  const { dumbbellStep } = equipment
  const { loads } = rackOf(equipment)
  const [bare = 0, next] = loads
  // The lightest plate, which is also the step for loads added to the body; null without plates.
  const smallest = next === undefined ? null : (next - bare) / 2
  const stepsOf = (step: number, first: number, last: number) =>
    // Rounded, because binary fractions do not add up exactly.
    range(first, last / step + mostSteps + 1).map((steps) => Number((steps * step).toFixed(3)))
  if (load.kind === 'mass') {
    if (!load.pair && isOnBar(lifter, equipment) && load.from >= bare) return loads
    return stepsOf(loadStepOf(lifter.name, load.from, load.unit, dumbbellStep), 1, load.to)
  }
  // Without plates nothing is added to the body, unless something was: then dumbbells.
  if (load.added === 0 && smallest === null) return [0]
  if (load.added >= 0) return stepsOf(smallest ?? dumbbellStep ?? usualStep[load.unit], 0, load.added)
  // A band or a machine helps in steps of its own.
  const step = Math.max(usualStep[load.unit], smallest ?? 0)
  return stepsOf(step, Math.floor(load.added / step) - mostSteps, load.added)
}

/** The fewest prescribed repetitions of an unbroken set; 0 without a number of them. */
export function leastReps(dose: Dose): number {
  return dose.kind === 'reps' ? dose.from : dose.kind === 'atLeast' ? dose.reps : 0
}

function doseWith(dose: Dose, change: number): Dose | null {
  const least = leastReps(dose) + change
  if (least < 1) return null
  if (dose.kind === 'atLeast') return { ...dose, reps: least }
  return dose.kind === 'reps' ? { ...dose, from: least, to: dose.to + change } : null
}

/** Adds repetitions to every set, or takes them off; false if fewer than one would be left, or a set is not an unbroken
 * one with a number of them. */
export function changeReps(exercise: Exercise, change: number): boolean {
  const changed = exercise.sets.flatMap((set) => {
    const dose = doseWith(set.dose, change)
    return dose === null ? [] : [{ ...set, dose }]
  })
  if (changed.length < exercise.sets.length) return false
  exercise.sets = changed
  return true
}
