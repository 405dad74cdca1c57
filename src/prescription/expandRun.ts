import { sum } from 'd3-array'
import { noise } from '../figures/figure.ts'
import { timeRange, timeRangeOfPace } from '../figures/splits.ts'
import { metersInPaceUnit, metersPerSecondOf } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import { completeSum } from '../units/lists.ts'
import { expectedSeconds, recoverySecondsPerMeter } from './expectedTime.ts'
import type {
  Amount,
  HeartRate,
  Interval,
  Part,
  Prescription,
  Recovery,
  RunItem,
  Span,
  Target,
  Work,
} from './model.ts'
import { printSpan, printWork } from './print.ts'
import {
  type ExpandedItem,
  type ExpandedWork,
  goalSecondsPerKm,
  type IntervalStep,
  type IntervalTarget,
  lapMetersOf,
  type RecoveryStep,
} from './step.ts'

/** Expands one line of a run or cross part into its steps. */
export function expandRunItem(
  item: RunItem,
  place: { part: number; item: number; treadmill: boolean },
  prescription: Prescription,
): ExpandedItem {
  const list = new StepList(place, prescription)
  if (item.step.kind === 'recovery') list.recover(item.step, lapMetersOf(prescription))
  else list.addWork(item.step, null)
  // A recovery that would end the item is left out.
  while (item.step.kind === 'work' && list.steps.at(-1)?.kind === 'recovery') list.steps.pop()
  for (const steps of list.leaves.values()) for (const step of steps) step.of = steps.length
  markTimedSteps(list.steps)
  const works = [...list.leaves].map(([work, steps]): ExpandedWork => {
    const target = work.body.kind === 'piece' ? work.body.target : null
    const lengths = new Set(steps.filter(({ short }) => !short).map(({ meters }) => meters))
    return {
      text: list.leaves.size === 1 ? item.text : printWork(work),
      nominalMeters: lengths.size === 1 ? (steps[0]?.meters ?? null) : null,
      judgedAgainstGoal:
        ['pace', 'speed', 'goal', 'time', 'times', 'progression'].includes(target?.kind ?? '') &&
        Math.abs(steps[0]?.grade ?? 0) <= 1,
      paceUnit: target && 'per' in target ? target.per : null,
      repeats: steps.filter((step) => step.endsInterval).length > 1,
    }
  })
  return { text: item.text, line: item.line, steps: list.steps, works }
}

/** Steps by time follow each other without a key: nobody reaches for a key on a treadmill. */
function markTimedSteps(steps: readonly (IntervalStep | RecoveryStep)[]): void {
  steps.forEach((step, index) => {
    const after = steps[index + 1]
    if (step.kind === 'interval') {
      const goesOn = after?.kind === 'interval' && after.work !== step.work
      if (goesOn && step.seconds !== null && after.seconds !== null)
        step.startsByItself = after.startsByItself = true
      return
    }
    const before = steps[index - 1]
    if (before?.kind !== 'interval' || before.seconds === null || step.seconds === null) return
    if (after?.kind === 'interval' && after.seconds !== null && step.meters === null)
      before.startsByItself = step.startsByItself = after.startsByItself = true
  })
}

/** What fills the time before the next start if no recovery is written. */
const standing: Recovery = { kind: 'recovery', move: 'rest', amount: { kind: 'same' } }

/** Collects the steps of one item in the order in which they are run. */
class StepList {
  readonly steps: (IntervalStep | RecoveryStep)[] = []
  /** The steps in which each interval is run. */
  readonly leaves = new Map<Work, IntervalStep[]>()
  private recoveries = 0

  constructor(
    private readonly place: { part: number; item: number; treadmill: boolean },
    private readonly prescription: Prescription,
  ) {}

  /** Runs a work as often as it is repeated, with recoveries in between. */
  addWork(work: Work, outer: Inherited | null): void {
    const clauses = inherited(work, outer)
    const lap = lapMetersOf(this.prescription, clauses.lane)
    const times = work.times ?? 1
    for (let time = 1; time <= times; time++) {
      const before = this.steps.length
      if (work.body.kind === 'piece') this.addInterval(work, work.body, clauses, lap)
      else
        for (const step of work.body.steps) {
          if (step.kind === 'recovery') this.recover(step, lap)
          else this.addWork(step, clauses)
        }
      const goesOn = time < times || work.times === null
      // The recovery of a group takes the place of that of a ladder at its end.
      if (work.recovery && goesOn && this.steps.at(-1)?.kind === 'recovery') {
        this.steps.pop()
        this.recoveries -= 1
      }
      if (work.every != null && time < times)
        this.recover(work.recovery ?? standing, lap, { seconds: work.every, since: before })
      else if (work.recovery && goesOn) this.recover(work.recovery, lap)
    }
  }

