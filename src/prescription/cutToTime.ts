import { groups, sum } from 'd3-array'
import { cutCount } from '../figures/fuel.ts'
import { counted } from '../units/decimal.ts'
import { printDuration } from '../units/duration.ts'
import { kilogramsOf } from '../units/mass.ts'
import { type Cut, type CutLine, cutItem, cutOf, withSetsKept } from './cut.ts'
import { expectedSecondsOf, repsWhenOpen } from './expectedTime.ts'
import type { Dose, Interval, LiftItem, Part, Prescription, RunItem } from './model.ts'
import { type Item, itemsOf } from './print.ts'
import { hasNoResult, isSet, repsOf, type SetStep, type Step, stepsByItem } from './step.ts'

/* Cuts a day to the available minutes, either all of it beforehand or what is left of it during the session. Both
 * use the same roles in the same order. This program's own rule: accessories go from the last one back, a superset
 * (like rounds against the clock) losing rounds first; then the cool-down shrinks to 5 min, repeats to half,
 * back-off sets go, sets of the main lift down to 2, its rounds against the clock to half, continuous running to
 * half, and last the warm-up to 10 min. */

type Role = 'warmUp' | 'coolDown' | 'repeats' | 'continuous' | 'main' | 'accessory' | 'prep' | 'stays'

const leastWarmUp = 600
const leastCoolDown = 300
const leastMainSets = 2

/** The role of each item of a part, by its index. */
function rolesOf(part: Part): Role[] {
  if (part.kind === 'lift') return part.items.map((_, index) => (index === 0 ? 'main' : 'accessory'))
  if (part.kind === 'prep') return part.items.map(() => 'prep')
  if (part.kind === 'fuel') return part.items.map(() => 'stays')
  const isWork = ({ step }: RunItem) => step.kind === 'work'
  const hard = part.items.flatMap((item, index) => (isWork(item) && !isEasy(item) ? [index] : []))
  const [first = -1, last = -1] = [hard[0], hard.at(-1)]
  return part.items.map((item, index): Role => {
    if (!isWork(item)) return 'stays'
    if (!isEasy(item)) return continuousOf(item) === null ? 'repeats' : 'continuous'
    if (wordOf(item) === 'warm-up' || index < first) return 'warmUp'
    return wordOf(item) === 'cool-down' || (last !== -1 && index > last) ? 'coolDown' : 'continuous'
  })
}

/** The interval of a line that is run without a stop; null for any other line. */
function continuousOf({ step }: RunItem): Interval | null {
  if (step.kind === 'recovery' || step.body.kind === 'group' || (step.times ?? 1) > 1) return null
  return step.body.amounts.length === 1 ? step.body : null
}

function isEasy(item: RunItem): boolean {
  const interval = continuousOf(item)
  return (
    interval !== null &&
    (interval.target === null || /^(easy|relaxed|steady|warm-up|cool-down)$/.test(wordOf(item) ?? ''))
  )
}

function wordOf({ step }: RunItem): string | null {
  const target = step.kind === 'work' && step.body.kind === 'piece' ? step.body.target : null
  return target?.kind === 'word' ? target.word : null
}

// ---- a day beforehand ------------------------------------------------------------------------

export type Minutes = (prescription: Prescription) => number

/** Only the running of a day, or only its lifting. */
export type Only = 'run' | 'lift'

export interface CutToTime extends Cut {
  fits: boolean
  /** The expected length of the cut day. */
  minutes: number
}

/** Cuts the day until it should fit, or as far as possible, and says whether it fits.
 * @param minutes more than 0
 * @param expectedMinutes the expected length of a day
 * @param only keeps only the run (with cross) or only the lift parts; null keeps both
 * @throws RangeError unless minutes is above 0 */
export function cutToTime(
  prescription: Prescription,
  minutes: number,
  expectedMinutes: Minutes,
  only: Only | null = null,
): CutToTime {
  if (!(minutes > 0)) throw new RangeError(`The minutes must be more than 0, but are ${minutes}.`)
  const lines = prescription.parts.map((part) =>
    itemsOf(part).map((was): CutLine => ({ was, is: isDropped(part, only) ? null : was, changes: [] })),
  )
  const taken = () => expectedMinutes(cutOf(prescription, lines).prescription)
  const isEnough = () => taken() <= minutes
  const secondsOf = (part: number, item: Item) => {
    const alone = { ...prescription.parts[part], items: [item] } as Part
    return 60 * expectedMinutes({ ...prescription, parts: [alone] })
  }
  for (const way of waysToCut(prescription, lines, secondsOf)) applyLeast(way, isEnough)
  const rest = taken()
  return { ...cutOf(prescription, lines), fits: rest <= minutes, minutes: rest }
}

