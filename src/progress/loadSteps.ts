import { type Rack, usualStep } from '../figures/bar.ts'
import { bodyShare } from '../figures/oneRepMax.ts'
import { loadStepOf } from '../prescription/exercise.ts'
import type { Exercise, Load } from '../prescription/model.ts'
import { kilogramsIn, kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/** The available equipment, in one unit. */
export interface AtHand {
  /** Null for an exercise without a bar. */
  rack: Rack | null
  /** The lightest plate: the step for loads added to the body. */
  smallest: number
}

const noise = 1e-6
/** The smallest share of a load that a reduction may leave; where that is not enough, the repetitions go down
 * instead. */
const leastShare = 0.9

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

/** An exercise, the lifter's body mass and the equipment. */
export interface Lifter {
  name: string
  side: Exercise['side']
  /** Null if unknown. */
  bodyKg: number | null
  atHand: (unit: MassUnit, exercise: Pick<Exercise, 'name' | 'side'>) => AtHand
}

type BodyLoad = Extract<Load, { kind: 'bodyweight' }>

/** The lighter load nearest to a share of this one that can be made; a percentage becomes a whole one. Null if there is
 * none, and for body mass alone.
 * @param share 0.9 is 10 % less: of the load, or of the moved mass for an assisted lift
 * @param isNear takes off at most 10 %; for a bodyweight lift, 10 % of the moved mass, rounded down to the next plate */
export function lighterLoad(load: Load, share: number, isNear: boolean, lifter: Lifter): Load | null {
  if (load.kind === 'last') return null
  if (load.kind === 'percent') {
    const less = (percent: number) => Math.min(Math.round(percent * share), percent - 1)
    return { ...load, from: less(load.from), to: less(load.to) }
  }
  const { rack, smallest } = lifter.atHand(load.unit, lifter)
  if (load.kind === 'bodyweight') return lighterBody(load, share, isNear, bodyStep(load, smallest), lifter)
  const make = (value: number): number | null => {
    const wanted = value * share
    const step = loadStepOf(lifter.name, value, load.unit)
    const [below, above] = isOnBar(load, rack)
      ? [rack.atOrBelow(wanted), rack.atOrAbove(wanted)]
      : [Math.floor(wanted / step + noise) * step, Math.ceil(wanted / step - noise) * step]
    const isAboveNearer =
      above !== null && above < value - noise && above - wanted < wanted - (below ?? Number.NEGATIVE_INFINITY)
    const found = isAboveNearer ? above : below
    return found !== null && found > 0 && !(isNear && found < value * leastShare - noise) ? found : null
  }
  const lighter = withEnds(load, make)
  return lighter !== null && lighter.from < load.from ? lighter : null
}

/** The smallest load that can be made and moves at least this share, above 1, of the mass; null if there is none, and
 * for a percentage. */
export function heavierLoad(load: Load, share: number, lifter: Lifter): Load | null {
  if (load.kind === 'last' || load.kind === 'percent') return null
  const { rack, smallest } = lifter.atHand(load.unit, lifter)
  if (load.kind === 'bodyweight') return heavierBody(load, share, bodyStep(load, smallest), lifter)
  return withEnds(load, (value) => {
    const wanted = Math.max(value * share, value + 0.001)
    const step = loadStepOf(lifter.name, value, load.unit)
    return isOnBar(load, rack)
      ? rack.atOrAbove(wanted)
      : value + Math.ceil((wanted - value) / step - noise) * step
  })
}

type MassLoad = Extract<Load, { kind: 'mass' }>

function isOnBar({ pair, from }: MassLoad, rack: Rack | null): rack is Rack {
  return !pair && from >= (rack?.loads[0] ?? Number.POSITIVE_INFINITY)
}

/** Null if one of its ends cannot be made. */
function withEnds(load: MassLoad, make: (value: number) => number | null): MassLoad | null {
  const [from, to] = [make(load.from), make(load.to)]
  return from === null || to === null ? null : { ...load, from: tidy(from), to: tidy(to) }
}

/** Weight is added in plates; a band or a machine helps in steps of its own. */
function bodyStep({ added, unit }: BodyLoad, smallest: number): number {
  return added < 0 ? Math.max(usualStep[unit], smallest) : smallest
}

function lighterBody(
  load: BodyLoad,
  share: number,
  isNear: boolean,
  smallest: number,
  { name, bodyKg }: Lifter,
): Load | null {
  const { added, unit } = load
  if (added === 0) return null
  const kg = loadKilograms(load, name, bodyKg)
  const moved = added > 0 && !isNear ? added : kg && kilogramsIn(kg, unit)
  if (moved === null || moved <= 0) return null
  // Added load comes off before assistance is used.
  const bare = added > 0 ? 0 : Number.NEGATIVE_INFINITY
  const steps = Math.max(bare, added - moved * (1 - share)) / smallest
  const isNearer = !isNear && Math.round(steps) * smallest < added - noise
  const whole = isNearer ? Math.round(steps) : Math.floor(steps + noise)
  const less = tidy(Math.max(bare, whole * smallest))
  const isTooFar = isNear && added - less > moved * (1 - leastShare) + noise
  return less === added || isTooFar ? null : { ...load, added: less }
}

/** The fewest of the lightest plates that make the moved mass heavy enough. */
function heavierBody(load: BodyLoad, share: number, smallest: number, { name, bodyKg }: Lifter): Load | null {
  const moved = loadKilograms(load, name, bodyKg)
  if (moved === null || moved <= 0) return null
  for (let plates = 1; plates <= 8; plates++) {
    const heavier = { ...load, added: tidy(load.added + plates * smallest) }
    if ((loadKilograms(heavier, name, bodyKg) ?? 0) / moved >= share - noise) return heavier
  }
  return null
}

/** Adds repetitions to every set; false if a set is not counted in repetitions. */
export function moreReps(exercise: Exercise, count: number): boolean {
  const doses = exercise.sets.map(({ dose }) =>
    dose.kind === 'reps' ? { ...dose, from: dose.from + count, to: dose.to + count } : null,
  )
  if (doses.includes(null)) return false
  exercise.sets = exercise.sets.map((set, at) => ({ ...set, dose: doses[at]! }))
  return true
}

/** Removes repetitions from every set; false if fewer than one would be left, or a set is not counted in them. */
export function fewerReps(exercise: Exercise, count: number): boolean {
  if (!exercise.sets.every(({ dose }) => dose.kind === 'reps' && dose.from > count)) return false
  return moreReps(exercise, -count)
}

/** Rounds a sum of plates, because binary fractions do not add up exactly. */
function tidy(value: number): number {
  return Number(value.toFixed(3))
}
