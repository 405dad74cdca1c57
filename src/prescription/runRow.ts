import { lapMetersOfLane } from '../figures/goal.ts'
import { metersOf } from '../units/length.ts'
import { expectedSeconds, recoverySecondsPerMeter } from './estimate.ts'
import type {
  Amount,
  Interval,
  LiftItem,
  Part,
  Prescription,
  Recovery,
  RunItem,
  Span,
  Work,
} from './model.ts'
import {
  type Inherited,
  type IntervalStep,
  inherited,
  intervalTargetOf,
  lapMetersOf,
  type RecoveryStep,
  targetAt,
} from './step.ts'

/** The time left before the next start, if no recovery is written. */
const standing: Recovery = { kind: 'recovery', move: 'rest', amount: { kind: 'same' } }

/** An interval with the steps it is run in. */
export interface Leaf {
  work: Work
  interval: Interval
  grade: number | null
  nominalMeters: number | null
  steps: IntervalStep[]
}

/** Collects the steps of one item in the order in which they are run. */
export class RunRow {
  readonly steps: (IntervalStep | RecoveryStep)[] = []
  private readonly found = new Map<Work, Leaf>()
  private intervals = 0
  private recoveries = 0

  constructor(
    private readonly place: { part: number; item: number; treadmill: boolean },
    private readonly prescription: Prescription,
  ) {}

  leaves(): Leaf[] {
    return [...this.found.values()]
  }

  /** Runs a work as often as it is repeated, with recoveries in between. */
  walk(work: Work, outer: Inherited): void {
    const handed = inherited(work, outer)
    const lap = handed.lane ? lapMetersOfLane(handed.lane) : lapMetersOf(this.prescription)
    const times = work.times ?? 1
    for (let time = 1; time <= times; time++) {
      const before = this.steps.length
      if (work.body.kind === 'piece') this.interval(work, work.body, handed, lap)
      else
        for (const step of work.body.steps) {
          if (step.kind === 'recovery') this.recover(step, lap)
          else this.walk(step, handed)
        }
      const goesOn = time < times || work.times === null
      if (work.every != null && time < times)
        this.recover(work.recovery ?? standing, lap, { seconds: work.every, since: before })
      else if (work.recovery && goesOn) this.recover(work.recovery, lap)
    }
  }

  private interval(work: Work, interval: Interval, handed: Inherited, lap: number): void {
    const leaf = this.leafOf(work, interval, handed, lap)
    const lengths = interval.amounts.map((amount) => metersOfAmount(amount, lap))
    const whole = lengths.every((meters) => meters !== null)
      ? lengths.reduce((sum: number, meters) => sum + (meters ?? 0), 0)
      : null
    const done = leaf.steps.filter((step) => step.endsInterval).length
    interval.amounts.forEach((amount, rung) => {
      const meters = lengths[rung] ?? null
      const stretches = stretchesOf(meters, handed.split ? metersOf(handed.split, lap) : null)
      stretches.forEach((stretch, index) => {
        const wanted = targetAt(interval.target, done + rung, index, stretches.length)
        const shared = interval.target?.kind === 'times' ? meters : whole
        const target = intervalTargetOf(wanted, handed.heartRate, stretch.meters, shared, this.prescription)
        this.intervals += 1
        const step: IntervalStep = {
          id: this.id('p', this.intervals),
          part: this.place.part,
          item: this.place.item,
          kind: 'interval',
          work: this.leaves().indexOf(leaf),
          number: leaf.steps.length + 1,
          of: 0,
          meters: stretch.meters,
          seconds: amount.kind === 'time' ? amount.seconds : null,
          target,
          split: stretches.length > 1,
          endsInterval: index === stretches.length - 1,
          short: stretch.short,
          walksItself: false,
          grade: handed.grade,
          lane: handed.lane,
          negative: handed.negative,
          treadmillSpeed:
            this.place.treadmill && interval.target?.kind === 'speed' ? speedOf(target?.secondsPerKm) : null,
          notes: handed.notes,
        }
        leaf.steps.push(step)
        this.steps.push(step)
      })
      const rungFollows = rung < interval.amounts.length - 1
      if (rungFollows && work.recovery) this.recover(work.recovery, lap)
    })
  }

  private leafOf(work: Work, interval: Interval, handed: Inherited, lap: number): Leaf {
    const known = this.found.get(work)
    if (known) return known
    const lengths = new Set(interval.amounts.map((amount) => metersOfAmount(amount, lap)))
    const only = lengths.size === 1 ? (metersOfAmount(interval.amounts[0] as Amount, lap) ?? null) : null
    const splitMeters = handed.split ? metersOf(handed.split, lap) : null
    const nominalMeters = splitMeters !== null && only !== null ? Math.min(splitMeters, only) : only
    const leaf: Leaf = { work, interval, grade: handed.grade, nominalMeters, steps: [] }
    this.found.set(work, leaf)
    return leaf
  }