function isDropped(part: Part, only: Only | null): boolean {
  const kind = part.kind === 'cross' ? 'run' : part.kind
  return only !== null && (kind === 'run' || kind === 'lift') && kind !== only
}

/** The running alone and the lifting alone, each cut to the minutes; for a day with both, those that fit. */
export function onlyChoices(
  prescription: Prescription,
  minutes: number,
  expectedMinutes: Minutes,
): { only: Only; cut: CutToTime }[] {
  const kinds = prescription.parts.map(({ kind }) => kind)
  if (!kinds.includes('lift') || !kinds.some((kind) => kind === 'run' || kind === 'cross')) return []
  return (['run', 'lift'] as const)
    .map((only) => ({ only, cut: cutToTime(prescription, minutes, expectedMinutes, only) }))
    .filter(({ cut }) => cut.fits)
}

/** One line and its possible cuts, from the smallest to the largest. */
interface Way {
  line: CutLine
  levels: (() => { item: Item | null; changes: string[] })[]
}

/** Takes the smallest cut that suffices, else the largest. */
function applyLeast({ line, levels }: Way, isEnough: () => boolean): void {
  if (line.is === null || levels.length === 0 || isEnough()) return
  const take = (level: number) => {
    const cut = levels[level]?.()
    if (cut) Object.assign(line, { is: cut.item, changes: cut.changes })
  }
  let [from, to] = [0, levels.length - 1]
  while (from < to) {
    const middle = Math.floor((from + to) / 2)
    take(middle)
    if (isEnough()) to = middle
    else from = middle + 1
  }
  take(to)
}

/** Every cut in the order in which they are tried. Lazy, because later ones depend on earlier ones. */
function* waysToCut(
  prescription: Prescription,
  lines: CutLine[][],
  secondsOf: (part: number, item: Item) => number,
): Generator<Way> {
  const all = prescription.parts.flatMap((part, index) =>
    rolesOf(part).map((role, item) => ({ role, part: index, line: lines[index]?.[item] as CutLine })),
  )
  const of = (role: Role) => all.filter((each) => each.role === role).reverse()
  const gone = () => ({ item: null, changes: [] })
  const shorter = (part: number, line: CutLine, least: number) =>
    shorterLevels(line.was, prescription, (item) => secondsOf(part, item) >= least - 1e-6)

  for (const { line } of of('accessory'))
    yield { line, levels: [...roundLevels(line.was), ...clockLevels(line.was, 0), gone] }
  for (const { part, line } of of('coolDown')) yield { line, levels: shorter(part, line, leastCoolDown) }
  for (const { line } of of('repeats')) yield { line, levels: repeatLevels(line.was, prescription) }
  for (const { line } of of('main')) yield { line, levels: setLevels(line, 'backOff') }
  for (const { line } of of('main')) yield { line, levels: setLevels(line, 'all') }
  for (const { line } of of('main')) yield { line, levels: clockLevels(line.was, 0.5) }
  for (const { part, line } of of('continuous')) {
    const whole = secondsOf(part, line.was)
    const hasRepeats = all.some((each) => each.part === part && each.role === 'repeats')
    const isAllEasy = !hasRepeats && 'step' in line.was && isEasy(line.was)
    yield {
      line,
      levels: shorter(part, line, Math.max(whole / 2, isAllEasy ? Math.min(whole, leastWarmUp) : 0)),
    }
  }
  const secondsIn = (some: typeof all) =>
    sum(some, ({ part, line }) => (line.is === null ? 0 : secondsOf(part, line.is)))
  for (const { part, line } of of('prep')) {
    const warmUp = secondsIn([...of('prep'), ...of('warmUp')])
    if (line.is !== null && warmUp - secondsOf(part, line.is) >= leastWarmUp) yield { line, levels: [gone] }
  }
  for (const { part, line } of of('warmUp')) {
    const others = secondsIn(of('warmUp').filter((each) => each.part === part && each.line !== line))
    yield { line, levels: shorter(part, line, Math.max(60, leastWarmUp - others)) }
  }
}

/** Takes rounds off the end of a superset, down to one; a single exercise goes completely. */
function roundLevels(was: Item): Way['levels'] {
  if (!('exercises' in was) || was.exercises.length < 2) return []
  const most = Math.max(...was.exercises.map(({ sets }) => sets.length))
  return downFrom(most, 1).map((left) => () => withSetsKept(was, (index) => index < left))
}

