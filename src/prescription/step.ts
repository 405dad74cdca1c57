import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays'
import { parseISO } from 'date-fns/parseISO'
import { timeRange, timeRangeOfPace } from '../figures/range.ts'
import { formatClockShort } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { isRunning } from './exercise.ts'
import type {
  Dose,
  FuelItem,
  HeartRate,
  Load,
  PartKind,
  PrepItem,
  Prescription,
  Recovery,
  Side,
  Span,
  Target,
  Work,
} from './model.ts'

/* An expanded day: the flat list of steps in the order in which they are done. Seconds,
 * metres; loads keep their unit. A step's id is `part.item.n`, counted from 1, and never changes;
 * steps added during the session get ids of their own. */

interface Place {
  id: string
  /** Indexes of the prescribed part and of the item in it, from 0. */
  part: number
  item: number
}

/** Counts as one result. */
export interface PrepStep extends Place {
  kind: 'prep'
  prep: PrepItem
}

export interface FuelStep extends Place {
  kind: 'fuel'
  fuel: FuelItem
}

/** The target of an interval. `seconds` is for this interval, `secondsPerKm` is a pace; a single value
 * has already been widened to its range. */
export interface IntervalTarget {
  seconds: Span | null
  secondsPerKm: Span | null
  rpe: Span | null
  /** A ceiling has `from` 0. */
  heartRate: Span | null
  word: string | null
}

/** One split, one repeat or one whole interval: one result. */
export interface IntervalStep extends Place {
  kind: 'interval'
  /** Which entry of `works` (ExpandedItem) this belongs to. */
  work: number
  /** Its number among the entries of that work, from 1, and how many there are. */
  number: number
  of: number
  /** Exactly one of the two is set: by distance, or by time. */
  meters: number | null
  seconds: number | null
  target: IntervalTarget | null
  /** A split: the next one begins without a stop. */
  split: boolean
  /** The last split of its interval, or not a split: a stop (a recovery, the next item) follows. */
  endsInterval: boolean
  /** Shorter than the others of its interval: left out of the statistics. */
  short: boolean
  /** An interval and its recovery are both given by time: the clock starts each after the other. */
  walksItself: boolean
  /** Percent; null without a grade. */
  grade: number | null
  lane: number | null
  negative: boolean
  /** Treadmill with a speed target: metres are speed × time, in m/s. */
  treadmillSpeed: number | null
  notes: string[]
}

export interface RecoveryStep extends Place {
  kind: 'recovery'
  move: Recovery['move']
  meters: number | null
  seconds: number | null
  way: 'back' | 'down' | null
  /** Its expected length: its time, or its distance at the pace of a jog or a walk, or the time expected before
   * the next start; null for `way`. */
  expectedSeconds: number | null
  /** The next repeat begins this many seconds after the step with the id `from` began. */
  sendOff: { seconds: number; from: string } | null
  /** It lasts as long as the interval before it took. */
  sameTime: boolean
  walksItself: boolean
  /** The intervals before it: once any of them is recorded, these metres count as run. */
  countsWith: string[]
}

/** Done but not recorded, and not part of the tonnage. */
export interface WarmUpStep extends Place {
  kind: 'warm-up'
  exercise: number
  name: string
  load: { value: number; unit: 'kg' | 'lb' }
  /** One such load in each hand. */
  pair: boolean
  reps: number
  restSeconds: number
}

/** A distance run in a lift part, as in a circuit: it counts as running, not as a set. */
export function isRunningSet({ name, dose }: SetStep): boolean {
  return dose.kind === 'distance' && isRunning(name)
}

export interface SetStep extends Place {
  kind: 'set'
  /** Its load was typed together with the exercise that replaced another. */
  hasTypedLoad?: boolean
  /** Index of the exercise in the item, and its name. */
  exercise: number
  name: string
  /** Set number of this exercise on this line, from 1; for a superset also the round. */
  number: number
  of: number
  dose: Dose
  load: Load | null
  rpe: Span | null
  side: Side | null
  tempo: string | null
  /** Between the groups of a cluster set. */
  pauseInSet: number | null
  /** More exercises of the round follow, after this pause (0: at once); null if the round, or the set, is over. */
  pauseAfter: number | null
  /** After the set or the round, in seconds; null if none is prescribed, or after the last one. */
  restAfter: Span | null
  every: number | null
  /** The last set of its item. */
  last: boolean
  superset: boolean
  /** The exercise prescribed here, if it was another than `name`. */
  insteadOf: string | null
}

export type Step = PrepStep | FuelStep | IntervalStep | RecoveryStep | WarmUpStep | SetStep

