import { notNegative, positive, wholeFrom } from './given.ts'

/** Plates of one mass, and how many pairs of them are there. */
export interface PlatePairs {
  mass: number
  pairs: number
}

/** A bar and what is there to put on it, all in one unit, whichever it is. */
export interface Equipment {
  bar: number
  /** Mass of one collar; 0 without. */
  collar: number
  plates: readonly PlatePairs[]
}

export interface LoadedBar {
  load: number
  /** Plates of one side, the heaviest first. */
  side: number[]
}

/** Masses are reckoned in whole thousandths, so that 1.25 + 1.25 is 2.5. */
const thousandths = 1000
/** More sums than this and a set of plates is refused: no garage has it. */
const mostSums = 400_000

/** The usual plates: four pairs of each, in kg the discs of the rules from 25 to 2.5 and the 1.25 of gyms, in lb
 * by custom.
 * Source: IWF rules; Common practice. */
export const usualPlates: Record<'kg' | 'lb', PlatePairs[]> = {
  kg: [25, 20, 15, 10, 5, 2.5, 1.25].map((mass) => ({ mass, pairs: 4 })),
  lb: [45, 35, 25, 10, 5, 2.5].map((mass) => ({ mass, pairs: 4 })),
}

/** Every load that the equipment can make, in order, each with its fewest plates, found once and then asked
 * as often as wanted. */
export interface Rack {
  /** Ascending; the first is the empty bar. */
  loads: readonly number[]
  /** The load as it is made with the fewest plates (of several such ways the one with the heavier plates);
   * null where nothing makes it. */
  exactly: (load: number) => LoadedBar | null
  /** The largest load at or below, null below the empty bar; the smallest at or above, null above all. */
  atOrBelow: (load: number) => number | null
  atOrAbove: (load: number) => number | null
  /** The nearest, the lower on a tie. */
  nearest: (load: number) => number
}

/** Mass as whole thousandths, rounded. */
const whole = (mass: number): number => Math.round(mass * thousandths)

/** All that a bar and its plates can make: load = bar + 2 x collar + 2 x plates of a side.
 * @throws RangeError for a bar or plate that is not above 0, pairs that are not whole, or far too many plates
 * Source: Common practice. */
export function rackOf(equipment: Equipment): Rack {
  const key = JSON.stringify([equipment.bar, equipment.collar, equipment.plates])
  const made = racks.get(key) ?? newRack(equipment)
  if (racks.size >= mostRacks) racks.clear()
  racks.set(key, made)
  return made
}

/** A day asks for the same few again at each of its sets. */
const racks = new Map<string, Rack>()
const mostRacks = 20

function newRack(equipment: Equipment): Rack {
  const plates = merged(equipment.plates)
  const bare =
    whole(positive(equipment.bar, 'the bar')) + 2 * whole(notNegative(equipment.collar, 'a collar'))
  const levels = fewestPlates(plates)
  const counts = levels[0] as Map<number, number>
  const sides = [...counts.keys()].sort((a, b) => a - b)
  const loads = sides.map((side) => (bare + 2 * side) / thousandths)
  const lastAtOrBelow = (load: number) => {
    const index = loads.findIndex((each) => whole(each) > whole(load))
    return index === -1 ? loads.length - 1 : index - 1
  }
  const atOrBelow = (load: number) => loads[lastAtOrBelow(load)] ?? null
  const atOrAbove = (load: number) => loads.find((each) => whole(each) >= whole(load)) ?? null
  return {
    loads,
    exactly: (load) => {
      const side = (whole(load) - bare) / 2
      return counts.has(side) ? { load: whole(load) / thousandths, side: sideOf(side, plates, levels) } : null
    },
    atOrBelow,
    atOrAbove,
    nearest: (load) => {
      const [below, above] = [atOrBelow(load), atOrAbove(load)]
      if (below === null || above === null) return (below ?? above) as number
      return whole(load) - whole(below) <= whole(above) - whole(load) ? below : above
    },
  }
}

/** What goes on the bar for a load: exactly, or the nearest below and above that can be made.
 * @throws RangeError for a load that is not above 0, and as rackOf
 * Source: Common practice. */
export function loadBar(
  load: number,
  equipment: Equipment,
): { exact: LoadedBar | null; below: LoadedBar | null; above: LoadedBar | null } {
  positive(load, 'the load')
  const rack = rackOf(equipment)
  const exact = rack.exactly(load)
  const made = (near: number | null) => (near === null || exact !== null ? null : rack.exactly(near))
  return { exact, below: made(rack.atOrBelow(load)), above: made(rack.atOrAbove(load)) }
}

/** One entry for each mass, the heaviest first, in thousandths; those without a pair left out. */
function merged(plates: readonly PlatePairs[]): PlatePairs[] {
  const pairs = new Map<number, number>()
  for (const plate of plates) {
    const mass = whole(positive(plate.mass, 'a plate'))
    if (mass === 0) throw new RangeError(`a plate must be at least 0.001, and ${plate.mass} arrived`)
    pairs.set(mass, (pairs.get(mass) ?? 0) + wholeFrom(plate.pairs, 0, 'the pairs of a plate'))
  }
  const list = [...pairs].map(([mass, count]) => ({ mass, pairs: count }))
  return list.filter((plate) => plate.pairs > 0).sort((a, b) => b.mass - a.mass)
}

/** For each position in the list: the fewest plates, from there on, for every sum of a side. */
function fewestPlates(plates: readonly PlatePairs[]): Map<number, number>[] {
  const levels: Map<number, number>[] = [new Map([[0, 0]])]
  for (const { mass, pairs } of [...plates].reverse()) {
    const sums = new Map<number, number>()
    for (const [sum, count] of levels[0] as Map<number, number>) {
      for (let n = 0; n <= pairs; n++) {
        const known = sums.get(sum + n * mass)
        if (known === undefined || count + n < known) sums.set(sum + n * mass, count + n)
        if (sums.size > mostSums)
          throw new RangeError('so many plates of so many masses cannot be reckoned with')
      }
    }
    levels.unshift(sums)
  }
  return levels
}

/** The plates behind a sum: of each mass, from the heaviest, as many as still leave the fewest. */
function sideOf(
  sum: number,
  plates: readonly PlatePairs[],
  levels: readonly Map<number, number>[],
): number[] {
  const side: number[] = []
  let left = sum
  for (const [index, { mass, pairs }] of plates.entries()) {
    const fewest = levels[index]?.get(left) as number
    let n = Math.min(pairs, Math.floor(left / mass))
    while ((levels[index + 1]?.get(left - n * mass) ?? Number.POSITIVE_INFINITY) + n !== fewest) n--
    side.push(...Array<number>(n).fill(mass / thousandths))
    left -= n * mass
  }
  return side
}
