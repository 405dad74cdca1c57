import { groups, sum } from 'd3-array'
import { lapMetersOfLane } from '../figures/race.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { formatClockShort, type PaceUnit } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import type { Length, Mass } from '../units/model.ts'
import { isEndurance, isRunning } from './exercise.ts'
import type {
  Dose,
  Exercise,
  FuelItem,
  Load,
  PartKind,
  PrepItem,
  Prescription,
  Recovery,
  Side,
  Span,
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
interface PrepStep extends Place {
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
  /** As written, `10-12 km/h`: what a treadmill or a bicycle shows. */
  speed: string | null
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
  startsByItself: boolean
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
   * the next start; null for the way back of an interval by time. */
  expectedSeconds: number | null
  /** The next repeat begins this many seconds after the step with the id `from` began. */
  sendOff: { seconds: number; from: string } | null
  /** It lasts as long as the interval before it took. */
  sameTime: boolean
  startsByItself: boolean
  /** The intervals before it: once any of them is recorded, these metres count as run. */
  countsWith: string[]
}

/** Done but not recorded, and not part of the tonnage. */
export interface WarmUpStep extends Place {
  kind: 'warm-up'
  exercise: number
  name: string
  side: SetStep['side']
  load: Mass
  /** One such load in each hand. */
  pair: boolean
  reps: number
  /** To the next warm-up set, or to the first working set. */
  restSeconds: number
}

/** A distance run in a lift part, as in a circuit: it counts as running, not as a set. */
export function isRunningSet({ name, dose }: SetStep): boolean {
  return dose.kind === 'distance' && isRunning(name)
}

/** Whether a set counts as lifting; minutes or metres of endurance work without a load do not. */
export function isLiftedSet(step: SetStep): boolean {
  const { name, dose, load } = step
  const isUnloaded = load === null && (dose.kind === 'time' || dose.kind === 'distance')
  return !isRunningSet(step) && !(isUnloaded && isEndurance(name))
}

export interface SetStep extends Place {
  kind: 'set'
  /** Index of the exercise in the item, and its name. */
  exercise: number
  name: string
  /** Set number of this exercise on this line, from 1; for a superset also the round. */
  number: number
  of: number
  dose: Dose
  load: Load | null
  /** The exercise for which the load is written: another than `name` after a swap by name alone. */
  loadFor: string
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
  /** The unit of its written pace; null without one. */
  paceUnit: PaceUnit | null
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

/** The fewest repetitions of a dose, over all its groups, drops or lifts; null for a hold, a carry and rounds.
 * @param open what "as many as possible" counts as; null makes the number of an open-ended dose unknown */
export function repsOf(dose: Dose, open: number | null): number | null {
  switch (dose.kind) {
    case 'reps':
      return dose.from
    case 'atLeast':
      return open === null ? null : dose.reps
    case 'max':
      return open
    case 'cluster':
      if (open === null && dose.groups.includes('max')) return null
      return sum(dose.groups, (group) => (group === 'max' ? open : group))
    case 'drop':
      return sum(dose.reps)
    case 'complex':
      return sum(dose.lifts, ({ reps }) => reps)
    default:
      return null
  }
}

/** Whether exercises of one line have cluster sets, so that its pause is between the groups of a set. */
export function hasClusters(exercises: readonly Exercise[]): boolean {
  return exercises.some(({ sets }) => sets.some(({ dose }) => dose.kind === 'cluster'))
}

export function stepsOf(parts: readonly ExpandedPart[]): Step[] {
  return parts.flatMap((part) => part.items.flatMap((item) => item.steps))
}

/** Metres of work and recoveries by distance. */
export function metersOfSteps(steps: readonly Step[]): number {
  return sum(steps, (step) => (step.kind === 'interval' || step.kind === 'recovery' ? step.meters : 0))
}

export function isSet(step: Step): step is SetStep {
  return step.kind === 'set'
}

export function isInterval(step: Step): step is IntervalStep {
  return step.kind === 'interval'
}

/** Whether two steps come from the same line of the day. */
export function isSameItem(one: Pick<Step, 'part' | 'item'>, other: Pick<Step, 'part' | 'item'>): boolean {
  return one.part === other.part && one.item === other.item
}

/** Whether two steps are sets of one exercise on one line, or repeats or splits of one work. */
export function isSibling(one: Step, other: Step): boolean {
  if (!isSameItem(one, other)) return false
  if (one.kind === 'set') return other.kind === 'set' && one.exercise === other.exercise
  return one.kind === 'interval' && other.kind === 'interval' && one.work === other.work
}

/** Whether parts of a kind are training: run, cross and lift parts, not prep and fuel. */
export function isTraining(kind: PartKind): boolean {
  return kind !== 'prep' && kind !== 'fuel'
}

/** Groups steps by item, in the order of each item's first step. */
export function stepsByItem(steps: readonly Step[]): Step[][] {
  return groups(steps, ({ part, item }) => `${part}.${item}`).map(([, ofItem]) => ofItem)
}

export type ResultStep = Exclude<Step, RecoveryStep | WarmUpStep>

/** Whether a step has a result to enter: recoveries and warm-up sets do not. */
export function hasResult(step: Step): step is ResultStep {
  return step.kind !== 'recovery' && step.kind !== 'warm-up'
}

/** Whether a step needs an entry in a results file; food has lines of its own there. */
export function isEntry(step: Step): step is Exclude<ResultStep, FuelStep> {
  return hasResult(step) && step.kind !== 'fuel'
}

/** The file's goal in metres and seconds; null without one. */
export function goalIn(
  prescription: Pick<Prescription, 'goal' | 'lap'>,
): { meters: number; seconds: number } | null {
  const { goal } = prescription
  return goal && { meters: metersOf(goal.length, lapMetersOf(prescription)), seconds: goal.seconds }
}

/** Seconds per kilometre of the file's goal; null without a goal. */
export function goalSecondsPerKm(prescription: Prescription): number | null {
  const goal = goalIn(prescription)
  return goal && goal.seconds / (goal.meters / 1000)
}

/** Metres of one lap: the header's, else 400, or what a lane makes of it. The lanes of other tracks are not known. */
export function lapMetersOf({ lap }: Pick<Prescription, 'lap'>, lane: number | null = null): number {
  const meters = lap === null ? 400 : metersOf(lap)
  return lane === null || !hasLanes(meters) ? meters : lapMetersOfLane(lane)
}

/** Whether an interval is on a track: by its lane, the day's lap or its part's name. */
export function isOnTrack(
  { lap, parts }: Pick<Prescription, 'lap' | 'parts'>,
  { part, lane }: Pick<IntervalStep, 'part' | 'lane'>,
): boolean {
  return lane !== null || lap !== null || /track/i.test(parts[part]?.name ?? '')
}

/** Whether a lap is one of 400 m, or of 440 yd. */
export function hasLanes(lapMeters: number): boolean {
  return Math.abs(lapMeters - 400) < 3
}

/** `115 days to 10 km in 39:30`, `today 10 km in 39:30`; empty after its day. @param date local, YYYY-MM-DD */
export function daysToGoal(goal: { length: Length; seconds: number; on: string }, date: string): string {
  const days = daysBetween(date, goal.on)
  if (days < 0) return ''
  const race = `${printLength(goal.length)} in ${formatClockShort(goal.seconds)}`
  if (days === 0) return `today ${race}`
  return `${counted(days, 'day')} to ${race}`
}