/** Takes rounds off rounds for time, and whole minutes off an AMRAP of rounds, down to a share of them and to one. */
function clockLevels(was: Item, least: number): Way['levels'] {
  const only = 'exercises' in was && was.exercises.length === 1 ? was.exercises[0] : undefined
  const [set, ...others] = only?.sets ?? []
  if (only === undefined || set === undefined || others.length > 0) return []
  const { dose } = set
  const cutTo = (shorter: typeof dose, change: string) => ({
    item: { ...was, exercises: [{ ...only, sets: [{ ...set, dose: shorter }] }] } as Item,
    changes: [change],
  })
  const down = (count: number) => downFrom(count, Math.max(1, cutCount(count, Math.max(least, 0.01))))
  if (dose.kind === 'forTime')
    return down(dose.rounds).map(
      (rounds) => () => cutTo({ ...dose, rounds }, `was ${counted(dose.rounds, 'round')}`),
    )
  if (dose.kind !== 'roundsIn') return []
  const minutes = Math.ceil(dose.seconds / 60)
  return down(minutes).map(
    (left) => () => cutTo({ ...dose, seconds: left * 60 }, `was ${printDuration(dose.seconds)}`),
  )
}

/** Takes repeats off the end, and rungs off a ladder, down to half, rounded up. */
function repeatLevels(was: Item, prescription: Prescription): Way['levels'] {
  if (!('step' in was) || was.step.kind === 'recovery') return []
  const { times, body } = was.step
  const count = times ?? (body.kind === 'piece' ? body.amounts.length : 20)
  return downFrom(count, cutCount(count, 0.5)).map(
    (left) => () => cutItem(was, left / count, prescription, 'repeats'),
  )
}

function downFrom(count: number, least: number): number[] {
  return Array.from({ length: Math.max(0, count - least) }, (_, index) => count - 1 - index)
}

/** Makes an interval shorter, percent by percent, as long as it stays long enough. */
function shorterLevels(
  was: Item,
  prescription: Prescription,
  isLongEnough: (item: Item) => boolean,
): Way['levels'] {
  const levels: Way['levels'] = []
  for (let percent = 99; percent >= 1; percent--) {
    const cut = cutItem(was, percent / 100, prescription)
    if (cut.changes.length === 0) continue
    if (!isLongEnough(cut.item)) break
    levels.push(() => cut)
  }
  return levels
}

/** Drops sets of a main lift, the lightest first and among equals the last: its back-off sets (after the heaviest
 * set and lighter than it), or all; two stay. */
function setLevels({ was, is }: CutLine, which: 'backOff' | 'all'): Way['levels'] {
  if (is === null || !('exercises' in was) || !('exercises' in is)) return []
  const order = removalOrder(
    setsOf(was).map((set, index) => ({ ...set, index })),
    which,
  )
  const gone = setsOf(was).length - setsOf(is).length
  return order.slice(gone).map((_, level) => () => {
    const without = order.slice(0, gone + level + 1)
    return withSetsKept(was, (index) => !without.includes(index))
  })
}

/** Indexes of the sets to drop, in order. */
function removalOrder(
  sets: readonly (HeavySet & { index: number })[],
  which: 'backOff' | 'all',
  least = leastMainSets,
): number[] {
  const heaviest = [...sets].sort(heavierFirst)[0]
  if (heaviest === undefined) return []
  const isBackOff = (set: (typeof sets)[number]) =>
    set.index > heaviest.index && weightOf(set) < weightOf(heaviest)
  const last = (a: { index: number }, b: { index: number }) => b.index - a.index
  const backOff = sets.filter(isBackOff).sort((a, b) => -heavierFirst(a, b) || last(a, b))
  const others = sets.filter((set) => !isBackOff(set)).sort((a, b) => -heavierFirst(a, b) || last(a, b))
  const order = which === 'backOff' ? backOff : [...backOff, ...others]
  return order.slice(0, Math.max(0, sets.length - least)).map(({ index }) => index)
}

type HeavySet = Pick<SetStep, 'dose' | 'load' | 'rpe'>

/** For a superset the sets of its first exercise: a round goes as a whole. */
function setsOf({ exercises }: LiftItem): HeavySet[] {
  const most = Math.max(...exercises.map(({ sets }) => sets.length))
  const longest = exercises.find(({ sets }) => sets.length === most)
  return longest?.sets ?? []
}

