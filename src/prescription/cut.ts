import { sum } from 'd3-array'
import { cutCount, cutMeters, cutSeconds } from '../figures/load.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { printDuration } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { Length } from '../units/model.ts'
import type { Amount, Dose, Exercise, Interval, LiftItem, Part, Prescription, Work } from './model.ts'
import {
  clippedLine,
  type Item,
  itemsOf,
  mostCharacters,
  partName,
  printAmounts,
  printedLines,
  printItem,
} from './print.ts'
import { hasClusters, lapMetersOf } from './step.ts'
import { isRaceWord } from './words.ts'

/** An item of the day as it was, and what it became; null if it is left out. */
export interface CutLine {
  was: Item
  is: Item | null
  /** One short phrase each; empty if the item is as it was. */
  changes: string[]
}

export interface Cut {
  prescription: Prescription
  /** Every original item, part by part. */
  lines: CutLine[][]
}

export type Minutes = (prescription: Prescription) => number

/** This program's own limit, in seconds. */
export const leastWarmUp = 600

/** Cuts the running of a day by a fraction; lifts stay as they are. This program's own rule: a warm-up stays if it would
 * become shorter than 10 min, and a race always.
 * @param fraction over 0 and at most 1 */
export function cutForRace(prescription: Prescription, fraction: number, expectedMinutes: Minutes): Cut {
  const lines = prescription.parts.map((part) => {
    const first = itemsOf(part).find((item) => 'step' in item && item.step.kind === 'work')
    return itemsOf(part).map((was): CutLine => {
      const cut = { was, ...cutItem(was, fraction, prescription) }
      const seconds = was === first ? secondsAlone(cut.is, part, prescription, expectedMinutes) : null
      const stays = part.kind !== 'run' || (seconds !== null && seconds < leastWarmUp)
      return stays ? { was, is: was, changes: [] } : cut
    })
  })
  return cutOf(prescription, lines)
}

/** How long an item is expected to take in the place of its part. */
export function secondsAlone(
  item: Item,
  part: Part,
  prescription: Prescription,
  expectedMinutes: Minutes,
): number {
  const alone = { ...part, items: [item] } as Part
  return 60 * expectedMinutes({ ...prescription, parts: [alone] })
}

/** Builds the day from the lines; drops empty parts. */
export function cutOf(prescription: Prescription, lines: CutLine[][]): Cut {
  const parts = prescription.parts.flatMap((part, index): Part[] => {
    const items = (lines[index] ?? []).flatMap(({ is }) => (is === null ? [] : [is]))
    return items.length === 0 ? [] : [{ ...part, items } as Part]
  })
  return { prescription: { ...prescription, parts }, lines }
}

/** Writes a cut day as notation, with each change as a comment on its line. Ends with a line end. */
export function printCut({ prescription, lines }: Cut): string {
  const heads = printedLines({ ...prescription, parts: [] }).map(({ text }) => text)
  const kept = [...prescription.parts]
  const parts = lines.flatMap((part) => {
    const body = part.map(printLine)
    const isGone = part.every(({ is }) => is === null)
    const head = isGone ? undefined : kept.shift()
    if (head === undefined) return ['', ...body]
    return ['', partName(head), ...body]
  })
  return `${[...heads, ...parts].join('\n')}\n`
}

/** Writes the changes after the item, or above it if the line would become too long. */
function printLine({ was, is, changes }: CutLine): string {
  if (is === null) return clippedLine(`  # left out: ${printItem(was)}`)
  const text = `  ${printItem(is)}`
  if (changes.length === 0) return text
  const comment = `  # ${changes.join('; ')}`
  return [...text, ...comment].length <= mostCharacters ? text + comment : `${clippedLine(comment)}\n${text}`
}

/* Makes one item shorter. Loads, rests and paces stay; every count stays at 1 or more. */

/** What an item became. */
export type CutItem = Omit<CutLine, 'was'> & { is: Item }

/** Cuts an item of running, or rounds against the clock, by a fraction; any other item stays as it is.
 * @param fraction over 0 and at most 1 */
export function cutItem(item: Item, fraction: number, prescription: Prescription): CutItem {
  if ('exercises' in item) return cutRounds(item, fraction)
  if (!('step' in item) || item.step.kind === 'recovery') return { is: item, changes: [] }
  const changes: string[] = []
  const work = cutWork(item.step, fraction, prescription, changes)
  const step = withFittingTargets(withoutIdleRecovery(work), 1)
  return { is: { ...item, step }, changes }
}

/** Takes rounds off rounds for time, and time off as many rounds as possible. */
function cutRounds(item: LiftItem, fraction: number): CutItem {
  const changes: string[] = []
  const cutDose = (dose: Dose): Dose => {
    if (dose.kind === 'forTime') {
      const rounds = cutCount(dose.rounds, fraction)
      if (rounds < dose.rounds) changes.push(`was ${counted(dose.rounds, 'round')}`)
      return { ...dose, rounds }
    }
    if (dose.kind !== 'roundsIn') return dose
    const seconds = cutSeconds(dose.seconds, fraction)
    if (seconds < dose.seconds) changes.push(`was ${printDuration(dose.seconds)}`)
    return { ...dose, seconds }
  }
  const exercises = item.exercises.map((each) => ({
    ...each,
    sets: each.sets.map((set) => ({ ...set, dose: cutDose(set.dose) })),
  }))
  return { is: { ...item, exercises }, changes }
}

