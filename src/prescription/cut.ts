import { cutCount, cutMeters, cutSeconds, fractionForRace } from '../figures/fuel.ts'
import { metersOf } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import type { Amount, LiftItem, Part, Piece, Prescription, RunItem, Work } from './model.ts'
import { type Item, itemsOf, mostCharacters, printAmounts, printedLines, printItem } from './print.ts'

/** An item of the day as it was, and what became of it; null when it is left out. */
export interface CutLine {
  was: CutItem['item']
  is: CutItem['item'] | null
  changes: string[]
  /** Why it is left out, where that is not plain. */
  gone?: string
}

export interface Cut {
  prescription: Prescription
  /** Every item that was there, part by part. */
  lines: CutLine[][]
}

export type HowToCut = { fraction: number } | { raceMeters: number }

/** A day cut down by a fraction, or to what suits a race over another distance than the goal's.
 * @throws RangeError for a fraction outside 0 to 1, a race of no length, or a race for a day without a goal */
export function cutPrescription(prescription: Prescription, how: HowToCut): Cut {
  const fraction = 'fraction' in how ? how.fraction : fractionOf(prescription, how.raceMeters)
  const lines = prescription.parts.map((part) =>
    itemsOf(part).map((was): CutLine => {
      const { item, changes } = cutItem(was, fraction, prescription)
      return { was, is: item, changes }
    }),
  )
  return cutOf(prescription, lines)
}

function fractionOf({ goal }: Prescription, raceMeters: number): number {
  if (goal === null)
    throw new RangeError('This day has no goal, so nothing says how long its race is. Cut it by a fraction.')
  return fractionForRace(raceMeters, metersOf(goal.length))
}

/** The day that the lines make; parts without an item left are gone, recoveries have two items around them. */
export function cutOf(prescription: Prescription, lines: CutLine[][]): Cut {
  for (const part of lines) {
    leaveLooseRecoveries(part)
    for (const line of part)
      if (line.is !== null && 'step' in line.is && line.is.step.kind === 'work')
        line.is = { ...line.is, step: withFittingTargets(line.is.step, 1) }
  }
  const parts = prescription.parts.flatMap((part, index): Part[] => {
    const items = (lines[index] ?? []).flatMap(({ is }) => (is === null ? [] : [is]))
    return items.length === 0 ? [] : [{ ...part, items } as Part]
  })
  return { prescription: { ...prescription, parts }, lines }
}

/** Keeps the first of a list of times, one for each repeat that is left. A progression that lost its splits becomes the range
 * of its paces.
 * @param times how often the work is run by the groups around it */
function withFittingTargets(work: Work, times: number): Work {
  const often = times * (work.times ?? 1)
  const { body } = work
  if (body.kind === 'group') {
    const steps = body.steps.map((step) => (step.kind === 'work' ? withFittingTargets(step, often) : step))
    return { ...work, body: { ...body, steps } }
  }
  const { target, amounts } = body
  if (target?.kind === 'progression' && work.split === null) {
    const [from, to] = [Math.min(target.first, target.last), Math.max(target.first, target.last)]
    return { ...work, body: { ...body, target: { kind: 'pace', from, to, per: target.per } } }
  }
  const count = often * amounts.length
  if (target?.kind !== 'times' || target.each.length === count) return work
  const each = target.each.slice(0, count)
  const [only] = each
  const kept =
    each.length > 1 ? { ...target, each } : only === undefined ? null : { kind: 'time' as const, ...only }
  return { ...work, body: { ...body, target: kept } }
}

/** A recovery that lost what stood before or behind it goes too. */
function leaveLooseRecoveries(lines: CutLine[]): void {
  const isRecovery = ({ is }: CutLine) => is !== null && 'step' in is && is.step.kind === 'recovery'
  for (let left = lines.filter(({ is }) => is !== null); left.length > 0; ) {
    const loose = [left[0], left.at(-1)].find((line) => line !== undefined && isRecovery(line))
    if (loose === undefined) return
    loose.is = null
    left = left.filter(({ is }) => is !== null)
  }
}

/** A day that was cut, as notation, with each change a comment on its line. Ends with a line end. */
export function printCut({ prescription, lines }: Cut): string {
  const heads = printedLines({ ...prescription, parts: [] }).map(({ text }) => text)
  const kept = [...prescription.parts]
  const parts = lines.flatMap((part) => {
    const body = part.map(printLine)
    const isGone = part.every(({ is }) => is === null)
    const head = isGone ? undefined : kept.shift()
    if (head === undefined) return ['', ...body]
    return ['', head.name === null ? head.kind : `${head.kind}: ${head.name}`, ...body]
  })
  return `${[...heads, ...parts].join('\n')}\n`
}

/** The change behind the item; above it, where the line would grow too long. */
function printLine({ was, is, changes, gone }: CutLine): string {
  if (is === null) return clipped(`  # ${gone ?? 'left out'}: ${printItem(was)}`)
  const text = `  ${printItem(is)}`
  if (changes.length === 0) return text
  const comment = `  # ${changes.join('; ')}`
  return [...text, ...comment].length <= mostCharacters ? text + comment : `${clipped(comment)}\n${text}`
}

function clipped(line: string): string {
  const characters = [...line]
  return characters.length <= mostCharacters ? line : `${characters.slice(0, mostCharacters - 1).join('')}…`
}

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