  /** Adds a recovery.
   * @param sendOff seconds from the step at the index `since` to the next repeat */
  recover(recovery: Recovery, lap: number, sendOff?: { seconds: number; since: number }): void {
    this.recoveries += 1
    const { amount, move } = recovery
    const meters = 'length' in amount ? metersOf(amount.length, lap) : null
    const seconds = 'seconds' in amount && sendOff === undefined ? amount.seconds : null
    const last = this.lastInterval()
    const expected = (steps: readonly (IntervalStep | RecoveryStep)[]) =>
      steps.reduce((sum, step) => sum + expectedSeconds(step, this.prescription), 0)
    const expectedHere =
      sendOff !== undefined
        ? Math.max(0, sendOff.seconds - expected(this.steps.slice(sendOff.since)))
        : amount.kind === 'same'
          ? expected(last)
          : (seconds ?? (meters === null ? null : meters * recoverySecondsPerMeter[move]))
    const from = sendOff === undefined ? undefined : this.steps[sendOff.since]
    this.steps.push({
      id: this.id('j', this.recoveries),
      part: this.place.part,
      item: this.place.item,
      kind: 'recovery',
      move,
      meters,
      seconds,
      way: amount.kind === 'way' ? amount.way : null,
      expectedSeconds: expectedHere,
      sendOff:
        sendOff === undefined || from === undefined ? null : { seconds: sendOff.seconds, from: from.id },
      sameTime: amount.kind === 'same' && sendOff === undefined,
      walksItself: false,
      countsWith: last.map((step) => step.id),
    })
  }

  /** The steps of the last interval: all of its splits. */
  private lastInterval(): IntervalStep[] {
    const splits: IntervalStep[] = []
    for (let index = this.steps.length - 1; index >= 0; index--) {
      const step = this.steps[index]
      if (step?.kind !== 'interval') continue
      if (step.endsInterval && splits.length > 0) break
      splits.unshift(step)
    }
    return splits
  }

  /** Drops a recovery at the end of the item. */
  dropTrailingRecoveries(): void {
    while (this.steps.at(-1)?.kind === 'recovery') this.steps.pop()
  }

  private id(letter: string, number: number): string {
    return `${this.place.part + 1}.${this.place.item + 1}.${letter}${number}`
  }
}

function metersOfAmount(amount: Amount, lap: number): number | null {
  return amount.kind === 'distance' ? metersOf(amount.length, lap) : null
}

/** Metres per second in the middle of a range of seconds per kilometre. */
function speedOf(secondsPerKm: Span | null | undefined): number | null {
  return secondsPerKm ? 2000 / (secondsPerKm.from + secondsPerKm.to) : null
}

/** One result for each split; the last may be shorter. A remainder under a thousandth of a split is a rounding error */
export function stretchesOf(
  meters: number | null,
  split: number | null,
): { meters: number | null; short: boolean }[] {
  if (meters === null || split === null || split >= meters) return [{ meters, short: false }]
  const whole = Math.floor(meters / split + 0.001)
  const rest = meters - whole * split
  const stretches: { meters: number | null; short: boolean }[] = Array.from({ length: whole }, () => ({
    meters: split,
    short: false,
  }))
  if (rest > split * 0.001) stretches.push({ meters: rest, short: true })
  return stretches
}

/** Counts the efforts and recoveries of a part without expanding it.
 * @param lapMeters metres of a lap */
export function stepsIn(part: Part, lapMeters: number): number {
  switch (part.kind) {
    case 'run':
    case 'cross':
      return part.items.reduce((sum, item) => sum + stepsOfRun(item.step, lapMeters), 0)
    case 'lift':
      return part.items.reduce((sum, item) => sum + setsIn(item), 0)
    default:
      return part.items.length
  }
}

function stepsOfRun(step: RunItem['step'], lapMeters: number): number {
  return step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, step.split)
}

function stepsOfWork(work: Work, lapMeters: number, split: Work['split']): number {
  const own = work.split ?? split
  const times = work.times ?? 1
  const recoveries = work.recovery === null ? 0 : work.times === null ? 1 : times - 1
  const { body } = work
  if (body.kind === 'group')
    return (
      times *
        body.steps.reduce(
          (sum, step) => sum + (step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, own)),
          0,
        ) +
      recoveries
    )
  const efforts = body.amounts.map((amount) =>
    amount.kind === 'time' || own === null
      ? 1
      : Math.max(1, Math.ceil(metersOf(amount.length, lapMeters) / metersOf(own, lapMeters) - 1e-9)),
  )
  const betweenRungs = work.recovery === null ? 0 : body.amounts.length - 1
  return times * (efforts.reduce((sum, each) => sum + each, 0) + betweenRungs) + recoveries
}

function setsIn(item: LiftItem): number {
  return item.exercises.reduce((sum, exercise) => sum + exercise.sets.length, 0)
}