/** The item with only some of its sets, or rounds, chosen by index. At least one set of each exercise stays. */
export function withSetsKept(item: LiftItem, isKept: (index: number) => boolean): CutItem {
  const exercises = item.exercises.map((each) => {
    const sets = each.sets.filter((_, index) => isKept(index))
    return { ...each, sets: sets.length === 0 ? each.sets.slice(0, 1) : sets }
  })
  const before = item.exercises.map((each) => each.sets.length)
  if (exercises.every((each, index) => each.sets.length === before[index])) return { is: item, changes: [] }
  const most = Math.max(...before)
  const isAlike = before.every((count) => count === most)
  const what = exercises.length === 1 ? 'sets' : 'rounds'
  const pause = exercises.length > 1 || hasClusters(exercises) ? item.pause : null
  return {
    is: { ...item, exercises, pause, buildFrom: warmUpTo(exercises, item) },
    changes: [isAlike ? `was ${most} ${what}` : `was ${before.join(' and ')} sets`],
  }
}

/** The load that the warm-up sets start from; null if they go. They go with the first set, unless the load of the new
 * first set is known as well and heavier. */
function warmUpTo([first]: Exercise[], { buildFrom, exercises }: LiftItem): LiftItem['buildFrom'] {
  const [was, is] = [exercises[0]?.sets[0]?.load, first?.sets[0]?.load]
  if (buildFrom === null || !was || !is) return null
  if (is.kind === 'mass')
    return kilogramsOf({ value: is.from, unit: is.unit }) > kilogramsOf(buildFrom) ? buildFrom : null
  return is.kind === 'percent' && was.kind === 'percent' && is.from >= was.from ? buildFrom : null
}

/** A ladder with one rung left needs no recovery. */
function withoutIdleRecovery(work: Work): Work {
  const isOne = work.times === null && work.body.kind === 'piece' && work.body.amounts.length === 1
  return isOne ? { ...work, recovery: null } : work
}

/** Keeps the first times of a list, one for each repeat that is left.
 * @param times how often the groups around it repeat the work */
function withFittingTargets(work: Work, times: number): Work {
  const often = times * (work.times ?? 1)
  const { body } = work
  if (body.kind === 'group') {
    const steps = body.steps.map((step) => (step.kind === 'work' ? withFittingTargets(step, often) : step))
    return { ...work, body: { ...body, steps } }
  }
  const { target, amounts } = body
  const count = often * amounts.length
  if (target?.kind !== 'times' || target.each.length === count) return work
  const each = target.each.slice(0, count)
  const [only] = each
  const kept =
    each.length > 1 ? { ...target, each } : only === undefined ? null : { kind: 'time' as const, ...only }
  return { ...work, body: { ...body, target: kept } }
}

function cutWork(work: Work, fraction: number, prescription: Prescription, changes: string[]): Work {
  if (work.times !== null && work.times > 1) {
    const times = cutCount(work.times, fraction)
    if (times < work.times) changes.push(`was ${work.times} x`)
    return { ...work, times }
  }
  if (work.body.kind === 'group') {
    const steps = work.body.steps.map((step) =>
      step.kind === 'recovery' ? step : cutWork(step, fraction, prescription, changes),
    )
    return { ...work, body: { kind: 'group', steps } }
  }
  if (isRace(work.body)) return work
  const { amounts } = work.body
  // A ladder loses rungs from its end.
  const cut =
    amounts.length > 1
      ? amounts.slice(0, cutCount(amounts.length, fraction))
      : amounts.map((amount) => cutAmount(amount, fraction, prescription))
  return { ...work, body: withAmounts(work.body, cut, changes) }
}

/** Whether an interval is a race or a trial, which cannot be shortened. */
export function isRace({ target }: Interval): boolean {
  return target?.kind === 'word' && isRaceWord(target.word)
}

/** Keeps the pace that a time for the whole interval gives. */
function withAmounts(interval: Interval, amounts: Amount[], changes: string[]): Interval {
  const was = printAmounts(interval.amounts)
  if (printAmounts(amounts) === was) return interval
  changes.push(`was ${was}`)
  const share = totalOf(amounts) / totalOf(interval.amounts)
  const { target } = interval
  if (target?.kind !== 'time') return { ...interval, amounts }
  return {
    ...interval,
    amounts,
    target: { kind: 'time', from: tenth(target.from * share), to: tenth(target.to * share) },
  }
}

function totalOf(amounts: readonly Amount[]): number {
  return sum(amounts, (amount) => (amount.kind === 'time' ? amount.seconds : metersOf(amount.length)))
}

function tenth(seconds: number): number {
  return Math.max(0.1, roundTo(seconds, 1))
}

function cutAmount(amount: Amount, fraction: number, prescription: Prescription): Amount {
  if (amount.kind === 'time') return { kind: 'time', seconds: cutSeconds(amount.seconds, fraction) }
  return { kind: 'distance', length: cutLength(amount.length, fraction, prescription) }
}

/** In the unit in which it was written; marathons in the file's unit. */
function cutLength(length: Length, fraction: number, prescription: Prescription): Length {
  const lap = lapMetersOf(prescription)
  const isMetric = length.unit === 'km' || length.unit === 'm' || length.unit === 'lap'
  const unit = isMetric ? 'km' : length.unit === 'mi' ? 'mi' : prescription.units.distance
  const meters = cutMeters(metersOf(length, lap), fraction, unit)
  if (meters >= metersOf(length, lap)) return length
  const isMarathon = length.unit === 'marathon' || length.unit === 'half marathon'
  const written = isMarathon ? unit : length.unit
  const value = roundTo(meters / metersOf({ value: 1, unit: written }, lap), 4)
  return { value, unit: written }
}
