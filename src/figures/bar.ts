import { sort } from 'd3-array'
import { explanation, noise, num } from './figure.ts'

export interface PlatePairs {
  mass: number
  pairs: number
}

/** A bar with its plates, all in one unit, whichever it is. */
export interface Equipment {
  bar: number
  /** Mass of one collar; 0 without. */
  collar: number
  plates: readonly PlatePairs[]
  /** From one dumbbell, or plate of a stack, to the next; absent: `usualStep`. */
  dumbbellStep?: number
  /** Whether the exercise is on the bar, if the athlete has said so; otherwise its name decides. */
  isOnBar?: boolean
}

export interface LoadedBar {
  load: number
  /** Plates of one side, the heaviest first. */
  side: number[]
}

/** Masses are added in whole thousandths, which keeps the sums exact. */
const thousandths = 1000
/** The most sums that a set of plates may make; more is refused as a mistake in the settings. */
const mostSums = 20_000
/** Sides heavier than 500 kg or lb, in thousandths, are left out: nobody lifts them, and with 99 pairs of each plate
 * they would take seconds to add up. */
const heaviestSide = 500 * thousandths

/** The usual plates, four pairs of each. In kilograms: the IWF's discs from 25 to 2.5, and the 1.25 found in gyms; in
 * pounds: common practice.
 * Source: IWF rules; Common practice. */
export const usualPlates: Record<'kg' | 'lb', PlatePairs[]> = {
  kg: [25, 20, 15, 10, 5, 2.5, 1.25].map((mass) => ({ mass, pairs: 4 })),
  lb: [45, 35, 25, 10, 5, 2.5].map((mass) => ({ mass, pairs: 4 })),
}

/** Every load that the equipment can make, in order, each with its fewest plates. Worked out once and queried often. */
export interface Rack {
  /** Ascending; the first is the empty bar. */
  loads: readonly number[]
  /** Makes the load with the fewest plates (of several ways the one with the heavier plates);
   * null if impossible. */
  exactly: (load: number) => LoadedBar | null
  /** The largest load at or below, null below the empty bar; the smallest at or above, null above all. */
  atOrBelow: (load: number) => number | null
  atOrAbove: (load: number) => number | null
  /** The nearest, the lower on a tie. */
  nearest: (load: number) => number
}

/** Mass as whole thousandths, rounded. */
const whole = (mass: number): number => Math.round(mass * thousandths)

/** Finds every load that a bar and its plates can make, with up to 500 kg or lb on a side: load = bar + 2 x collar + 2 x
 * plates of a side.
 * @throws RangeError for a plate below 0.001, or far too many plates
 * Source: Common practice. */
export function rackOf(equipment: Equipment): Rack {
  const key = JSON.stringify([equipment.bar, equipment.collar, equipment.plates])
  const made = racks.get(key) ?? newRack(equipment)
  if (racks.size >= mostRacks) racks.clear()
  racks.set(key, made)
  return made
}

/** Cached, because every set of a day asks for the same few loads. */
const racks = new Map<string, Rack>()
const mostRacks = 20

