import { type Rack, usualStep } from '../figures/bar.ts'
import { bodyShare } from '../figures/oneRepMax.ts'
import type { Exercise, Load } from '../prescription/model.ts'
import { kilogramsOf, massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/** The available equipment, in one unit. */
export interface AtHand {
  rack: Rack
  /** The lightest plate: the step for loads added to the body. */
  smallest: number
}

const noise = 1e-6
/** The largest reduction of a load; if it does not suffice, the repetitions are reduced instead. */
const mostDown = 0.9

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

/** Changes a load to one that can be made, a percentage to a whole one; null if impossible, for body mass alone and, up,
 * for a percentage.
 * @param share of the load; with `near` or assistance a bodyweight lift's share is of the moved mass, which needs
 * `more`; 0.9 is 10 % less
 * @param toward `share`: the nearest to the share that is lighter than the load; `near`: that, but by at most 10 % (on the
 * body, the next below that a plate makes); `above`: the smallest that is at least `more.least` of the moved mass */
export function changedLoad(
  load: Load,
  share: number,
  toward: 'share' | 'near' | 'above',
  atHand: (unit: MassUnit) => AtHand,
  more: { name: string; bodyKg: number | null; least: number } = { name: '', bodyKg: null, least: 1 },
): Load | null {
  if (load.kind === 'last' || (load.kind === 'percent' && toward === 'above')) return null
  if (load.kind === 'percent') {
    const less = (percent: number) => Math.min(Math.round(percent * share), percent - 1)
    return { ...load, from: less(load.from), to: less(load.to) }
  }
  const { rack, smallest } = atHand(load.unit)
  if (load.kind === 'bodyweight') {
    if (toward === 'above') return heavierBody(load, smallest, more)
    if (load.added === 0) return null
    const moved = load.added > 0 && toward === 'share' ? load.added : movedWithBody(load, more)
    if (moved === null || moved <= 0) return null
    const less = load.added - moved * (1 - share)
    // What hangs on the body comes off before help is needed.
    const wanted = load.added > 0 ? Math.max(0, less) : less
    const steps = wanted / smallest
    const isNearer = toward === 'share' && Math.round(steps) * smallest < load.added - noise
    const whole = isNearer ? Math.round(steps) : Math.floor(steps + noise)
    const added = tidy(load.added > 0 ? Math.max(0, whole * smallest) : whole * smallest)
    const isTooFar = toward === 'near' && load.added - added > moved * (1 - mostDown) + noise
    return added === load.added || isTooFar ? null : { ...load, added }
  }
  const bare = rack.loads[0] ?? Number.POSITIVE_INFINITY
  const isOnBar = !load.pair && load.from >= bare
  const step = usualStep[load.unit]
  const made = (value: number): number | null => {
    if (toward === 'above') {
      const least = Math.max(value * more.least, value + 0.001)
      return isOnBar ? rack.atOrAbove(least) : value + Math.ceil((least - value) / step - noise) * step
    }
    const wanted = value * share
    const [below, above] = isOnBar
      ? [rack.atOrBelow(wanted), rack.atOrAbove(wanted)]
      : [Math.floor(wanted / step + noise) * step, Math.ceil(wanted / step - noise) * step]
    const isAboveNearer =
      above !== null && above < value - noise && above - wanted < wanted - (below ?? Number.NEGATIVE_INFINITY)
    const found = isAboveNearer ? above : below
    return found === null || found <= 0 || (toward === 'near' && found < value * mostDown - noise)
      ? null
      : found
  }
  const [from, to] = [made(load.from), made(load.to)]
  if (from === null || to === null) return null
  if (toward !== 'above' && from >= load.from) return null
  return { ...load, from: tidy(from), to: tidy(to) }
}

/** The moved mass in the load's own unit; null if the body mass is unknown. */
function movedWithBody(
  load: Extract<Load, { kind: 'bodyweight' }>,
  { name, bodyKg }: { name: string; bodyKg: number | null },
): number | null {
  const kg = loadKilograms(load, name, bodyKg)
  return kg === null ? null : massIn({ value: kg, unit: 'kg' }, load.unit)
}

/** The fewest of the lightest plates that make the moved mass heavy enough. */
function heavierBody(
  load: Extract<Load, { kind: 'bodyweight' }>,
  smallest: number,
  { name, bodyKg, least }: { name: string; bodyKg: number | null; least: number },
): Load | null {
  const moved = loadKilograms(load, name, bodyKg)
  if (moved === null || moved <= 0) return null
  for (let plates = 1; plates <= 8; plates++) {
    const heavier = { ...load, added: tidy(load.added + plates * smallest) }
    if ((loadKilograms(heavier, name, bodyKg) ?? 0) / moved >= least - noise) return heavier
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
