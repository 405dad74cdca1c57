import { greatest, groups, sum } from 'd3-array'
import { noise } from '../figures/figure.ts'
import { cutCount } from '../figures/load.ts'
import { kilogramsOf } from '../units/mass.ts'
import { intervalsIn } from './checkRun.ts'
import {
  type Cut,
  type CutItem,
  type CutLine,
  cutItem,
  cutOf,
  isRace,
  leastWarmUp,
  type Minutes,
  secondsAlone,
  withSetsKept,
} from './cut.ts'
import { expectedSecondsOf, repsWhenOpen } from './expectedTime.ts'
import type { Dose, Interval, LiftItem, Part, Prescription, RunItem } from './model.ts'
import { type Item, itemsOf, printItem } from './print.ts'
import { hasResult, isSet, repsOf, type SetStep, type Step, stepsByItem } from './step.ts'

/* Cuts a day to the available minutes, either all of it beforehand or what is left of it during the session. */

type Role = 'warmUp' | 'coolDown' | 'repeats' | 'continuous' | 'main' | 'accessory' | 'prep' | 'stays'

const leastCoolDown = 300
const leastMainSets = 2

interface DayItem {
  role: Role
  line: CutLine
  /** How long an item in its place is expected to take. */
  secondsOf(item: Item): number
  /** The item with ever smaller shares of its work, down to a share of at least `leastShare` that takes at least
   * `leastSeconds`. */
  shorter(leastShare: number, leastSeconds?: number): Iterable<CutItem>
}

/** In which order a day is cut, and how far: every item of a row from the last one back, then the next row. This
 * program's own rule.
 * `ofDay`: the item as it becomes, smaller each time; null leaves it out.
 * `ofSession`: steps ahead that go together. They are done or dropped, so a cool-down and a warm-up stay. */
const order: readonly {
  role: Role
  ofDay: (item: DayItem, all: readonly DayItem[]) => Iterable<CutItem | null>
  ofSession?: (steps: Step[]) => Step[][]
}[] = [
  {
    role: 'accessory',
    ofDay: ({ line, shorter }) => [...fewerRounds(line.was), ...shorter(0), null],
    ofSession: (steps) => [...(isSuperset(steps) ? roundsOf(steps).slice(1).reverse() : []), steps],
  },
  { role: 'coolDown', ofDay: ({ shorter }) => shorter(0, leastCoolDown) },
  { role: 'repeats', ofDay: ({ shorter }) => shorter(0.5), ofSession: secondHalf },
  {
    role: 'main',
    ofDay: ({ line }) => fewerSets(line.was, 'backOff'),
    ofSession: (steps) => setsToDrop(steps, 'backOff'),
  },
  {
    role: 'main',
    ofDay: ({ line, shorter }) => [...fewerSets(line.was, 'all'), ...shorter(0.5)],
    ofSession: (steps) => setsToDrop(steps, 'all'),
  },
  {
    role: 'continuous',
    ofDay: ({ line, secondsOf, shorter }) => shorter(0, secondsOf(line.was) / 2),
    ofSession: secondHalf,
  },
  { role: 'prep', ofDay: (item, all) => (isEnoughWarmUpWithout(item, all) ? [null] : []) },
  { role: 'warmUp', ofDay: ({ shorter }) => shorter(0, leastWarmUp) },
]

/** The role of each item of a part, by its index. */
function rolesOf(part: Part): Role[] {
  if (part.kind === 'lift') return part.items.map((_, index) => (index === 0 ? 'main' : 'accessory'))
  if (part.kind !== 'run' && part.kind !== 'cross')
    return part.items.map(() => (part.kind === 'prep' ? 'prep' : 'stays'))
  const isWork = ({ step }: RunItem) => step.kind === 'work'
  const intervals = part.items.flatMap(({ step }) => intervalsIn(step))
  const fastest = Math.max(...intervals.map(({ target }) => (target?.kind === 'speed' ? target.to : 0)))
  const isEasy = (item: RunItem) => isEasyBeside(item, fastest)
  const hard = part.items.flatMap((item, index) => (isWork(item) && !isEasy(item) ? [index] : []))
  const [first = -1, last = -1] = [hard[0], hard.at(-1)]
  return part.items.map((item, index): Role => {
    if (!isWork(item)) return 'stays'
    const continuous = continuousOf(item)
    if (continuous !== null && isRace(continuous)) return 'stays'
    if (!isEasy(item)) return continuous === null ? 'repeats' : 'continuous'
    if (wordOf(item) === 'warm-up' || index < first) return 'warmUp'
    return wordOf(item) === 'cool-down' || (last !== -1 && index > last) ? 'coolDown' : 'continuous'
  })
}

/** The interval of a line that is run without a stop; null for any other line. */
function continuousOf({ step }: RunItem): Interval | null {
  if (step.kind === 'recovery' || step.body.kind === 'group' || (step.times ?? 1) > 1) return null
  return step.body.amounts.length === 1 ? step.body : null
}

