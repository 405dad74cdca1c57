import { cutCount, cutMeters, cutSeconds } from '../figures/cutting.ts'
import { metersOf } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import type { Amount, LiftItem, Piece, Prescription, RunItem, Work } from './model.ts'
import type { Item } from './print.ts'
import { printAmounts } from './printRun.ts'

/* One item cut by a fraction. Loads, rests and paces stay; nothing goes below one. Invented, after the
 * common advice to halve a long day. */

export interface CutItem {
  item: Item
  /** What is different, one short phrase each; none when the item is as it was. */
  changes: string[]
}

/** @param fraction over 0 and at most 1 */
export function cutItem(item: Item, fraction: number, prescription: Prescription): CutItem {
  if ('exercises' in item) return cutLift(item, fraction)
  if ('step' in item) return cutRun(item, fraction, prescription)
  return { item, changes: [] }
}

function cutLift(item: LiftItem, fraction: number): CutItem {
  return withSets(item, (count) => cutCount(count, fraction))
}

/** The item with other numbers of sets, taken off the end.
 * @param setsOf how many of so many sets stay, at least 1 */
export function withSets(item: LiftItem, setsOf: (count: number) => number): CutItem {
  const exercises = item.exercises.map((each) => ({
    ...each,
    sets: each.sets.slice(0, setsOf(each.sets.length)),
  }))
  const before = item.exercises.map((each) => each.sets.length)
  if (exercises.every((each, index) => each.sets.length === before[index])) return { item, changes: [] }
  const most = Math.max(...before)
  const isAlike = before.every((count) => count === most)
  const what = exercises.length === 1 ? 'sets' : 'rounds'
  const isCluster = exercises.some(({ sets }) => sets.some(({ dose }) => dose.kind === 'cluster'))
  const pause = exercises.length > 1 || isCluster ? item.pause : null
  return {
    item: { ...item, exercises, pause },
    changes: [isAlike ? `was ${most} ${what}` : `was ${before.join(' and ')} sets`],
  }
}

function cutRun(item: RunItem, fraction: number, prescription: Prescription): CutItem {
  if (item.step.kind === 'recovery') return { item, changes: [] }
  const changes: string[] = []
  const step = withoutIdleRecovery(cutWork(item.step, fraction, prescription, changes))
  return { item: { ...item, step }, changes }
}

/** A ladder of one rung has nothing to recover between. */
function withoutIdleRecovery(work: Work): Work {
  const isOne = work.times === null && work.body.kind === 'piece' && work.body.amounts.length === 1
  return isOne ? { ...work, recovery: null } : work
}

function cutWork(work: Work, fraction: number, prescription: Prescription, changes: string[]): Work {
  if (work.times !== null && work.times > 1) {
    const times = cutCount(work.times, fraction)
    if (times < work.times) changes.push(`was ${work.times} x`)
    return { ...work, times }
  }
  if (work.body.kind === 'piece')
    return withoutIdleSplit({ ...work, body: cutPiece(work.body, fraction, prescription, changes) }, changes)
  const steps = work.body.steps.map((step) =>
    step.kind === 'recovery' ? step : cutWork(step, fraction, prescription, changes),
  )
  return { ...work, body: { kind: 'group', steps } }
}

/** A split as long as the piece splits nothing. */
function withoutIdleSplit(work: Work, changes: string[]): Work {
  if (work.split === null || work.body.kind === 'group') return work
  const split = metersOf(work.split)
  const isIdle = work.body.amounts.every(
    (amount) => amount.kind === 'time' || metersOf(amount.length) <= split,
  )
  if (isIdle) changes.push('no splits')
  return isIdle ? { ...work, split: null } : work
}

/** One amount is cut; of a ladder, rungs go from the end. A time for the whole piece keeps its pace. */
function cutPiece(piece: Piece, fraction: number, prescription: Prescription, changes: string[]): Piece {
  const [first] = piece.amounts
  const amounts =
    piece.amounts.length > 1 || first === undefined
      ? piece.amounts.slice(0, cutCount(piece.amounts.length, fraction))
      : [cutAmount(first, fraction, prescription)]
  const was = printAmounts(piece.amounts)
  if (printAmounts(amounts) === was) return piece
  changes.push(`was ${was}`)
  const share = totalOf(amounts) / totalOf(piece.amounts)
  const { target } = piece
  if (target?.kind !== 'time') return { ...piece, amounts }
  return {
    ...piece,
    amounts,
    target: { kind: 'time', from: tenth(target.from * share), to: tenth(target.to * share) },
  }
}

function totalOf(amounts: readonly Amount[]): number {
  return amounts.reduce(
    (sum, amount) => sum + (amount.kind === 'time' ? amount.seconds : metersOf(amount.length)),
    0,
  )
}

function tenth(seconds: number): number {
  return Math.max(0.1, Math.round(seconds * 10) / 10)
}

function cutAmount(amount: Amount, fraction: number, prescription: Prescription): Amount {
  if (amount.kind === 'time') return { kind: 'time', seconds: cutSeconds(amount.seconds, fraction) }
  return { kind: 'distance', length: cutLength(amount.length, fraction, prescription) }
}

/** In the unit in which it was written; the marathons in the file's. */
function cutLength(length: Length, fraction: number, prescription: Prescription): Length {
  const lap = prescription.lap === null ? 400 : metersOf(prescription.lap)
  const isMetric = length.unit === 'km' || length.unit === 'm' || length.unit === 'lap'
  const unit = isMetric ? 'km' : length.unit === 'mi' ? 'mi' : prescription.units.distance
  const meters = cutMeters(metersOf(length, lap), fraction, unit)
  if (meters >= metersOf(length, lap)) return length
  const isMarathon = length.unit === 'marathon' || length.unit === 'half marathon'
  const written = isMarathon ? unit : length.unit
  const value = Number((meters / metersOf({ value: 1, unit: written }, lap)).toFixed(4))
  return { value, unit: written }
}
