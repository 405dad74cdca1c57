import type { Rack } from '../figures/bar.ts'
import type { Load } from '../prescription/model.ts'
import type { MassUnit } from '../units/model.ts'

/** What loads can be made of, in one unit. */
export interface AtHand {
  rack: Rack
  /** The lightest plate: what is hung on the body grows by it. */
  smallest: number
}

/** What does not lie on the bar grows by this, in its unit. Common practice, no source. */
const usualStep: Record<MassUnit, number> = { kg: 2.5, lb: 5 }
const less = 0.95
const noise = 1e-6
/** What masses are told apart by. */
const thousandth = 0.001

/** The same load one step heavier: on the bar the next that the plates make, else the usual step; with the body the
 * lightest plate more. Null for a percentage, the body alone, assistance, and where nothing heavier can be made. */
export function heavierLoad(load: Load, atHand: (unit: MassUnit) => AtHand): Load | null {
  return changedLoad(
    load,
    (value, unit, isOnBar) => {
      const { rack, smallest } = atHand(unit)
      if (load.kind === 'bodyweight') return value + smallest
      return isOnBar ? rack.atOrAbove(value + thousandth) : value + usualStep[unit]
    },
    atHand,
  )
}

/** The same load 5 % lighter, rounded down to what can be made; null as for heavierLoad. */
export function lighterLoad(load: Load, atHand: (unit: MassUnit) => AtHand): Load | null {
  return changedLoad(
    load,
    (value, unit, isOnBar) => {
      const { rack, smallest } = atHand(unit)
      if (isOnBar) return rack.atOrBelow(value * less + noise)
      const step = load.kind === 'bodyweight' ? smallest : usualStep[unit]
      return Math.floor((value * less) / step + noise) * step
    },
    atHand,
  )
}

function changedLoad(
  load: Load,
  change: (value: number, unit: MassUnit, isOnBar: boolean) => number | null,
  atHand: (unit: MassUnit) => AtHand,
): Load | null {
  if (load.kind === 'percent') return null
  if (load.kind === 'bodyweight') {
    const added = load.added > 0 ? change(load.added, load.unit, false) : null
    return added === null ? null : { ...load, added: tidy(added) }
  }
  const bare = atHand(load.unit).rack.loads[0] ?? Number.POSITIVE_INFINITY
  const isOnBar = !load.pair && load.from >= bare - noise
  const [from, to] = [load.from, load.to].map((value) => change(value, load.unit, isOnBar))
  if (from == null || to == null || from <= 0 || from === load.from) return null
  return { ...load, from: tidy(from), to: tidy(to) }
}

/** Sums of plates, without the dust of binary fractions. */
function tidy(value: number): number {
  return Number(value.toFixed(3))
}