  private addInterval(work: Work, interval: Interval, clauses: Inherited, lap: number): void {
    const steps = this.leaves.get(work) ?? []
    this.leaves.set(work, steps)
    const lengths = interval.amounts.map((each) =>
      each.kind === 'distance' ? metersOf(each.length, lap) : null,
    )
    const whole = completeSum(lengths)
    const done = steps.filter((step) => step.endsInterval).length
    interval.amounts.forEach((amount, rung) => {
      if (rung > 0 && work.recovery) this.recover(work.recovery, lap)
      const meters = lengths[rung] ?? null
      const splits = splitsOf(meters, clauses.split ? metersOf(clauses.split, lap) : null)
      splits.forEach((split, index) => {
        const wanted = targetAt(interval.target, done + rung, index, splits.length)
        const shared = interval.target?.kind === 'times' ? meters : whole
        const step: IntervalStep = {
          ...this.placed('p', this.steps.length - this.recoveries + 1),
          kind: 'interval',
          work: [...this.leaves.keys()].indexOf(work),
          number: steps.length + 1,
          of: 0,
          meters: split.meters,
          seconds: amount.kind === 'time' ? amount.seconds : null,
          target: intervalTargetOf(wanted, clauses.heartRate, split.meters, shared, this.prescription),
          split: splits.length > 1,
          endsInterval: index === splits.length - 1,
          short: split.short,
          startsByItself: false,
          grade: clauses.grade,
          lane: clauses.lane,
          negative: clauses.negative,
          treadmillSpeed: this.place.treadmill ? speedOf(interval.target) : null,
          notes: clauses.notes,
        }
        steps.push(step)
        this.steps.push(step)
      })
    })
  }

  /** Adds a recovery.
   * @param sendOff seconds from the step at the index `since` to the next repeat */
  recover({ amount, move }: Recovery, lap: number, sendOff?: { seconds: number; since: number }): void {
    const last = this.lastInterval()
    const meters =
      'length' in amount ? metersOf(amount.length, lap) : 'way' in amount ? metersRun(last) : null
    const seconds = 'seconds' in amount && sendOff === undefined ? amount.seconds : null
    const expected = (steps: readonly (IntervalStep | RecoveryStep)[]) =>
      sum(steps, (step) => expectedSeconds(step, this.prescription))
    const expectedHere =
      sendOff !== undefined
        ? Math.max(0, sendOff.seconds - expected(this.steps.slice(sendOff.since)))
        : amount.kind === 'same'
          ? expected(last)
          : (seconds ?? (meters === null ? null : meters * recoverySecondsPerMeter[move]))
    const from = sendOff && this.steps[sendOff.since]
    this.recoveries += 1
    this.steps.push({
      ...this.placed('j', this.recoveries),
      kind: 'recovery',
      move,
      meters,
      seconds,
      way: amount.kind === 'way' ? amount.way : null,
      expectedSeconds: expectedHere,
      sendOff: sendOff && from ? { seconds: sendOff.seconds, from: from.id } : null,
      sameTime: amount.kind === 'same' && sendOff === undefined,
      startsByItself: false,
      countsWith: last.map((step) => step.id),
    })
  }

  /** The steps of the last interval: all of its splits, which follow each other. */
  private lastInterval(): IntervalStep[] {
    const end = this.steps.findLastIndex(({ kind }) => kind === 'interval')
    const isOther = (step: IntervalStep | RecoveryStep) => step.kind === 'recovery' || step.endsInterval
    const before = this.steps.findLastIndex((step, index) => index < end && isOther(step))
    return this.steps.slice(before + 1, end + 1).filter((step) => step.kind === 'interval')
  }

  private placed(letter: string, number: number): { id: string; part: number; item: number } {
    const { part, item } = this.place
    return { id: `${part + 1}.${item + 1}.${letter}${number}`, part, item }
  }
}

/** Metres per second in the middle of a written range of speeds; null for any other target. */
function speedOf(target: Interval['target']): number | null {
  return target?.kind === 'speed' ? metersPerSecondOf((target.from + target.to) / 2, target.unit) : null
}

/** The metres of these splits, which the way back has as well; null if they are given by time, or there are none. */
function metersRun(splits: readonly IntervalStep[]): number | null {
  return completeSum(splits.map(({ meters }) => meters)) || null
}

/** The splits of an interval; the last may be shorter. A remainder under a thousandth of a split is a rounding
 * error. */
function splitsOf(meters: number | null, split: number | null): { meters: number | null; short: boolean }[] {
  if (meters === null || split === null || split >= meters) return [{ meters, short: false }]
  const length = Math.floor(meters / split + 0.001)
  const rest = meters - length * split
  const whole = Array.from({ length }, () => ({ meters: split, short: false }))
  return rest > split * 0.001 ? [...whole, { meters: rest, short: true }] : whole
}

/** Counts the efforts and recoveries of a part without expanding it.
 * @param lapMeters metres of a lap */