/** On a treadmill no word goes with a speed, so one that is well below the fastest of the part is easy on the level.
 * This program's own rule. */
const easyShare = 0.85

function isEasyBeside(item: RunItem, fastest: number): boolean {
  const target = continuousOf(item)?.target
  if (target?.kind === 'speed') {
    const grade = item.step.kind === 'work' ? (item.step.grade ?? 0) : 0
    return grade <= 1 && target.to < easyShare * fastest
  }
  return target === null || /^(easy|relaxed|steady|warm-up|cool-down)$/.test(wordOf(item) ?? '')
}

function wordOf({ step }: RunItem): string | null {
  const target = step.kind === 'work' && step.body.kind === 'piece' ? step.body.target : null
  return target?.kind === 'word' ? target.word : null
}

/* A day beforehand. */

/** Only the running of a day, or only its lifting. */
export type Only = 'run' | 'lift'

/** Cuts the day until it should fit, or as far as possible, and says how long it is then expected to take.
 * @param minutes more than 0
 * @param expectedMinutes the expected length of a day
 * @param only keeps only the run (with cross) or only the lift parts; null keeps both */
export function cutToTime(
  prescription: Prescription,
  minutes: number,
  expectedMinutes: Minutes,
  only: Only | null = null,
): Cut & { minutes: number } {
  const lines = prescription.parts.map((part) =>
    itemsOf(part).map((was): CutLine => ({ was, is: isDropped(part, only) ? null : was, changes: [] })),
  )
  const taken = () => expectedMinutes(cutOf(prescription, lines).prescription)
  cutInOrder(dayItemsOf(prescription, lines, expectedMinutes), () => taken() <= minutes)
  return { ...cutOf(prescription, lines), minutes: taken() }
}

/** Cuts step by step until it is enough. */
function cutInOrder(all: readonly DayItem[], isEnough: () => boolean): void {
  for (const { role, ofDay } of order)
    for (const item of all.filter((each) => each.role === role && each.line.is !== null).reverse())
      for (const cut of ofDay(item, all)) {
        if (isEnough()) return
        Object.assign(item.line, cut ?? { is: null, changes: [] })
      }
}

function dayItemsOf(prescription: Prescription, lines: CutLine[][], expectedMinutes: Minutes): DayItem[] {
  return prescription.parts.flatMap((part, index) => {
    const secondsOf = (item: Item) => secondsAlone(item, part, prescription, expectedMinutes)
    return rolesOf(part).map((role, place): DayItem => {
      const line = lines[index]?.[place] as CutLine
      return {
        role,
        line,
        secondsOf,
        *shorter(leastShare, leastSeconds = 0) {
          let before = printItem(line.was)
          for (let percent = 99; percent >= Math.max(1, 100 * leastShare); percent--) {
            const cut = cutItem(line.was, percent / 100, prescription)
            const text = printItem(cut.is)
            if (text === before) continue
            if (leastSeconds > 0 && secondsOf(cut.is) < leastSeconds - noise) return
            yield cut
            before = text
          }
        },
      }
    })
  })
}

/** Which of the two a part belongs to; null for prep and fuel. */
function sideOf({ kind }: Part): Only | null {
  if (kind === 'cross') return 'run'
  return kind === 'run' || kind === 'lift' ? kind : null
}

function isDropped(part: Part, only: Only | null): boolean {
  return only !== null && ![only, null].includes(sideOf(part))
}

/** The running alone and the lifting alone, each cut to the minutes; of parts with both, those that fit.
 * @param cutTo cuts to the minutes, and says how many are left */
export function onlyChoices<Some extends { minutes: number }>(
  parts: readonly Part[],
  minutes: number,
  cutTo: (only: Only) => Some,
): { only: Only; cut: Some }[] {
  const both = (['run', 'lift'] as const).filter((only) => parts.some((part) => sideOf(part) === only))
  if (both.length < 2) return []
  return both.map((only) => ({ only, cut: cutTo(only) })).filter(({ cut }) => cut.minutes <= minutes)
}

/** `60 min is too short for both: the run only (54 min) or the lift only (36 min)`.
 * @param least minutes that the day takes, cut as far as possible @param named a choice: `the run only` */
export function tooShortText(
  minutes: number,
  least: number,
  choices: readonly { only: Only; cut: { minutes: number } }[],
  named: (only: Only) => string,
): string {
  const short = `${minutes} min is too short`
  if (choices.length === 0) return `${short}: cut as far as possible, it takes about ${Math.ceil(least)} min`
  const texts = choices.map(({ only, cut }) => `${named(only)} (${Math.ceil(cut.minutes)} min)`)
  return `${short} for both: ${texts.join(' or ')}`
}