/** Compares by load; equal loads by fewer repetitions, then by effort. */
function heavierFirst(a: HeavySet, b: HeavySet): number {
  return (
    weightOf(b) - weightOf(a) || hardReps(a.dose) - hardReps(b.dose) || (b.rpe?.to ?? 0) - (a.rpe?.to ?? 0)
  )
}

/** Compares loads only within one exercise: kilograms, or per cent. */
function weightOf({ load }: HeavySet): number {
  if (load === null) return 0
  if (load.kind === 'bodyweight' || load.kind === 'last')
    return kilogramsOf({ value: load.added, unit: load.unit })
  return load.kind === 'mass' ? kilogramsOf({ value: load.to, unit: load.unit }) : load.to
}

/** An open end is harder than the number alone, and AMRAP is the hardest. */
function hardReps(dose: Dose): number {
  if (dose.kind === 'max') return 0
  return (repsOf(dose, repsWhenOpen) ?? 0) - (dose.kind === 'atLeast' ? 0.5 : 0)
}

// ---- what is left of a day, during the session -----------------------------------------------

/** Which of the steps ahead to drop so that the rest fits into the remaining minutes, in the order in which a
 * whole day is cut. A step is done or dropped: a cool-down, a warm-up and an interval without splits cannot be made
 * shorter, so they stay. Finished steps count towards the half of the repeats and the two sets that stay.
 * @param only drops the running or the lifting completely; null keeps both as far as possible */
export function cutToMinutes(
  ahead: readonly Step[],
  minutes: number,
  prescription: Prescription,
  only: Only | null = null,
): Step[] {
  const kindOf = ({ part }: Step) => prescription.parts[part]
  const gone = new Set<Step>(
    ahead.filter((step) => {
      const part = kindOf(step)
      return part !== undefined && isDropped(part, only)
    }),
  )
  const left = () => ahead.filter((step) => !gone.has(step))
  const isEnough = () => expectedSecondsOf(left(), prescription) <= minutes * 60
  const drop = (steps: readonly Step[]) => {
    if (!isEnough()) for (const step of steps) gone.add(step)
  }
  const roles = prescription.parts.map(rolesOf)
  const items = stepsByItem(ahead)
    .map((steps) => ({ steps, role: roles[steps[0]?.part ?? -1]?.[steps[0]?.item ?? -1] ?? 'stays' }))
    .reverse()
  const of = (role: Role) => items.filter((item) => item.role === role).map(({ steps }) => steps)
  const secondHalf = (steps: readonly Step[]) =>
    steps.filter((step) => step.kind === 'interval' && step.number > cutCount(step.of, 0.5)).reverse()

  for (const steps of of('accessory')) {
    const sets = steps.filter(isSet)
    if (sets.some(({ superset }) => superset))
      for (const round of roundsOf(sets).slice(1).reverse()) drop(round)
    drop(steps)
  }
  for (const steps of of('repeats')) for (const step of secondHalf(steps)) drop([step])
  for (const which of ['backOff', 'all'] as const)
    for (const steps of of('main')) {
      const rounds = roundsOf(steps.filter(isSet))
      const done = (rounds[0]?.[0]?.number ?? 1) - 1
      const sets = rounds.map((round, index) => ({ ...(round[0] as SetStep), index }))
      for (const index of removalOrder(sets, which, Math.max(0, leastMainSets - done)))
        drop(rounds[index] ?? [])
    }
  for (const steps of of('continuous')) for (const step of secondHalf(steps)) drop([step])
  for (const step of ahead) if (hasNoResult(step) && !leadsToStep(step, ahead, gone)) gone.add(step)
  return ahead.filter((step) => gone.has(step))
}

/** The sets of an item, round by round: one in each round, except in a superset. */
function roundsOf(sets: readonly SetStep[]): SetStep[][] {
  return groups(sets, ({ number }) => number).map(([, round]) => round)
}

/** Whether a recovery or a warm-up set still leads to a step: of its part, or for a warm-up set of its item. */
function leadsToStep(step: Step, ahead: readonly Step[], gone: ReadonlySet<Step>): boolean {
  const next = ahead
    .slice(ahead.indexOf(step) + 1)
    .find((each) => !hasNoResult(each) && !(step.kind === 'warm-up' && gone.has(each)))
  if (!next || next.part !== step.part || (step.kind === 'warm-up' && next.item !== step.item)) return false
  return !gone.has(next)
}
