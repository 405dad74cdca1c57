import { type Equipment, type Rack, rackOf } from './bar.ts'
import { positive, wholeFrom } from './given.ts'

export interface RampStep {
  load: number
  reps: number
  restSeconds: number
}

/** Largest step, how far a step may move to spare plates, the last jump that is still fine, and where the
 * single is put before a larger one: all as shares of the working load. Common practice. */
const largestStep = 0.2
const mayMove = 0.05
const lastJump = 0.1
const singleAt = 0.91
const noise = 1e-9
/** Repetitions below each share of the working load; 1 from the last on. */
const repetitions = [
  { below: 0.5, reps: 8 },
  { below: 0.7, reps: 5 },
  { below: 0.85, reps: 3 },
]
const restBetween = 60
const restBeforeWork = 90

/** A warm-up ramp from a start up to, and without, the first working load, in the unit of the equipment.
 * The fewest equal steps of at most 20 % of the working load; each after the start may move by up to 5 % of it
 * to the load that needs the fewest plates put on or taken off after the step before, never beyond the step
 * after; a single at about 91 % where the last jump would exceed 10 % and the set has 3 repetitions or fewer.
 * Empty where nothing that can be made lies below the working load.
 * @param reps repetitions of the first working set, all its groups together
 * @throws RangeError for a load that is not above 0, a start that is not below it, or reps below 1
 * Source: Common practice. */
export function ramp(work: number, start: number, reps: number, equipment: Equipment): RampStep[] {
  if (!(positive(start, 'the start') < positive(work, 'the working load'))) {
    throw new RangeError(`a ramp starts below the working load ${work}, and ${start} arrived`)
  }
  const rack = rackOf(equipment)
  const count = Math.ceil((work - start) / (largestStep * work) - noise)
  const nominal = (index: number) => start + (index * (work - start)) / count
  const last = () => loads.at(-1) ?? 0
  const add = (load: number) => {
    if (load > last() && load < work - noise) loads.push(load)
  }
  const loads = [rack.nearest(start)].filter((load) => load < work - noise)
  for (let index = 1; index < count; index++) add(handiest(rack, last(), nominal(index), mayMove * work))
  if (wholeFrom(reps, 1, 'the repetitions') <= 3 && work - last() > lastJump * work + noise) {
    add(rack.nearest(singleAt * work))
  }
  return loads.map((load, index) => ({
    load,
    reps: repetitions.find((each) => load < each.below * work - noise)?.reps ?? 1,
    restSeconds: index + 1 === loads.length ? restBeforeWork : restBetween,
  }))
}

/** The load near a step that moves the fewest plates; of several the nearest to the step, then the lower.
 * The nearest that can be made where none lies within reach. Two steps lie more than 10 % apart and none moves
 * by more than 5 %, so none comes to lie beyond the next. */
function handiest(rack: Rack, before: number, step: number, reach: number): number {
  const off = (load: number) => Math.abs(load - step)
  const near = rack.loads.filter((load) => off(load) <= reach + noise && load > before)
  const ranked = near
    .map((load) => ({ load, moves: platesMoved(rack, before, load) }))
    .sort((a, b) => a.moves - b.moves || off(a.load) - off(b.load) || a.load - b.load)
  return ranked[0]?.load ?? rack.nearest(step)
}

/** How many plates of a side are put on or taken off between two loads, each made with its fewest plates as
 * the screen shows it. Infinite where one cannot be made.
 * Source: Common practice. */
export function platesMoved(rack: Rack, from: number, to: number): number {
  const before = rack.exactly(from)?.side
  const after = rack.exactly(to)?.side
  if (before === undefined || after === undefined) return Number.POSITIVE_INFINITY
  const left = [...before]
  let put = 0
  for (const plate of after) {
    const index = left.indexOf(plate)
    if (index === -1) put++
    else left.splice(index, 1)
  }
  return put + left.length
}