export function stepsIn(part: Part, lapMeters: number): number {
  if (part.kind === 'run' || part.kind === 'cross')
    return sum(part.items, ({ step }) => stepsOf(step, lapMeters, null))
  if (part.kind === 'lift')
    return sum(part.items, ({ exercises }) => sum(exercises, ({ sets }) => sets.length))
  return part.items.length
}

function stepsOf(step: Work | Recovery, lapMeters: number, outer: Work['split']): number {
  if (step.kind === 'recovery') return 1
  const { body, recovery, times } = step
  const split = step.split ?? outer
  const effortsIn = (amount: Amount) =>
    amount.kind === 'time' || split === null
      ? 1
      : Math.max(1, Math.ceil(metersOf(amount.length, lapMeters) / metersOf(split, lapMeters) - noise))
  const once =
    body.kind === 'group'
      ? sum(body.steps, (each) => stepsOf(each, lapMeters, split))
      : sum(body.amounts, effortsIn) + (recovery === null ? 0 : body.amounts.length - 1)
  const recoveries = recovery === null ? 0 : times === null ? 1 : times - 1
  return once * (times ?? 1) + recoveries
}

/** The pace range that a target requires, in seconds per kilometre, not yet widened; null if it fixes no pace.
 * @param wholeMeters the distance of an `in` target: the whole interval */
function paceOf(target: Target, wholeMeters: number | null, prescription: Prescription): Span | null {
  switch (target.kind) {
    case 'pace':
      return perKm(target, metersInPaceUnit[target.per])
    case 'speed': {
      const kilometersPerHour = metersInPaceUnit[target.unit === 'mph' ? 'mi' : 'km'] / 1000
      return { from: 3600 / (target.to * kilometersPerHour), to: 3600 / (target.from * kilometersPerHour) }
    }
    case 'goal': {
      const goal = goalSecondsPerKm(prescription)
      return goal === null ? null : { from: goal, to: goal }
    }
    case 'time':
      return wholeMeters === null ? null : perKm(target, wholeMeters)
    default:
      return null
  }
}

function perKm({ from, to }: Span, meters: number): Span {
  return { from: from / (meters / 1000), to: to / (meters / 1000) }
}

/** The target of one interval.
 * @param meters of this interval or split; null if given by time
 * @param wholeMeters of the whole interval that an `in` target applies to
 * @returns null if nothing is prescribed */
function intervalTargetOf(
  target: Target | null,
  heartRate: HeartRate | null,
  meters: number | null,
  wholeMeters: number | null,
  prescription: Prescription,
): IntervalTarget | null {
  if (!target && !heartRate) return null
  const pace = target ? paceOf(target, wholeMeters, prescription) : null
  const seconds = pace && meters !== null ? timeRangeOfPace(pace, meters) : null
  return {
    seconds,
    secondsPerKm: seconds && meters !== null ? scaled(seconds, 1000 / meters) : pace && timeRange(pace),
    speed: target?.kind === 'speed' ? `${printSpan(target)} ${target.unit}` : null,
    rpe: target?.kind === 'rpe' ? { from: target.from, to: target.to } : null,
    heartRate: heartRateOf(heartRate ?? target),
    word: target?.kind === 'word' ? target.word : null,
  }
}

/** The range of a heart rate; a ceiling begins at 0. */
function heartRateOf(written: HeartRate | Target | null): Span | null {
  if (written === null) return null
  if ('under' in written) return { from: 0, to: written.under }
  if ('kind' in written) return written.kind === 'heartRate' ? { from: written.from, to: written.to } : null
  return written
}

/** The target of one split or repeat; it differs in a progression and in a list of times.
 * @param rung its number among the intervals of the work, from 0
 * @param split its number among the splits of its interval, from 0, of `splits` */
function targetAt(target: Target | null, rung: number, split: number, splits: number): Target | null {
  if (target?.kind === 'times') {
    // A repeat beyond the list is compared with the last time.
    const span = target.each[Math.min(rung, target.each.length - 1)]
    return span === undefined ? null : { kind: 'time', ...span }
  }
  if (target?.kind !== 'progression') return target
  const share = splits > 1 ? split / (splits - 1) : 0
  const pace = target.first + (target.last - target.first) * share
  return { kind: 'pace', from: pace, to: pace, per: target.per }
}

/** A span in another unit, or of another length. */
export function scaled(span: Span, factor: number): Span {
  return { from: span.from * factor, to: span.to * factor }
}

/** The clauses that every work in a group inherits unless it has its own. */
type Inherited = Pick<Work, 'split' | 'negative' | 'lane' | 'grade' | 'heartRate' | 'notes'>

/** @param outer the clauses of the group around a work; null outside any group */
function inherited(work: Work, outer: Inherited | null): Inherited {
  if (outer === null) return work
  return {
    split: work.split ?? outer.split,
    negative: work.negative || outer.negative,
    lane: work.lane ?? outer.lane,
    grade: work.grade ?? outer.grade,
    heartRate: work.heartRate ?? outer.heartRate,
    notes: work.notes.length ? work.notes : outer.notes,
  }
}