/** Whether the warm-up of the day, prep included, is long enough without this item. */
function isEnoughWarmUpWithout(item: DayItem, all: readonly DayItem[]): boolean {
  const others = all.filter((each) => each !== item && (each.role === 'prep' || each.role === 'warmUp'))
  return sum(others, ({ line, secondsOf }) => (line.is === null ? 0 : secondsOf(line.is))) >= leastWarmUp
}

/** Takes rounds off the end of a superset, down to one. */
function* fewerRounds(was: Item): Iterable<CutItem> {
  if (!('exercises' in was) || was.exercises.length < 2) return
  for (let left = setsOf(was).length - 1; left > 0; left--) yield withSetsKept(was, (index) => index < left)
}

/** Drops sets of a main lift, the lightest first and among equals the last: its back-off sets (after the heaviest
 * set and lighter than it), or all; two stay. */
function* fewerSets(was: Item, which: 'backOff' | 'all'): Iterable<CutItem> {
  if (!('exercises' in was)) return
  const gone = new Set<number>()
  for (const next of removalOrder(setsOf(was), which, leastMainSets)) {
    gone.add(next)
    yield withSetsKept(was, (index) => !gone.has(index))
  }
}

/** Indexes of the sets to drop, in order. */
function removalOrder(heavy: readonly HeavySet[], which: 'backOff' | 'all', least: number): number[] {
  const sets = heavy.map((set, index) => ({ ...set, index }))
  const [heaviest] = [...sets].sort(heavierFirst)
  if (heaviest === undefined) return []
  const isBackOff = (set: (typeof sets)[number]) =>
    set.index > heaviest.index && weightOf(set) < weightOf(heaviest)
  const lightestFirst = [...sets].reverse().sort((a, b) => -heavierFirst(a, b))
  const backOff = lightestFirst.filter(isBackOff)
  const others = lightestFirst.filter((set) => !isBackOff(set))
  const going = which === 'backOff' ? backOff : [...backOff, ...others]
  return going.slice(0, Math.max(0, sets.length - least)).map(({ index }) => index)
}

type HeavySet = Pick<SetStep, 'dose' | 'load' | 'rpe'>

/** Of a superset those of the exercise with the most, because a round goes as a whole. */
function setsOf({ exercises }: LiftItem): HeavySet[] {
  return greatest(exercises, ({ sets }) => sets.length)?.sets ?? []
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

/* What is left of a day, during the session. */

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
  const gone = new Set<Step>(ahead.filter(({ part }) => isDropped(prescription.parts[part]!, only)))
  const isEnough = () => {
    const left = ahead.filter((step) => !gone.has(step))
    return expectedSecondsOf(left, prescription) <= minutes * 60
  }
  const roles = prescription.parts.map(rolesOf)
  const items = stepsByItem(ahead).reverse()
  const roleOf = ([step]: Step[]) => step && roles[step.part]?.[step.item]
  for (const { role, ofSession = () => [] } of order)
    for (const steps of items.filter((each) => roleOf(each) === role))
      for (const some of ofSession(steps)) if (!isEnough()) for (const step of some) gone.add(step)
  for (const step of ahead) if (!hasResult(step) && !leadsToStep(step, ahead, gone)) gone.add(step)
  return ahead.filter((step) => gone.has(step))
}

/** The repeats or splits that are not needed for half of them, from the last. */
function secondHalf(steps: Step[]): Step[][] {
  const isOver = (step: Step) => step.kind === 'interval' && step.number > cutCount(step.of, 0.5)
  return steps
    .filter(isOver)
    .map((step) => [step])
    .reverse()
}

/** The sets of a main lift to drop, in order. */
function setsToDrop(steps: Step[], which: 'backOff' | 'all'): Step[][] {
  const rounds = roundsOf(steps)
  const first = rounds.flatMap(([set]) => (set === undefined ? [] : [set]))
  const done = (first[0]?.number ?? 1) - 1
  return removalOrder(first, which, Math.max(0, leastMainSets - done)).map((index) => rounds[index] ?? [])
}

function isSuperset(steps: Step[]): boolean {
  return steps.some((step) => step.kind === 'set' && step.superset)
}

/** The sets of an item, round by round: one in each round, except in a superset. */
function roundsOf(steps: readonly Step[]): SetStep[][] {
  return groups(steps.filter(isSet), ({ number }) => number).map(([, round]) => round)
}

/** Whether a recovery or a warm-up set still leads to a step: of its part, or for a warm-up set of its item. */
function leadsToStep(step: Step, ahead: readonly Step[], gone: ReadonlySet<Step>): boolean {
  const next = ahead
    .slice(ahead.indexOf(step) + 1)
    .find((each) => hasResult(each) && !(step.kind === 'warm-up' && gone.has(each)))
  if (!next || next.part !== step.part || (step.kind === 'warm-up' && next.item !== step.item)) return false
  return !gone.has(next)
}
