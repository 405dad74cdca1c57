import { sum } from 'd3-array'
import { counted } from '../units/decimal.ts'
import { metersInPaceUnit, metersPerSecondOf, printDuration, printPace } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { isRowing } from './exercise.ts'
import { nothingInherited } from './expandRun.ts'
import type { Amount, Interval, Recovery, RunItem, Target, Work } from './model.ts'
import { checkSpeeds, implausibleTime, isByGoal, paceAsTime } from './plausible.ts'
import { printAmount, printRecovery, printSpan } from './print.ts'
import {
  type Building,
  bare,
  clauseOf,
  type GroupNode,
  type IntervalNode,
  isSound,
  type PaceNode,
  type Place,
  type RecoveryNode,
  reportDuplicates,
  type SpanNode,
  type TargetNode,
  type WorkNode,
} from './syntax.ts'

export function runStepOf(node: WorkNode | RecoveryNode, building: Building): RunItem['step'] {
  return node.kind === 'recovery' ? bare(node) : workOf(node, building, null)
}

/** What the groups around a work add to it. */
interface Around {
  /** How often they repeat it; `own`: how often it repeats itself. */
  times: number
  own: number
  split: Length | null
}

function checkTarget(
  target: Target,
  rungs: number,
  at: Place,
  { times, split }: Around,
  building: Building,
): void {
  const count = times * rungs
  if (target.kind === 'times' && target.each.length !== count)
    building.report(
      at,
      `there are ${target.each.length} times for ${counted(count, 'repeat')}: write one for each, or one for all`,
    )
  if (target.kind === 'times' && split !== null)
    building.report(at, 'a time for each repeat does not go with splits: remove one of the two')
  if (target.kind === 'progression' && split === null)
    building.report(at, 'a progression goes from split to split: add a split, such as split 1 km')
}

function workOf(node: WorkNode, building: Building, outer: Around | null): Work {
  reportDuplicates(building, node.clauses)
  const split = clauseOf(node.clauses, 'split')?.value
  const around: Around = {
    times: (outer?.times ?? 1) * (node.times?.value ?? 1),
    own: node.times?.value ?? 1,
    split: split ? bare(split) : (outer?.split ?? null),
  }
  const work: Work = {
    kind: 'work',
    times: node.times?.value ?? null,
    body:
      node.body.kind === 'group'
        ? groupOf(node.body, building, around)
        : intervalOf(node.body, building, around),
    recovery: null,
    ...nothingInherited,
    notes: node.body.kind === 'piece' && node.body.extra !== undefined ? [node.body.extra] : [],
  }
  for (const { clause, value } of node.clauses) {
    if (clause === 'text') work.notes.push(value.value)
    else if (clause === 'every') work.every = value.seconds
    else Object.assign(work, { [clause]: bare(value) })
  }
  checkRecovery(node, work, building, outer !== null)
  checkEvery(node, work, building)
  checkSplit(node, work, building)
  return work
}

function groupOf(node: GroupNode, building: Building, around: Around): Work['body'] {
  const steps = node.steps.map((step) =>
    step.kind === 'recovery' ? bare(step) : workOf(step, building, around),
  )
  return { kind: 'group', steps }
}

function checkRecovery(node: WorkNode, work: Work, building: Building, inside: boolean): void {
  if (work.recovery === null) return
  const at = clauseOf(node.clauses, 'recovery')?.at ?? node.at
  const text = printRecovery(work.recovery)
  const isLadder = work.body.kind === 'piece' && work.body.amounts.length > 1
  if (work.times === null && !inside && !isLadder)
    building.report(
      at,
      `a recovery after work that is not repeated is an item: write it on a line of its own (${text})`,
    )
  else if (work.body.kind === 'group' && endsInRecovery(work.body.steps))
    building.report(at, `this group already ends in a recovery: remove that one, or ${text}`)
}

function checkEvery(node: WorkNode, work: Work, building: Building): void {
  const clause = clauseOf(node.clauses, 'every')
  if (clause === undefined || work.every == null) return
  const { recovery } = work
  if (work.times === null)
    building.report(clause.at, 'every is for repeats: write how many, such as 8 x 400 m, every 3:00')
  else if (recovery?.amount.kind === 'time' || recovery?.amount.kind === 'same')
    building.report(
      clause.at,
      `with every the rest is what is left of ${printDuration(work.every)}: remove ${printRecovery(recovery)}`,
    )
}

function endsInRecovery(steps: readonly (Work | Recovery)[]): boolean {
  const last = steps.at(-1)
  if (last?.kind !== 'work') return true
  // The recovery of a ladder goes between its rungs.
  if (last.body.kind === 'piece' && last.body.amounts.length > 1) return false
  if (last.times === null && last.recovery !== null) return true
  return last.body.kind === 'group' && endsInRecovery(last.body.steps)
}

function checkSplit(node: WorkNode, work: Work, building: Building): void {
  const clause = clauseOf(node.clauses, 'split')
  if (clause === undefined || !isSound(clause.value)) return
  if (intervalsIn(work).every(({ amounts }) => amounts.every(({ kind }) => kind === 'time'))) {
    building.report(
      clause.at,
      'an interval given by time has no splits: give it a distance, or remove the split',
    )
    return
  }
  const isTrack = building.part.name !== null && /\btrack\b/i.test(building.part.name)
  if (isTrack && clause.value.unit === 'mi' && clause.value.value === 1)
    building.warn(clause.at, 'a mile on the track is 4 laps and 9.34 m: split 4 laps?')
}