/** One interval of a run or cross part: an entry of `running.items` in the summary. */
export interface ExpandedWork {
  text: string
  /** Length of a full split or repeat, in metres; null if given by time, or if a ladder's lengths differ. */
  nominalMeters: number | null
  /** Compared with goal pace: a pace or time target and a grade of at most 1 %. */
  judgedAgainstGoal: boolean
  /** Repeats, rather than the splits of one continuous run. */
  repeats: boolean
}

export interface ExpandedItem {
  text: string
  line: number
  steps: Step[]
  works: ExpandedWork[]
}

export interface ExpandedPart {
  kind: PartKind
  name: string | null
  items: ExpandedItem[]
}

const metersOfPer = { km: 1000, mi: 1609.344, '500 m': 500 } as const
const metersPerHour = { 'km/h': 1000, mph: 1609.344 } as const

/** Seconds per kilometre of the file's goal; null without a goal. */
export function goalSecondsPerKm(prescription: Prescription): number | null {
  if (!prescription.goal) return null
  return prescription.goal.seconds / (metersOf(prescription.goal.length, lapMetersOf(prescription)) / 1000)
}

/** Metres of one lap if no lane is named: the header's, else 400. */
export function lapMetersOf(prescription: Prescription): number {
  return prescription.lap ? metersOf(prescription.lap) : 400
}

/** The pace range that a target requires, in seconds per kilometre, not yet widened; null if it fixes no pace.
 * @param wholeMeters the distance of an `in` target: the whole interval */
function paceOf(target: Target, wholeMeters: number | null, prescription: Prescription): Span | null {
  switch (target.kind) {
    case 'pace': {
      const kilometers = metersOfPer[target.per] / 1000
      return { from: target.from / kilometers, to: target.to / kilometers }
    }
    case 'speed': {
      const kilometersPerHour = metersPerHour[target.unit] / 1000
      return { from: 3600 / (target.to * kilometersPerHour), to: 3600 / (target.from * kilometersPerHour) }
    }
    case 'goal': {
      const goal = goalSecondsPerKm(prescription)
      return goal === null ? null : { from: goal, to: goal }
    }
    case 'time': {
      if (wholeMeters === null) return null
      return { from: target.from / (wholeMeters / 1000), to: target.to / (wholeMeters / 1000) }
    }
    default:
      return null
  }
}

/** The target of one interval.
 * @param meters of this interval or split; null if given by time
 * @param wholeMeters of the whole interval that an `in` target applies to
 * @returns null if nothing is prescribed */
export function intervalTargetOf(
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
    rpe: target?.kind === 'rpe' ? { from: target.from, to: target.to } : null,
    heartRate: heartRateOf(heartRate ?? target),
    word: target?.kind === 'word' ? target.word : null,
  }
}

/** The range of a heart rate; a ceiling begins at 0. */
function heartRateOf(asked: HeartRate | Target | null): Span | null {
  if (asked === null) return null
  if ('under' in asked) return { from: 0, to: asked.under }
  if ('kind' in asked) return asked.kind === 'heartRate' ? { from: asked.from, to: asked.to } : null
  return asked
}

/** The target of one split or repeat; it differs in a progression and in a list of times.
 * @param rung its number among the intervals of the work, from 0
 * @param split its number among the splits of its interval, from 0, of `splits` */
export function targetAt(target: Target | null, rung: number, split: number, splits: number): Target | null {
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

function scaled(span: Span, factor: number): Span {
  return { from: span.from * factor, to: span.to * factor }
}

/** The clauses that every work in a group inherits unless it has its own. */
export interface Inherited {
  split: Work['split']
  negative: boolean
  lane: number | null
  grade: number | null
  heartRate: HeartRate | null
  notes: string[]
}

/** Outside any group. */
export const nothingInherited: Inherited = {
  split: null,
  negative: false,
  lane: null,
  grade: null,
  heartRate: null,
  notes: [],
}

/** What applies inside a work: its own clauses, else the inherited ones. */
export function inherited(work: Work, outer: Inherited): Inherited {
  return {
    split: work.split ?? outer.split,
    negative: work.negative || outer.negative,
    lane: work.lane ?? outer.lane,
    grade: work.grade ?? outer.grade,
    heartRate: work.heartRate ?? outer.heartRate,
    notes: work.notes.length ? work.notes : outer.notes,
  }
}

/** `115 days to 10 km in 39:30`, `today 10 km in 39:30`; empty after its day. @param date local, YYYY-MM-DD */
export function daysToGoal(goal: { length: Length; seconds: number; on: string }, date: string): string {
  const days = differenceInCalendarDays(parseISO(goal.on), parseISO(date))
  if (days < 0) return ''
  const race = `${printLength(goal.length)} in ${formatClockShort(goal.seconds)}`
  if (days === 0) return `today ${race}`
  return `${days} ${days === 1 ? 'day' : 'days'} to ${race}`
}
