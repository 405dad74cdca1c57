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
  const loads: number[] = []
  for (let index = 0; index < count; index++) {
    const next = index + 1 === count ? work : rack.nearest(nominal(index + 1))
    const load =
      index === 0
        ? rack.nearest(start)
        : handiest(rack, { before: loads.at(-1) ?? 0, at: nominal(index), most: next, by: mayMove * work })
    if (load !== null && load > (loads.at(-1) ?? 0) && load < work - noise) loads.push(load)
  }
  if (wholeFrom(reps, 1, 'the repetitions') <= 3 && work - (loads.at(-1) ?? 0) > lastJump * work + noise) {
    const single = rack.nearest(singleAt * work)
    if (single > (loads.at(-1) ?? 0) && single < work - noise) loads.push(single)
  }
  return loads.map((load, index) => ({
    load,
    reps: repetitions.find((each) => load < each.below * work - noise)?.reps ?? 1,
    restSeconds: index + 1 === loads.length ? restBeforeWork : restBetween,
  }))
}

/** The load near a step that moves the fewest plates; of several the nearest to the step, then the lower.
 * The nearest that can be made where none lies within reach. */
function handiest(rack: Rack, step: { before: number; at: number; most: number; by: number }): number {
  const off = (load: number) => Math.abs(load - step.at)
  const near = rack.loads.filter(
    (load) => off(load) <= step.by + noise && load > step.before && load <= step.most + noise,
  )
  const ranked = near
    .map((load) => ({ load, moves: platesMoved(rack, step.before, load) }))
    .sort((a, b) => a.moves - b.moves || off(a.load) - off(b.load) || a.load - b.load)
  return ranked[0]?.load ?? rack.nearest(step.at)
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