/** The intervals of a step, those of its groups too. */
export function intervalsIn(step: Work | Recovery): Interval[] {
  if (step.kind === 'recovery') return []
  return step.body.kind === 'piece' ? [step.body] : step.body.steps.flatMap(intervalsIn)
}

function intervalOf(node: IntervalNode, building: Building, around: Around): Interval {
  const amounts: Amount[] = bare(node.amounts)
  if (node.target === null) return { kind: 'piece', amounts, target: null }
  const target = forEachSet(targetOf(node.target, node, amounts, building), amounts.length, around)
  checkTarget(target, amounts.length, node.target.at, around, building)
  return { kind: 'piece', amounts, target }
}

/** One time for each repeat of a set is for each repeat of every set: `2 x (3 x 400 m in 80/78/76 s)`. */
function forEachSet(target: Target, rungs: number, { times, own }: Around): Target {
  if (target.kind !== 'times' || target.each.length !== own * rungs) return target
  return { ...target, each: Array.from({ length: times / own }, () => target.each).flat() }
}

/** The target of an interval; reports one that nobody can hold. */
function targetOf(node: TargetNode, interval: IntervalNode, amounts: Amount[], building: Building): Target {
  switch (node.kind) {
    case 'goal':
      if (building.goal === null)
        building.report(node.at, 'this day has no goal: write one above, such as goal: 10 km in 40:00')
      break
    case 'time':
      return timeTargetOf(node, interval, amounts, building)
    case 'times': {
      const each = node.each.map((span, index) => {
        const one = amounts.length > 1 ? [amounts[index % amounts.length] as Amount] : amounts
        const { from, to } = timeTargetOf(span, interval, one, building)
        return { from, to }
      })
      return { kind: 'times', each }
    }
    case 'progression':
      for (const seconds of [node.first, node.last]) {
        const pace = printPace({ from: seconds, to: seconds, per: node.per })
        checkSpeeds(node, `a pace of ${pace}`, [metersInPaceUnit[node.per] / seconds], interval, building)
      }
      break
    case 'pace':
      return paceTargetOf(node, interval, building)
    case 'speed': {
      const speeds = [node.from, node.to].map((speed) => metersPerSecondOf(speed, node.unit))
      checkSpeeds(node, `${printSpan(node)} ${node.unit}`, speeds, interval, building)
    }
  }
  return bare(node)
}

/** A pace; or what was more likely meant: one in another unit, or the time of the interval. */
function paceTargetOf(node: PaceNode, interval: IntervalNode, building: Building): Target {
  const { from, to, per } = node
  const written = printPace(node)
  const other = otherPaceUnit(node, interval, building)
  const asTime = paceAsTime({ ...node, per: other ?? per }, interval, building)
  if (asTime !== null) {
    building.report(node.at, asTime, { fixed: true })
    return { kind: 'time', from, to }
  }
  if (other !== null) {
    const meant = printPace({ from, to, per: other })
    building.report(node.at, `this pace can be ${meant} or ${written}: did you mean ${meant}?`, {
      fixed: true,
    })
    return { kind: 'pace', from, to, per: other }
  }
  const speeds = [metersInPaceUnit[per] / from, metersInPaceUnit[per] / to]
  checkSpeeds(node, `a pace of ${written}`, speeds, interval, building)
  return { kind: 'pace', from, to, per }
}

/** In metres a second. A pace for 500 m that is read as one for a kilometre is faster. */
const fastestRowing = 5

/** The unit that a pace without one probably has, if not the file's: a mile where the interval is in miles, the file in
 * kilometres and the pace not near that of the goal; 500 m where a pace is too fast for the file's unit, in a cross
 * part without a name or named after rowing. */
function otherPaceUnit(node: PaceNode, interval: IntervalNode, building: Building): 'mi' | '500 m' | null {
  const { part } = building
  const { per, from } = node
  if (node.bare !== true) return null
  const isRowed = part.kind === 'cross' && isRowing(part.name ?? 'row')
  if (isRowed && metersInPaceUnit[per] / from > fastestRowing) return '500 m'
  const isMiles = interval.amounts.every((each) => each.kind === 'distance' && each.length.unit === 'mi')
  return per === 'km' && isMiles && !isByGoal(node, building) ? 'mi' : null
}

function timeTargetOf(
  node: SpanNode,
  interval: IntervalNode,
  amounts: Amount[],
  building: Building,
): Target & { kind: 'time' } {
  const target = { kind: 'time' as const, from: node.from, to: node.to }
  const meters = amounts.map((each) =>
    each.kind === 'distance' ? metersOf(each.length, building.lapMeters) : 0,
  )
  if (meters.includes(0)) {
    building.report(
      node.at,
      `an interval of ${amounts.map(printAmount).join('-')} already has its time: a target in ${printDuration(node.from)} needs a distance`,
    )
    return target
  }
  if (!isSound(node) || !interval.amounts.every((each) => isSound('length' in each ? each.length : each)))
    return target
  const what = amounts.map(printAmount).join(' and ')
  const found = implausibleTime(what, sum(meters), target, building.part.kind)
  if (found !== null) building.report(node.at, found.message, { fixed: found.meant !== null })
  return { ...target, ...found?.meant }
}