function newRack(equipment: Equipment): Rack {
  const bare = whole(equipment.bar) + 2 * whole(equipment.collar)
  const sides = sidesOf(equipment.plates)
  const loads = sort(sides.keys()).map((sum) => (bare + 2 * sum) / thousandths)
  const atOrBelow = (load: number) => loads.findLast((each) => whole(each) <= whole(load)) ?? null
  const atOrAbove = (load: number) => loads.find((each) => whole(each) >= whole(load)) ?? null
  return {
    loads,
    exactly: (load) => {
      const side = sides.get((whole(load) - bare) / 2)
      return side === undefined ? null : { load: whole(load) / thousandths, side }
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

/** Finds the plates for a load, or the nearest loads below and above that can be made.
 * @throws RangeError as rackOf
 * Source: Common practice. */
export function loadBar(
  load: number,
  equipment: Equipment,
): { exact: LoadedBar | null; below: LoadedBar | null; above: LoadedBar | null } {
  const rack = rackOf(equipment)
  const exact = rack.exactly(load)
  const made = (near: number | null) => (near === null || exact !== null ? null : rack.exactly(near))
  return { exact, below: made(rack.atOrBelow(load)), above: made(rack.atOrAbove(load)) }
}

/** The plates of every possible side, the heaviest first, by their sum in thousandths: the fewest, and of several ways
 * the one with the heavier plates. */
function sidesOf(plates: readonly PlatePairs[]): Map<number, number[]> {
  let sides = new Map<number, number[]>([[0, []]])
  for (const { mass, pairs } of sort(plates, (plate) => plate.mass)) {
    if (whole(mass) === 0) throw new RangeError(`a plate must be at least 0.001, got ${mass}`)
    const more = new Map(sides)
    for (let n = 1; n <= pairs; n++) {
      for (const [sum, side] of sides) {
        const heavier = sum + n * whole(mass)
        const known = more.get(heavier)
        if (heavier > heaviestSide || (known !== undefined && known.length < side.length + n)) continue
        more.set(heavier, [...Array<number>(n).fill(mass), ...side])
      }
      if (more.size > mostSums)
        throw new RangeError(
          `these plates make more than ${mostSums} loads: give fewer pairs or fewer different masses`,
        )
    }
    sides = more
  }
  return sides
}

/* Shares of the working load. Common practice. */
const largestStep = 0.2
/** How far a load may shift to save plate changes, and the largest step after shifting. */
const mostShift = 0.05
const largestShiftedStep = 0.225
/** The largest last jump, and the single that is added before a larger one. */
const lastJump = 0.1
const singleAt = 0.91
/** Repetitions below each share of the working load; 1 from the last on. */
const repetitions = [
  { below: 0.5, reps: 8 },
  { below: 0.7, reps: 5 },
  { below: 0.85, reps: 3 },
]
const restBetween = 60
const restBeforeWork = 90

/** Dumbbells, kettlebells and weight stacks: loads at a fixed step, in the unit of the load. */
export interface Stack {
  step: number
}

/** The nearest load of dumbbells or a stack, in the unit of the step: the lower on a tie, but at least one step.
 * Source: Common practice. */
export function nearestInSteps(load: number, step: number): number {
  return Math.max(1, Math.ceil(load / step - 0.5 - noise)) * step
}

/** The usual step of dumbbells and stacks.
 * Source: Common practice. */
export const usualStep = { kg: 2.5, lb: 5 } as const

/** A warm-up from a start up to, but without, the first working load, in the unit of the equipment. Uses the fewest
 * equal steps of at most 20 % of the working load. Each step after the start may move by up to 5 % of it to the load
 * that needs the fewest plate changes after the step before, as long as no step exceeds 22.5 % of the working load.
 * Adds a single at about 91 % if the last jump would exceed 10 % and the set has at most 3 repetitions. Empty if no
 * load below the working load is possible.
 * @param reps repetitions of the first working set, all its groups together
 * @param equipment the bar and its plates, or the steps of dumbbells and stacks, which use the nearest load
 * The limits of 5, 10 and 22.5 % are this program's own.
 * Source: Common practice; This program's own rule. */
export function warmUpLoads(work: number, start: number, reps: number, equipment: Equipment | Stack) {
  const rack = 'step' in equipment ? null : rackOf(equipment)
  const near = (load: number) =>
    'step' in equipment ? nearestInSteps(load, equipment.step) : rack!.nearest(load)
  const count = stepsTo(work, start)
  const last = () => loads.at(-1) ?? 0
  const add = (load: number) => {
    if (load > last() && load < work - noise) loads.push(load)
  }
  const loads = [near(start)].filter((load) => load < work - noise)
  for (let index = 1; index < count; index++) {
    const lowest = work - (count - index) * largestShiftedStep * work
    const step = start + (index * (work - start)) / count
    add(
      rack
        ? handiest(rack, last(), step, mostShift * work, [lowest, last() + largestShiftedStep * work])
        : near(step),
    )
  }
  if (reps <= 3 && work - last() > lastJump * work + noise) {
    add(near(singleAt * work))
  }
  return loads.map((load, index) => ({
    load,
    reps: repetitions.find((each) => load < each.below * work - noise)?.reps ?? 1,
    restSeconds: index + 1 === loads.length ? restBeforeWork : restBetween,
  }))
}

/** The fewest equal steps of at most 20 % of the working load. */
function stepsTo(work: number, start: number): number {
  return Math.ceil((work - start) / (largestStep * work) - noise)
}

/** The load near a step that needs the fewest plate changes; among equals the nearest to the step, then the lower.
 * The nearest possible load if none is within reach.
 * @param limits the lowest and the highest load that make no step too large */
function handiest(
  rack: Rack,
  before: number,
  step: number,
  reach: number,
  [lowest, highest]: readonly [number, number],
): number {
  const off = (load: number) => Math.abs(load - step)
  const near = rack.loads.filter(
    (load) =>
      off(load) <= reach + noise && load > before && load >= lowest - noise && load <= highest + noise,
  )
  const [best = rack.nearest(step)] = sort(near, (load) => platesMoved(rack, before, load), off)
  return best
}

/** How many plates per side change between two loads, each made with its fewest plates as
 * the screen shows it. Infinite if one is impossible.
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

/** The bar of the examples. Source: This program's own rule. */
export const exampleBar: Equipment = { bar: 20, collar: 0, plates: usualPlates.kg }

export const barFigures = {
  plates: explanation({
    title: 'Plates on the bar',
    aliases: ['bar', 'plate', 'loading'],
    equation: ['load = bar + 2 x collar + 2 x sum of the plates of a side'],
    symbols: [
      ['plates', 'the fewest available ones that make it exactly; else the nearest loads', 'kg or lb'],
    ],
    sources: ['IWF rules', 'Common practice'],
    holds: 'for the bar, collars and plates in the settings, in the unit in which they are loaded.',
    holdsNot:
      'for plates that do not weigh what is written on them; 45 lb is 20.412 kg, not 20. Taking the largest plate first does not always work.',
    example: () => {
      const { load, side } = rackOf(exampleBar).exactly(92.5)!
      return [`20 + 2 x (${side.map((mass) => num(mass)).join(' + ')}) = ${num(load)}`]
    },
  }),
  'warm-up-sets': explanation({
    title: 'Warm-up sets',
    aliases: ['warm-up-ramp', 'ramp', 'warm-up', 'build-from'],
    equation: [
      'the fewest equal steps of at most 20 % of W from S up to W',
      'each after the first shifted by up to 5 % of W to the load with the fewest plate changes, no step over 22.5 % of W',
      'a single at about 91 % of W before a last jump over 10 % to 3 repetitions or fewer',
      'repetitions 8 below 50 % of W, 5 below 70 %, 3 below 85 %, else 1',
    ],
    symbols: [
      ['W', 'first working load', 'kg or lb'],
      ['S', 'start, as written', 'kg or lb'],
    ],
    sources: ['Common practice', "This program's own rule"],
    holds:
      'for a lift on a bar; dumbbells and machines take the nearest of their own steps. Rest 60 s between the steps, 90 s before the work.',
    holdsNot: 'as volume: warm-up sets are not recorded and do not count towards the tonnage.',
    example: () => {
      const [work, start] = [92.5, 40]
      const count = stepsTo(work, start)
      return [
        `(${work} - ${start}) / (20 % of ${work}) = ${num((work - start) / (largestStep * work))}: ${count} steps of ${num((work - start) / count)}`,
        ...warmUpLoads(work, start, 3, exampleBar).map(
          ({ load, reps, restSeconds }) =>
            `${num(load)} x ${reps} (${num((load / work) * 100, 0)} %), rest ${restSeconds} s`,
        ),
      ]
    },
  }),
}
